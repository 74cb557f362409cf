/* SPDX-License-Identifier: GPL-3.0-or-later */
/* scatterwise drift: is the meter, the tile or the retained panel moving? */
#include <string.h>

#include "bench_file.h"
#include "commands.h"
#include "input.h"
#include "message.h"
#include "output.h"
#include "store.h"

static const cli_option own_options[] = {
    CLI_OPTION("assigned", "V", NULL, cli_store_quantity, drift.assigned,
               "certified value of the standard; without it movement is told, "
               "and no bias"),
    CLI_OPTION("assigned-u", "U", "taken as exact", cli_store_positive,
               drift.assigned_u, "uncertainty of the assigned value"),
    CLI_OPTION("assigned-k", "K", "1", cli_store_positive, drift.assigned_k,
               "coverage factor that uncertainty was stated with, such as 2"),
    CLI_OPTION("limit", "D", NULL, cli_store_positive, drift.limit,
               "deviation from the assigned value that you permit; days beyond "
               "it are marked"),
    CLI_OPTION("margin", "D", NULL, cli_store_positive, margin,
               "smallest movement that matters to you"),
    CLI_OPTION("recalibrated", "DATE", NULL, cli_store_name,
               drift.recalibrated,
               "a day on which the instrument was adjusted, as often as needed; "
               "or say so in a column event"),
    CLI_OPTION("into", "FILE", NULL, cli_store_text, drift.into,
               "put bias and drift into this bench file as inputs of a budget; "
               "needs --name"),
    CLI_OPTION("name", "NAME", NULL, cli_store_text, drift.name,
               "what these inputs are called: NAME_bias and NAME_drift; "
               "without --into they are shown"),
    CLI_OPTION("date", "C", NULL, cli_store_text, table.column[SCW_ROLE_DATE],
               "column of the dates"),
    CLI_OPTION("instrument", "C", NULL, cli_store_text,
               table.column[SCW_ROLE_INSTRUMENT],
               "column that names the instrument"),
    CLI_OPTION("standard", "C", NULL, cli_store_text,
               table.column[SCW_ROLE_STANDARD],
               "column that names the tile or the retained panel"),
    CLI_OPTION("event", "C", NULL, cli_store_text, table.column[SCW_ROLE_EVENT],
               "column of events, such as recalibrated"),
};

static const cli_group own_group = {"Drift", NULL, own_options,
                                    CLI_COUNT(own_options)};
static const cli_group *const groups[] = {&own_group, &cli_file_options,
                                          &cli_everywhere_options, NULL};

static bool has_figure(const scw_drift_result *result) {
  bool any = false;
  for (size_t i = 0; i < result->n_logs; i++) {
    const scw_drift_log *log = &result->log[i];
    any = any || log->bias.interval.state == SCW_PRESENT ||
          log->slope.interval.state == SCW_PRESENT ||
          log->stretch[log->n_stretches - 1].mean.interval.state ==
              SCW_PRESENT;
  }
  return any;
}

/* The inputs of the only log, where a name was given. */
static cli_exit take_inputs(cli_run *run, const scw_drift_result *result,
                            scw_drift_inputs *out) {
  const cli_drift_request *drift = &run->request.drift;
  if (result->n_logs != 1) {
    return cli_usage(run->command,
                     "%s holds several logs, and one of them becomes the inputs; "
                     "give a file with one instrument and one standard",
                     run->request.operands[0]);
  }
  scw_status status =
      scw_drift_inputs_of(run->context, result->log, drift->name, out);
  if (status == SCW_OK && out->n == 0) {
    cli_say("this log gives neither bias nor drift to put into a budget");
    return CLI_NO_FIGURE;
  }
  return status == SCW_OK ? CLI_ANSWERED : cli_failed(run, status);
}

static cli_exit put_inputs(cli_run *run, const scw_drift_result *result,
                           const scw_drift_inputs *inputs) {
  scw_bench_input input[2] = {{.line = 0}, {.line = 0}};
  for (size_t i = 0; i < inputs->n; i++) {
    input[i].given = inputs->given[i];
    input[i].about = inputs->about[i];
    input[i].unit = result->unit;
    input[i].shared = inputs->shared[i];
  }
  return cli_bench_put_inputs(run, run->request.drift.into, input, inputs->n);
}

