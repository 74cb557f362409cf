/* SPDX-License-Identifier: GPL-3.0-or-later */
/* scatterwise bridge: do the old method and the new one agree? */
#include <stdlib.h>
#include <string.h>

#include "commands.h"
#include "input.h"
#include "message.h"
#include "output.h"
#include "store.h"
#include "store_bridge.h"

static const cli_option own_options[] = {
    CLI_OPTION("margin", "D", NULL, cli_store_positive, margin,
               "largest difference between old and new that does not matter to "
               "you, in the unit of the readings; without it no answer says "
               "\"comparable\""),
    CLI_OPTION("old", "V", "old", cli_store_text, table.before_label,
               "what the method column, or the header of a column, calls the "
               "old method; 'M1*' stands for all that begin with M1"),
    CLI_OPTION("new", "V", "new", cli_store_text, table.after_label,
               "the same for the new method"),
    CLI_OPTION("baseline", "NAME", "by kind and product",
               cli_store_name, bridge.baseline,
               "an item, panel or product that is no product but a baseline, "
               "such as a bare panel or a tile; as often as needed"),
    CLI_OPTION("convert", "FILE|VALUE[,U]", NULL, cli_store_convert,
               bridge.convert,
               "old results to put on the new scale: a value with its standard "
               "uncertainty, as often as needed, or a table product,mean,se"),
    CLI_OPTION("weighted", NULL, NULL, cli_store_yes, bridge.weighted,
               "take the scatter to grow in proportion to the level"),
    CLI_OPTION("error-ratio", "R", "from repeats, else 1", cli_store_positive,
               bridge.error_ratio,
               "variance of the new method's error over that of the old one"),
    CLI_OPTION("fence", "DATE=REASON", NULL, cli_store_fence, bridge.fence,
               "a day on which the rig, the scoring or the number of readings "
               "changed; as often as needed"),
};

static const cli_group own_group = {"Bridge", NULL, own_options,
                                    CLI_COUNT(own_options)};
static const cli_group *const groups[] = {&own_group, &cli_file_options,
                                          &cli_everywhere_options, NULL};

static bool has_figure(const scw_bridge_result *result) {
  return result->bias.interval.state == SCW_PRESENT ||
         result->baselines.difference.interval.state == SCW_PRESENT;
}

/* Old results must be in the unit and at the angle of the readings: two angles
 * are never converted into each other. */
static cli_exit check_old(const scw_table *table, const scw_table *old) {
  const scw_input *theirs = scw_table_input(old, 0);
  for (size_t i = 0; i < scw_table_inputs(table); i++) {
    const scw_input *input = scw_table_input(table, i);
    if (*theirs->unit != '\0' && *input->unit != '\0' &&
        strcmp(theirs->unit, input->unit) != 0) {
      cli_say("%s is in %s, but the readings of %s are in %s; bring both to "
              "one unit",
              theirs->name, theirs->unit, input->name, input->unit);
      return CLI_BAD_INPUT;
    }
    if (*theirs->geometry != '\0' && *input->geometry != '\0' &&
        strcmp(theirs->geometry, input->geometry) != 0) {
      cli_say("%s holds gloss at %s degrees, %s gloss at %s degrees; one angle "
              "is never converted into another",
              theirs->name, theirs->geometry, input->name, input->geometry);
      return CLI_BAD_INPUT;
    }
  }
  return CLI_ANSWERED;
}

static cli_exit read_old(cli_run *run, const scw_table *table,
                         scw_old_results *old) {
  const cli_converts *convert = &run->request.bridge.convert;
  scw_table_options options = {
      .separator = run->request.table.separator,
      .decimal_mark = run->request.table.decimal_mark};
  cli_input input;
  if (convert->file == NULL) {
    return CLI_ANSWERED;
  }
  cli_exit code = cli_input_open(&input, run->host, convert->file);
  if (code != CLI_ANSWERED) {
    return code;
  }
  scw_status status =
      scw_old_results_read(run->context, &options, input.source, old);
  cli_input_close(&input);
  return status == SCW_OK ? check_old(table, old->account)
                          : cli_failed(run, status);
}

