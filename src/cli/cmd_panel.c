/* SPDX-License-Identifier: GPL-3.0-or-later */
/* scatterwise panel: how uneven is this panel, and where from? */
#include <string.h>
#include <time.h>

#include "bench_file.h"
#include "commands.h"
#include "input.h"
#include "message.h"
#include "output.h"
#include "store.h"

static const cli_option own_options[] = {
    CLI_OPTION("each", "panel", NULL, cli_store_each, panel.each,
               "look at every panel alone, or at every set where no panels are "
               "named; without it panels are one more source of scatter"),
    CLI_OPTION("bank", "FILE", NULL, cli_store_text, panel.bank,
               "keep the pooled scatter within the sets in this bench file, "
               "which is made if need be; change --scatter and plan --scatter "
               "use it"),
    CLI_OPTION("panel-type", "NAME", NULL, cli_store_text, panel.panel_type,
               "with --bank: what kind of panel the sets were read on"),
    CLI_OPTION("meter", "NAME", NULL, cli_store_text, panel.meter,
               "with --bank: the instrument"),
    CLI_OPTION("date", "YYYY-MM-DD", "today", cli_store_text, panel.date,
               "with --bank: the day of the pooling"),
};

static const cli_group own_group = {"Panel", NULL, own_options,
                                    CLI_COUNT(own_options)};
static const cli_group *const groups[] = {&own_group, &cli_file_options,
                                          &cli_everywhere_options, NULL};

static cli_exit check_bank(const cli_run *run) {
  const cli_panel_request *panel = &run->request.panel;
  bool about = panel->panel_type != NULL || panel->meter != NULL ||
               panel->date != NULL;
  if (panel->bank == NULL && about) {
    return cli_usage(run->command,
                     "--panel-type, --meter and --date say what a bench file "
                     "is to hold; name it with --bank FILE");
  }
  if (panel->bank != NULL && panel->panel_type == NULL) {
    return cli_usage(run->command,
                     "--bank needs to know what kind of panel this is; add "
                     "--panel-type NAME, such as \"hull white\"");
  }
  return CLI_ANSWERED;
}

enum { DATE_SIZE = 11 };

static const char *today(char out[DATE_SIZE]) {
  time_t now = time(NULL);
  struct tm parts;
  bool known = localtime_r(&now, &parts) != NULL;
  return known && strftime(out, DATE_SIZE, "%Y-%m-%d", &parts) > 0 ? out : "";
}

/* The pool as one entry of the bench file. */
static cli_exit keep_pool(cli_run *run, const scw_panel_result *result) {
  const cli_panel_request *panel = &run->request.panel;
  const scw_pool *pool = &result->pool;
  char date[DATE_SIZE] = "";
  bool scatter = pool->sd.state == SCW_PRESENT &&
                 pool->df.state == SCW_PRESENT && pool->sd.value > 0;
  if (!scatter) {
    cli_say("the sets give no scatter to keep in %s: %s", panel->bank,
            scw_presence_text(pool->sd.state == SCW_PRESENT ? SCW_NO_SCATTER
                                                            : pool->sd.state));
    return CLI_NO_FIGURE;
  }
  if (*result->unit == '\0') {
    return cli_usage(run->command,
                     "a scatter without a unit fits any readings; say the unit "
                     "with --unit U");
  }
  const scw_bench_scatter entry = {
      .panel_type = panel->panel_type,
      .quantity = *result->quantity != '\0' ? result->quantity : "reading",
      .unit = result->unit,
      .geometry = result->geometry,
      .meter = panel->meter != NULL ? panel->meter : "",
      .sd = pool->sd.value,
      .df = pool->df.value,
      .sets = pool->sets,
      .date = panel->date != NULL ? panel->date : today(date)};
  return cli_bench_put(run, panel->bank, &entry);
}

static bool part_has_figure(const scw_panel_part *part) {
  bool any = part->mean.interval.state == SCW_PRESENT;
  for (size_t i = 0; i < part->n_components; i++) {
    const scw_component *found = &part->component[i].figures;
    any = any || (found->state == SCW_PRESENT &&
                  found->interval.state == SCW_PRESENT);
  }
  return any;
}

static bool has_figure(const scw_panel_result *result) {
  bool any = result->pool.interval.state == SCW_PRESENT;
  for (size_t i = 0; i < result->n_parts; i++) {
    any = any || part_has_figure(&result->parts[i]);
  }
  return any;
}

static cli_exit report(cli_run *run, const scw_panel_result *result,
                       const scw_table *table) {
  cli_exit code = has_figure(result) ? CLI_ANSWERED : CLI_NO_FIGURE;
  if (run->request.panel.bank != NULL) {
    code = keep_pool(run, result);
    if (code != CLI_ANSWERED && code != CLI_NO_FIGURE) {
      return code;
    }
  }
  scw_status status =
      scw_report_panel(run->context, result, table, cli_report_options(run),
                       run->host->sink);
  return status == SCW_OK ? code : cli_failed(run, status);
}

static cli_exit run_panel(cli_run *run) {
  const cli_request *request = &run->request;
  const scw_panel_options options = {.each = request->panel.each};
  scw_panel_result result = {.n_parts = 0};
  scw_table *table = NULL;
  cli_exit code = check_bank(run);
  if (code == CLI_ANSWERED) {
    code = cli_read_tables(run, request->operands, NULL, request->n_operands,
                           &table);
  }
  if (code == CLI_ANSWERED) {
    scw_status status = scw_panel(run->context, table, &request->settings,
                                  &options, &result);
    code = status == SCW_OK ? report(run, &result, table)
                            : cli_failed(run, status);
  }
  scw_panel_result_free(&result);
  scw_table_free(table);
  return code;
}

const cli_command cli_panel = {
    .name = "panel",
    .operands = "FILE...",
    .least = 1,
    .most = (size_t)-1,
    .question = "how uneven is this panel, and where does its scatter come from?",
    .about =
        "Takes the scatter of the readings apart: how much of it lies between "
        "panels, sessions, spots and the repeats at a spot, and between "
        "operators where several have read. From that follows what makes the "
        "mean surer: more spots or more repeats.\n\n"
        "Where positions are given, as x and y, as row and column, or as spots "
        "named A1, A2 ..., it looks for a slope over the panel, an edge, and "
        "neighbours that resemble each other, and draws a map.\n\n"
        "Many small sets of one kind of panel are pooled: one scatter with many "
        "degrees of freedom, and the sets that do not belong by name.",
    .example = "panel hull-map.csv",
    .groups = groups,
    .run = run_panel,
};
