/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "plan_designs.h"

#include <strings.h>

#include "input.h"
#include "message.h"
#include "plan_spots.h"

static cli_exit check_room(const cli_run *run) {
  const cli_request *request = &run->request;
  if (request->fits > 0 && (request->size.given || request->apart.given)) {
    return cli_usage(run->command,
                     "--fits says how many spots a panel has room for; leave "
                     "out --size and --apart");
  }
  if (request->size.given != request->apart.given) {
    return cli_usage(run->command,
                     "the room on a panel needs both its size and the spacing "
                     "of the spots; give --size WxH and --apart D");
  }
  if (request->margin_from_edge.given && !request->size.given) {
    return cli_usage(run->command,
                     "--margin-from-edge goes with --size WxH and --apart D");
  }
  return cli_check_lengths(run);
}

/* All costs are in one unit, where one is said. */
static cli_exit check_cost_unit(const cli_run *run, const char **unit) {
  const cli_request *request = &run->request;
  const cli_quantity costs[] = {request->cost_panel, request->cost_session,
                                request->cost_spot, request->cost_repeat};
  for (size_t i = 0; i < CLI_COUNT(costs); i++) {
    if (costs[i].unit != NULL && *unit != NULL &&
        strcasecmp(costs[i].unit, *unit) != 0) {
      return cli_usage(run->command,
                       "costs in %s and in %s cannot be weighed; give all in "
                       "one unit",
                       *unit, costs[i].unit);
    }
    *unit = costs[i].unit != NULL ? costs[i].unit : *unit;
  }
  return CLI_ANSWERED;
}

cli_exit cli_check_designs(const cli_run *run) {
  const cli_request *request = &run->request;
  const char *unit = NULL;
  bool other = request->cost_panel.given || request->cost_session.given ||
               request->control_half || request->fits > 0 ||
               request->size.given || request->apart.given ||
               request->margin_from_edge.given;
  if (request->cost_spot.given != request->cost_repeat.given ||
      (other && !request->cost_spot.given)) {
    return cli_usage(run->command,
                     "costs weigh one thing against another; give both "
                     "--cost-spot and --cost-repeat");
  }
  if (request->cost_spot.given && request->pilot == NULL) {
    return cli_usage(run->command,
                     "costs need the readings of a panel to weigh them by; "
                     "give them as --pilot FILE");
  }
  cli_exit code = check_cost_unit(run, &unit);
  return code == CLI_ANSWERED ? check_room(run) : code;
}

/* A level of the pilot without a price would be bought without end. */
static cli_exit check_prices(const cli_run *run,
                             const scw_plan_scatter *scatter) {
  const cli_request *request = &run->request;
  const struct {
    scw_plan_level level;
    bool given;
    const char *things, *option;
  } priced[] = {
      {SCW_LEVEL_PANEL, request->cost_panel.given, "panels", "--cost-panel"},
      {SCW_LEVEL_SESSION, request->cost_session.given, "sessions",
       "--cost-session"}};
  for (size_t i = 0; i < CLI_COUNT(priced); i++) {
    bool held =
        scatter->variance[priced[i].level].state == SCW_PRESENT;
    if (held && !priced[i].given) {
      return cli_usage(run->command,
                       "the pilot %s holds %zu %s; say what one more costs: "
                       "%s C",
                       request->pilot, scatter->groups[priced[i].level],
                       priced[i].things, priced[i].option);
    }
  }
  return CLI_ANSWERED;
}

static cli_exit take_room(const cli_run *run, scw_plan_request *plan) {
  const cli_request *request = &run->request;
  plan->fits = request->fits;
  if (!request->size.given) {
    return CLI_ANSWERED;
  }
  plan->fits = scw_spots_that_fit(request->size.width, request->size.height,
                                  request->margin_from_edge.value,
                                  request->apart.value);
  return plan->fits > 0
             ? CLI_ANSWERED
             : cli_usage(run->command,
                         "the margin leaves nothing of the panel; give a "
                         "smaller --margin-from-edge");
}

cli_exit cli_read_scatter(cli_run *run, scw_plan_request *plan,
                          scw_plan_scatter *scatter, scw_table **table) {
  const cli_request *request = &run->request;
  char *name = (char *)request->pilot; /* only read */
  cli_exit code = cli_read_tables(run, &name, NULL, 1, table);
  if (code != CLI_ANSWERED) {
    return code;
  }
  scw_status status = scw_plan_scatter_of(run->context, *table,
                                          &request->settings, scatter);
  if (status != SCW_OK) {
    return cli_failed(run, status);
  }
  plan->scatter = scatter;
  plan->control_half = request->control_half;
  plan->cost_spot = request->cost_spot.value;
  plan->cost_repeat = request->cost_repeat.value;
  plan->cost_session = request->cost_session.value;
  plan->cost_panel = request->cost_panel.value;
  code = check_cost_unit(run, &plan->cost_unit);
  if (code == CLI_ANSWERED) {
    code = check_prices(run, scatter);
  }
  return code == CLI_ANSWERED ? take_room(run, plan) : code;
}
