/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "plan_spots.h"

#include <string.h>
#include <strings.h>

#include "message.h"
#include "output.h"
#include "print.h"
#include "store.h"
#include "store_spots.h"
#include "write_file.h"

static const cli_option options[] = {
    CLI_OPTION("spots", "N", NULL, cli_store_count, spots,
               "how many spots on each panel"),
    CLI_OPTION("size", "WxH", NULL, cli_store_size, size,
               "size of the panel, such as '300x200 mm', in any one unit"),
    CLI_OPTION("margin-from-edge", "D", "0", cli_store_not_negative,
               margin_from_edge, "kept free at every edge"),
    CLI_OPTION("layout", "L", "spread", cli_store_layout, layout,
               "spread: as far apart as they go; grid: in rows; random: one "
               "drawn in each of N equal areas"),
    CLI_OPTION("apart", "D", NULL, cli_store_positive, apart,
               "spacing to keep between spots, such as that at which "
               "neighbours no longer resemble each other"),
    CLI_OPTION("panels", "N", "1", cli_store_count, panels,
               "panels to lay out"),
    CLI_OPTION("repeats", "N", "1", cli_store_count, repeats,
               "readings at each spot"),
    CLI_OPTION("halves", NULL, NULL, cli_store_yes, halves,
               "one half of the panel is treated, one is the control; which, "
               "is drawn"),
    CLI_OPTION("blind", NULL, NULL, cli_store_yes, blind,
               "name the halves by drawn codes in the template"),
    CLI_OPTION("reading-order", "O", "random", cli_store_reading_order,
               reading_order, "random, or walk: a short path"),
    CLI_OPTION("seed", "N", "1", cli_store_count, seed,
               "another seed draws another list"),
    CLI_OPTION("template", "FILE", NULL, cli_store_text, template_file,
               "write a CSV file to fill in at the bench, one row for each "
               "reading; with --paired for both states; - is standard output"),
};

const cli_group cli_spot_options = {
    "Where to read",
    "With --spots N --size WxH: a list of places, in an order to read them.",
    options, CLI_COUNT(options)};

bool cli_only_for_spots(const cli_request *request) {
  return request->panels > 0 || request->repeats > 0 || request->halves ||
         request->blind || request->layout != SCW_LAYOUT_SPREAD ||
         request->reading_order != SCW_ORDER_RANDOM || request->seed > 0 ||
         request->template_file != NULL;
}

cli_exit cli_check_lengths(const cli_run *run) {
  const cli_request *request = &run->request;
  const cli_quantity *lengths[] = {&request->margin_from_edge,
                                   &request->apart};
  for (size_t i = 0; i < CLI_COUNT(lengths); i++) {
    if (lengths[i]->unit != NULL && request->size.unit != NULL &&
        strcasecmp(lengths[i]->unit, request->size.unit) != 0) {
      return cli_usage(run->command,
                       "the panel is measured in %s and a distance in %s; "
                       "give both in one unit",
                       request->size.unit, lengths[i]->unit);
    }
  }
  return CLI_ANSWERED;
}

static cli_exit check(const cli_run *run) {
  const cli_request *request = &run->request;
  bool more = request->half_width.given || request->detect.given ||
              request->within.given || request->readings > 0 ||
              request->sd.given || request->pilot != NULL ||
              request->grid != NULL || request->cost_spot.given ||
              request->cost_repeat.given || request->cost_session.given ||
              request->cost_panel.given || request->control_half ||
              request->fits > 0 || request->ratio.given;
  if (more) {
    return cli_usage(run->command,
                     "--spots asks where to read; ask how many in a plan of "
                     "its own");
  }
  if (!request->size.given) {
    return cli_usage(run->command,
                     "the size of the panel is missing; give --size WxH, such "
                     "as --size '300x200 mm'");
  }
  if (request->template_file != NULL &&
      strcmp(request->template_file, "-") == 0 &&
      (request->json || request->csv)) {
    return cli_usage(run->command,
                     "--template - writes the template instead of a report; "
                     "leave out --json and --csv");
  }
  return cli_check_lengths(run);
}

static scw_layout_request request_of(const cli_request *request) {
  const char *unit = request->size.unit;
  if (unit == NULL) {
    unit = request->margin_from_edge.unit;
  }
  if (unit == NULL) {
    unit = request->apart.unit;
  }
  return (scw_layout_request){.width = request->size.width,
                              .height = request->size.height,
                              .length_unit = unit,
                              .unit = request->table.unit,
                              .margin = request->margin_from_edge.value,
                              .apart = request->apart.value,
                              .spots = request->spots,
                              .panels = request->panels,
                              .repeats = request->repeats,
                              .layout = request->layout,
                              .reading_order = request->reading_order,
                              .halves = request->halves,
                              .blind = request->blind,
                              .before_after = request->paired};
}

static cli_exit write_template(const cli_run *run,
                               const scw_layout_result *list) {
  cli_new_file file;
  cli_exit code = cli_new_file_open(&file, run->request.template_file);
  if (code != CLI_ANSWERED) {
    return code;
  }
  scw_status status =
      scw_report_template(run->context, list, cli_new_file_sink(&file));
  code = cli_new_file_close(&file, status == SCW_OK);
  return code == CLI_ANSWERED && status != SCW_OK ? cli_failed(run, status)
                                                  : code;
}

/* The list, and the template beside it or in its place. */
static cli_exit write_list(const cli_run *run, const scw_layout_result *list) {
  const cli_request *request = &run->request;
  const char *file = request->template_file;
  cli_exit code = list->possible ? CLI_ANSWERED : CLI_NO_FIGURE;
  scw_status status;
  bool instead = file != NULL && strcmp(file, "-") == 0 && list->possible;
  if (file != NULL && !instead && list->possible) {
    code = write_template(run, list);
  }
  if (code == CLI_NOT_WRITTEN) {
    return code;
  }
  status = instead ? scw_report_template(run->context, list, run->host->sink)
                   : scw_report_layout(run->context, list,
                                       cli_report_options(run),
                                       run->host->sink);
  if (status == SCW_OK && file != NULL && !instead && list->possible &&
      !request->json && !request->csv) {
    cli_print(run->host->sink, "  template        %s: %zu readings to take\n",
              file, list->n_turns);
  }
  return status == SCW_OK ? code : cli_failed(run, status);
}

cli_exit cli_plan_spots(cli_run *run) {
  scw_layout_result list = {0};
  cli_exit code = check(run);
  if (code != CLI_ANSWERED) {
    return code;
  }
  if (run->request.seed > 0) {
    run->request.settings.seed = run->request.seed;
  }
  scw_layout_request request = request_of(&run->request);
  scw_status status =
      scw_layout(run->context, &request, &run->request.settings, &list);
  code = status == SCW_OK ? write_list(run, &list) : cli_failed(run, status);
  scw_layout_result_free(&list);
  return code;
}