/* Values of the command line, then those of the file. */
static scw_old_result *join(const cli_converts *values,
                            const scw_old_results *old) {
  scw_old_result *all = malloc((values->n + old->n + 1) * sizeof *all);
  if (all != NULL && values->n > 0) {
    memcpy(all, values->items, values->n * sizeof *all);
  }
  if (all != NULL && old->n > 0) {
    memcpy(all + values->n, old->result, old->n * sizeof *all);
  }
  return all;
}

static cli_exit answer(cli_run *run, const scw_table *table,
                       const scw_old_results *old) {
  const cli_request *request = &run->request;
  const cli_bridge_request *bridge = &request->bridge;
  scw_old_result *convert = join(&bridge->convert, old);
  const scw_bridge_options options = {
      .margin = request->margin.value,
      .baseline = bridge->baseline.items,
      .n_baseline = bridge->baseline.n,
      .error_ratio = bridge->error_ratio.value,
      .weighted = bridge->weighted,
      .fence = bridge->fence.items,
      .n_fence = bridge->fence.n,
      .convert = convert,
      .n_convert = bridge->convert.n + old->n};
  scw_bridge_result result = {.n_items = 0};
  cli_exit code = CLI_ANSWERED;
  scw_status status = SCW_OUT_OF_MEMORY;
  if (convert != NULL) {
    status = scw_bridge(run->context, table, &request->settings, &options,
                        &result);
  }
  if (status == SCW_OK) {
    code = has_figure(&result) ? CLI_ANSWERED : CLI_NO_FIGURE;
    status = scw_report_bridge(run->context, &result, table, old->account,
                               cli_report_options(run), run->host->sink);
  }
  scw_bridge_result_free(&result);
  free(convert);
  return status == SCW_OK ? code : cli_failed(run, status);
}

static cli_exit run_bridge(cli_run *run) {
  static const scw_side sides[] = {SCW_SIDE_BEFORE, SCW_SIDE_AFTER};
  cli_request *request = &run->request;
  bool two_files = request->n_operands == 2;
  scw_old_results old = {0};
  scw_table *table = NULL;
  request->table.bridge = true;
  if (!two_files && request->table.before_label == NULL) {
    request->table.before_label = "old*";
  }
  if (!two_files && request->table.after_label == NULL) {
    request->table.after_label = "new*";
  }
  cli_exit code = cli_read_tables(run, request->operands,
                                  two_files ? sides : NULL,
                                  request->n_operands, &table);
  if (code == CLI_ANSWERED) {
    code = cli_check_unit(run, table, "margin", &request->margin);
  }
  if (code == CLI_ANSWERED) {
    code = read_old(run, table, &old);
  }
  if (code == CLI_ANSWERED) {
    code = answer(run, table, &old);
  }
  scw_old_results_free(&old);
  scw_table_free(table);
  return code;
}

const cli_command cli_bridge = {
    .name = "bridge",
    .operands = "FILE | OLD NEW",
    .least = 1,
    .most = 2,
    .question = "do the old method and the new one agree, or two meters, or two "
                "panels?",
    .about =
        "Takes items that were run on both methods: FILE has a column item and "
        "columns headed old and new (repeats: old 1, old 2), or a column "
        "method with the words old and new; or give one file for each "
        "method.\n\n"
        "From products run on both it works out the bias, the limits within "
        "which single results differ, and the line that puts old results on "
        "the new scale, with error in both, each with its interval. With "
        "--margin D it says whether results are comparable as they stand or "
        "after conversion; --convert carries old results over with their "
        "added uncertainty, and refuses those beyond the items that were "
        "run.\n\n"
        "Baselines, such as bare panels and tiles, are looked at apart: equal "
        "baselines do not show equal response. Without a product run on both, "
        "scores of old and new stay apart, and the answer says how many "
        "products would do.",
    .example = "bridge two-meters.csv --margin 2",
    .groups = groups,
    .run = run_bridge,
};