static cli_exit report(cli_run *run, const scw_drift_result *result,
                       const scw_table *table) {
  const cli_drift_request *drift = &run->request.drift;
  scw_drift_inputs inputs = {.n = 0};
  cli_exit code = has_figure(result) ? CLI_ANSWERED : CLI_NO_FIGURE;
  cli_exit put = CLI_ANSWERED;
  if (drift->name != NULL) {
    put = take_inputs(run, result, &inputs);
  }
  if (put == CLI_ANSWERED && drift->into != NULL) {
    put = put_inputs(run, result, &inputs);
  }
  if (put != CLI_ANSWERED) {
    return put;
  }
  scw_status status = scw_report_drift(
      run->context, result, drift->name != NULL ? &inputs : NULL, table,
      cli_report_options(run), run->host->sink);
  return status == SCW_OK ? code : cli_failed(run, status);
}

static scw_drift_options options_of(const cli_request *request) {
  const cli_drift_request *drift = &request->drift;
  return (scw_drift_options){
      .assigned = {drift->assigned.value,
                   drift->assigned.given ? SCW_PRESENT : SCW_NOT_COMPUTED},
      .assigned_u = drift->assigned_u.value,
      .assigned_k = drift->assigned_k.value,
      .limit = drift->limit.value,
      .margin = request->margin.value,
      .recalibrated = drift->recalibrated.items,
      .n_recalibrated = drift->recalibrated.n};
}

static cli_exit check_units(const cli_run *run, const scw_table *table) {
  const cli_drift_request *drift = &run->request.drift;
  const struct {
    const char *option;
    const cli_quantity *value;
  } given[] = {{"assigned", &drift->assigned},
               {"assigned-u", &drift->assigned_u},
               {"limit", &drift->limit},
               {"margin", &run->request.margin}};
  cli_exit code = CLI_ANSWERED;
  for (size_t i = 0; i < CLI_COUNT(given) && code == CLI_ANSWERED; i++) {
    code = cli_check_unit(run, table, given[i].option, given[i].value);
  }
  return code;
}

static cli_exit run_drift(cli_run *run) {
  cli_request *request = &run->request;
  const scw_drift_options options = options_of(request);
  scw_drift_result result = {.n_logs = 0};
  scw_table *table = NULL;
  request->table.log = true;
  cli_exit code = CLI_ANSWERED;
  if (request->drift.into != NULL && request->drift.name == NULL) {
    code = cli_usage(run->command,
                     "--into needs --name, such as --name meter for the inputs "
                     "meter_bias and meter_drift");
  }
  if (code == CLI_ANSWERED) {
    code = cli_read_tables(run, request->operands, NULL, request->n_operands,
                           &table);
  }
  if (code == CLI_ANSWERED) {
    code = check_units(run, table);
  }
  if (code == CLI_ANSWERED) {
    scw_status status = scw_drift(run->context, table, &request->settings,
                                  &options, &result);
    code = status == SCW_OK ? report(run, &result, table)
                            : cli_failed(run, status);
  }
  scw_drift_result_free(&result);
  scw_table_free(table);
  return code;
}

const cli_command cli_drift = {
    .name = "drift",
    .operands = "FILE...",
    .least = 1,
    .most = (size_t)-1,
    .question = "is the meter, the tile or the retained panel moving?",
    .about =
        "Takes a dated log of readings on a check standard: columns date and "
        "reading, and where there are several of them instrument and standard; "
        "a column event with the word recalibrated where the instrument was "
        "adjusted. Readings of one day are repeats: the day is the unit.\n\n"
        "It tells how far the standard reads from its assigned value, whether "
        "it moves and by how much a month, when the level last stepped and by "
        "how much, and the day before which results are not comparable with "
        "today's. Charts (limits from short-term scatter, a weighted moving "
        "average, a cumulative sum) are told with how often they raise a false "
        "alarm.",
    .example = "drift tile-log.csv --assigned 92.4 --assigned-u 0.3 "
               "--assigned-k 2",
    .groups = groups,
    .run = run_drift,
};
