/* SPDX-License-Identifier: GPL-3.0-or-later */
/* scatterwise compare: which products differ? */
#include "commands.h"
#include "input.h"
#include "message.h"
#include "output.h"
#include "store.h"

static const cli_option own_options[] = {
    CLI_OPTION("control", "V", "all pairs", cli_store_text, control,
               "compare each product with this one only, by its label"),
    CLI_OPTION("margin", "D", NULL, cli_store_positive, margin,
               "smallest difference that matters to you, in the unit of the "
               "readings"),
    CLI_OPTION("untreated", "V", NULL, cli_store_text, compare.untreated,
               "a panel without any product, read before and after: its own "
               "change is taken off"),
    CLI_OPTION("shared-spots", NULL, NULL, cli_store_yes, compare.shared_spots,
               "all products were read at the same spots of one panel: "
               "differences are made spot by spot"),
    CLI_OPTION("equal-sd", NULL, NULL, cli_store_yes, compare.equal_sd,
               "take the scatter of all products as one and the same"),
    CLI_OPTION("smaller-is-better", NULL, NULL, cli_store_yes,
               compare.smaller_is_better,
               "the best product is the one with the smallest figure"),
    CLI_OPTION("block", "MASS", NULL, cli_store_positive, block,
               "mass of the block, such as 500g or 4.9N: the readings are "
               "pulls and become static coefficients of friction"),
};

static const cli_group own_group = {"Compare", NULL, own_options,
                                    CLI_COUNT(own_options)};
static const cli_group *const groups[] = {&own_group, &cli_file_options,
                                          &cli_everywhere_options, NULL};

static bool has_interval(const scw_compare_result *result) {
  for (size_t i = 0; i < result->n_comparisons; i++) {
    if (result->comparison[i].interval.state == SCW_PRESENT) {
      return true;
    }
  }
  return false;
}

static cli_exit answer(cli_run *run, const scw_table *table) {
  const cli_request *request = &run->request;
  const scw_compare_options options = {
      .control = request->control,
      .untreated = request->compare.untreated,
      .equal_sd = request->compare.equal_sd,
      .shared_spots = request->compare.shared_spots,
      .smaller_is_better = request->compare.smaller_is_better,
      .margin = request->margin.value,
      .has_block = request->block.given,
      .block = request->block.value,
      .block_unit = request->block.unit};
  scw_compare_result result = {.n_products = 0};
  cli_exit code = CLI_ANSWERED;
  scw_status status = scw_compare(run->context, table, &request->settings,
                                  &options, &result);
  if (status == SCW_OK) {
    code = has_interval(&result) ? CLI_ANSWERED : CLI_NO_FIGURE;
    status = scw_report_compare(run->context, &result, table,
                                cli_report_options(run), run->host->sink);
  }
  scw_compare_result_free(&result);
  return status == SCW_OK ? code : cli_failed(run, status);
}

static cli_exit run_compare(cli_run *run) {
  scw_table *table = NULL;
  cli_exit code = cli_read_tables(run, run->request.operands, NULL,
                                  run->request.n_operands, &table);
  if (code == CLI_ANSWERED && !run->request.block.given) {
    code = cli_check_unit(run, table, "margin", &run->request.margin);
  }
  if (code == CLI_ANSWERED) {
    code = answer(run, table);
  }
  scw_table_free(table);
  return code;
}

const cli_command cli_compare = {
    .name = "compare",
    .operands = "FILE...",
    .least = 1,
    .most = (size_t)-1,
    .question = "which of several products differ?",
    .about =
        "Takes readings of several products (a column product, or a column "
        "for each) and compares the change of each, after minus before, or "
        "its mean where the readings know no before: with one product, "
        "--control NAME, or each with each.\n\n"
        "Many comparisons find something by chance; so all of them are judged "
        "together, and the intervals hold at once. Products that are not shown "
        "to differ are listed as tied, which does not say that they are "
        "equal: only with --margin D can that be answered.",
    .example = "compare dressings.csv --control bare",
    .groups = groups,
    .run = run_compare,
};
