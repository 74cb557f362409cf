/* SPDX-License-Identifier: GPL-3.0-or-later */
/* scatterwise change: did the product move the reading? */
#include "commands.h"
#include "input.h"
#include "message.h"
#include "output.h"
#include "store.h"

static const cli_option own_options[] = {
    CLI_OPTION("margin", "D", NULL, cli_store_positive, margin,
               "smallest change that matters to you, in the unit of the "
               "readings; without it no answer says \"no change\""),
    CLI_OPTION("block", "MASS", NULL, cli_store_positive, block,
               "mass of the block, such as 500g or 4.9N: the readings are "
               "pulls and become static coefficients of friction"),
};

static const cli_group own_group = {"Change", NULL, own_options,
                                    CLI_COUNT(own_options)};
static const cli_group *const groups[] = {&own_group, &cli_file_options,
                                          &cli_everywhere_options, NULL};

static bool has_interval(const scw_change_result *result) {
  for (size_t i = 0; i < result->n_changes; i++) {
    if (result->changes[i].change.interval.state == SCW_PRESENT) {
      return true;
    }
  }
  return false;
}

/* A coefficient of friction has no unit, whatever the pulls were read in. */
static cli_exit check_margin(const cli_run *run, const scw_table *table) {
  const cli_request *request = &run->request;
  if (request->block.given && request->margin.unit != NULL) {
    return cli_usage(run->command,
                     "--margin is given in %s, but with --block it is a "
                     "coefficient of friction, which has no unit",
                     request->margin.unit);
  }
  return cli_check_unit(run, table, "margin", &request->margin);
}

static cli_exit answer(cli_run *run, const scw_table *table) {
  const cli_request *request = &run->request;
  const scw_change_options options = {
      .margin = request->margin.value,
      .has_block = request->block.given,
      .block = request->block.value,
      .block_unit = request->block.unit,
  };
  cli_exit code = CLI_ANSWERED;
  scw_change_result result = {0};
  scw_status status =
      scw_change(run->context, table, &request->settings, &options, &result);
  if (status == SCW_OK) {
    code = has_interval(&result) ? CLI_ANSWERED : CLI_NO_FIGURE;
    status = scw_report_change(run->context, &result, table,
                               cli_report_options(run), run->host->sink);
  }
  scw_change_result_free(&result);
  return status == SCW_OK ? code : cli_failed(run, status);
}

static cli_exit run_change(cli_run *run) {
  static const scw_side sides[] = {SCW_SIDE_BEFORE, SCW_SIDE_AFTER};
  const cli_request *request = &run->request;
  scw_table *table = NULL;
  cli_exit code = cli_read_tables(run, request->operands,
                                  request->n_operands == 2 ? sides : NULL,
                                  request->n_operands, &table);
  if (code == CLI_ANSWERED) {
    code = check_margin(run, table);
  }
  if (code == CLI_ANSWERED) {
    code = answer(run, table);
  }
  scw_table_free(table);
  return code;
}

const cli_command cli_change = {
    .name = "change",
    .operands = "FILE | BEFORE AFTER",
    .least = 1,
    .most = 2,
    .question =
        "did the product move the reading, or is that the panel's "
        "own scatter?",
    .about =
        "Works out after minus before with its interval and gives one "
        "verdict. Readings are paired by spot where the file names spots on "
        "both sides; else the two sides are compared as a whole. FILE holds "
        "both sides, in columns headed before and after or with a state "
        "column; or give one file for each side.\n\n"
        "Only you can say which change matters: give it as --margin D. "
        "Without a margin the answer is \"changed\" or \"cannot tell\", and "
        "never that nothing changed.\n\n"
        "A block-pull coefficient ranks slickness under that block, load, "
        "dwell and speed. It is not a slip-resistance rating and is not to be "
        "used for floors, steps, decks, footwear, pedals, wheel rims, brakes, "
        "tyre treads, seats or controls; keep slick products off them.",
    .example = "change gloss-k1.csv --margin 0.5",
    .groups = groups,
    .run = run_change,
};
