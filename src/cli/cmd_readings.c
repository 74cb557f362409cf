/* SPDX-License-Identifier: GPL-3.0-or-later */
/* scatterwise readings: what does this reading set say? */
#include "commands.h"
#include "input.h"
#include "message.h"
#include "output.h"
#include "store.h"

static const cli_option own_options[] = {
    CLI_OPTION("brief", NULL, NULL, cli_store_yes, brief,
               "only n, mean, SD and interval of each set, in little memory "
               "however long the file"),
    CLI_OPTION("candidates", "R", "1; a fifth of the readings from 15 on",
               cli_store_count, settings.candidates,
               "most readings the stand-out test may flag"),
    CLI_OPTION("leave-out", "PLACE", NULL, cli_store_leave_out, leave_outs,
               "leave out the reading at this place of the set, counted from "
               "1; SET:PLACE where there are several sets; may be repeated"),
    CLI_OPTION("because", "TEXT", NULL, cli_store_because, leave_outs,
               "the reason for the --leave-out before it, printed with the "
               "result"),
};

static const cli_group own_group = {"Readings", NULL, own_options,
                                    CLI_COUNT(own_options)};
static const cli_group *const groups[] = {&own_group, &cli_file_options,
                                          &cli_everywhere_options, NULL};

static bool brief_has_interval(const scw_brief_result *result) {
  for (size_t i = 0; i < result->n_sets; i++) {
    if (result->sets[i].interval.state == SCW_PRESENT) {
      return true;
    }
  }
  return false;
}

static cli_exit brief(cli_run *run) {
  const cli_request *request = &run->request;
  if (request->n_operands > 1) {
    return cli_usage(run->command, "--brief reads one file at a time");
  }
  if (request->leave_outs.n > 0) {
    return cli_usage(run->command,
                     "--brief keeps no readings and so cannot "
                     "leave one out");
  }
  cli_input input;
  cli_exit code = cli_input_open(&input, run->host, request->operands[0]);
  if (code != CLI_ANSWERED) {
    return code;
  }
  scw_brief_result result = {0};
  scw_status status = scw_readings_brief(
      run->context, &request->table, &request->settings, input.source, &result);
  cli_input_close(&input);
  if (status == SCW_OK) {
    code = brief_has_interval(&result) ? CLI_ANSWERED : CLI_NO_FIGURE;
    status = scw_report_brief(run->context, &result, cli_report_options(run),
                              run->host->sink);
  }
  scw_brief_result_free(&result);
  return status == SCW_OK ? code : cli_failed(run, status);
}

static bool has_interval(const scw_readings_result *result) {
  for (size_t i = 0; i < result->n_sets; i++) {
    if (result->sets[i].summary.interval.state == SCW_PRESENT) {
      return true;
    }
  }
  return false;
}

static cli_exit full(cli_run *run) {
  const cli_request *request = &run->request;
  scw_table *table = NULL;
  cli_exit code = cli_read_tables(run, request->operands, NULL,
                                  request->n_operands, &table);
  if (code != CLI_ANSWERED) {
    return code;
  }
  scw_readings_result result = {0};
  scw_status status =
      scw_readings(run->context, table, &request->settings,
                   request->leave_outs.items, request->leave_outs.n, &result);
  if (status == SCW_OK) {
    code = has_interval(&result) ? CLI_ANSWERED : CLI_NO_FIGURE;
    status = scw_report_readings(run->context, &result, table,
                                 cli_report_options(run), run->host->sink);
  }
  scw_readings_result_free(&result);
  scw_table_free(table);
  return status == SCW_OK ? code : cli_failed(run, status);
}

static cli_exit run_readings(cli_run *run) {
  return run->request.brief ? brief(run) : full(run);
}

const cli_command cli_readings = {
    .name = "readings",
    .operands = "FILE...",
    .least = 1,
    .most = (size_t)-1,
    .question = "what does this reading set say?",
    .about =
        "Sums up each set of readings: the mean with its interval, the "
        "scatter, where the next reading and most spots of the panel lie, "
        "which readings stand out, and whether the readings creep while they "
        "are taken.\n\n"
        "A FILE is a bare list of numbers or a table with headers: before and "
        "after in columns of their own, one column per product or panel, or "
        "one row per reading. Several files are put together. - reads "
        "standard input. Nothing is dropped: a reading that stands out is "
        "flagged, and stays in until you leave it out and say why.",
    .example = "readings panel-a.csv",
    .groups = groups,
    .run = run_readings,
};
