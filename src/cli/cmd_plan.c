/* SPDX-License-Identifier: GPL-3.0-or-later */
/* scatterwise plan: how many readings? */
#include <string.h>
#include <strings.h>

#include "bench_file.h"
#include "commands.h"
#include "input.h"
#include "message.h"
#include "output.h"
#include "pilot.h"
#include "plan_designs.h"
#include "plan_spots.h"
#include "store.h"

static const cli_option own_options[] = {
    CLI_OPTION("half-width", "H", NULL, cli_store_positive, half_width,
               "how many readings make the interval of a mean no wider than "
               "plus or minus H?"),
    CLI_OPTION("detect", "D", NULL, cli_store_positive, detect,
               "how many readings see a change of D?"),
    CLI_OPTION("within", "D", NULL, cli_store_positive, within,
               "how many readings show that nothing changed by more than D?"),
    CLI_OPTION("readings", "N", NULL, cli_store_count, readings,
               "what can N readings on each side, or N paired spots, see?"),
    CLI_OPTION("sd", "S", NULL, cli_store_positive, sd,
               "standard deviation of the readings; with --paired that of the "
               "spot-wise differences"),
    CLI_OPTION("sd-after", "S", "as --sd", cli_store_positive, sd_after,
               "standard deviation after, where it differs"),
    CLI_OPTION("pilot", "FILE", NULL, cli_store_text, pilot,
               "take the standard deviation from the readings of this file"),
    CLI_OPTION("cost-panel", "C", NULL, cli_store_not_negative, cost_panel,
               "with --pilot: what one more panel costs, in time or money; the "
               "plan then weighs panels, sessions, spots and repeats against "
               "each other, at the costs of those the pilot holds"),
    CLI_OPTION("cost-session", "C", NULL, cli_store_not_negative, cost_session,
               "the same for one more session on a panel"),
    CLI_OPTION("cost-spot", "C", NULL, cli_store_not_negative, cost_spot,
               "the same for one more spot"),
    CLI_OPTION("cost-repeat", "C", NULL, cli_store_positive, cost_repeat,
               "the same for one more reading at a spot"),
    CLI_OPTION("control-half", NULL, NULL, cli_store_yes, control_half,
               "with costs: one half of the panel is treated, one is not, both "
               "are read before and after"),
    CLI_OPTION("fits", "N", NULL, cli_store_count, fits,
               "with costs: spots that a panel has room for; or --size WxH, "
               "--apart D and --margin-from-edge D"),
    CLI_OPTION("ratio", "R", "1", cli_store_ratio, ratio,
               "readings after for each reading before; 'best' finds the split "
               "with the fewest readings in all"),
    CLI_OPTION("grid", "FILE", NULL, cli_store_text, grid,
               "plan every row of a table effect,sd; writes CSV: effect, sd, "
               "readings_per_side, spots"),
    CLI_OPTION("paired", NULL, NULL, cli_store_yes, paired,
               "the same spots are read before and after"),
    CLI_OPTION("power", "P", "0.80", cli_store_share, settings.power,
               "chance to see the change, such as 0.9 or 90%"),
    CLI_OPTION("assurance", "P", "0.80", cli_store_share, settings.assurance,
               "with --pilot: how sure to be that the plan is enough, though "
               "the pilot's own SD is uncertain"),
};

static const cli_group own_group = {
    "Plan",
    "One question, --half-width, --detect, --within or --readings, and one "
    "scatter, --sd, --pilot or --scatter.",
    own_options, CLI_COUNT(own_options)};
static const cli_group *const groups[] = {&own_group, &cli_spot_options,
                                          &cli_scatter_options,
                                          &cli_file_options,
                                          &cli_everywhere_options, NULL};

typedef struct goal {
  const char *option;
  scw_plan_goal goal;
  const cli_quantity *target;
} goal;

/* The one question that was asked. */
static cli_exit find_goal(const cli_run *run, scw_plan_request *plan) {
  const cli_request *request = &run->request;
  const cli_quantity count = {.given = request->readings > 0};
  const goal goals[] = {
      {"--half-width", SCW_PLAN_HALF_WIDTH, &request->half_width},
      {"--detect", SCW_PLAN_DETECT, &request->detect},
      {"--within", SCW_PLAN_WITHIN, &request->within},
      {"--readings", SCW_PLAN_READINGS, &count},
  };
  const goal *asked = NULL;
  for (size_t i = 0; i < CLI_COUNT(goals); i++) {
    if (goals[i].target->given && asked != NULL) {
      return cli_usage(run->command, "%s and %s are two questions; ask one",
                       asked->option, goals[i].option);
    }
    asked = goals[i].target->given ? &goals[i] : asked;
  }
  if (asked == NULL) {
    return cli_usage(run->command,
                     "nothing is asked; give one of --half-width H, --detect "
                     "D, --within D, --readings N");
  }
  plan->goal = asked->goal;
  plan->target = asked->target->value;
  plan->readings = request->readings;
  return CLI_ANSWERED;
}

static cli_exit check_scatter(const cli_run *run) {
  const cli_request *request = &run->request;
  if (request->sd.given && request->pilot != NULL) {
    return cli_usage(run->command,
                     "--sd and --pilot are two scatters; give "
                     "one");
  }
  if (request->scatter != NULL &&
      (request->sd.given || request->pilot != NULL)) {
    return cli_usage(run->command,
                     "--scatter brings a scatter of its own; leave out --sd "
                     "and --pilot");
  }
  if (!request->sd.given && request->pilot == NULL &&
      request->scatter == NULL) {
    return cli_usage(run->command,
                     "the scatter is missing; give the standard deviation as "
                     "--sd S, readings to take it from as --pilot FILE or a "
                     "bench file as --scatter FILE");
  }
  if (request->sd_after.given && (request->paired || !request->sd.given)) {
    return cli_usage(run->command,
                     "--sd-after goes with --sd, without "
                     "--paired");
  }
  return CLI_ANSWERED;
}

/* The unit all quantities share; null where none is said. */
static cli_exit find_unit(const cli_run *run, const char **unit) {
  const cli_request *request = &run->request;
  const cli_quantity said[] = {{.unit = request->table.unit},
                               request->half_width,
                               request->detect,
                               request->within,
                               request->sd,
                               request->sd_after};
  for (size_t i = 0; i < CLI_COUNT(said); i++) {
    if (said[i].unit != NULL && *unit != NULL &&
        strcasecmp(said[i].unit, *unit) != 0) {
      return cli_usage(run->command,
                       "%s and %s are two units; give everything in one", *unit,
                       said[i].unit);
    }
    *unit = said[i].unit != NULL ? said[i].unit : *unit;
  }
  return CLI_ANSWERED;
}

/* Where there is a pilot its unit holds, and the target must be in it. */
static cli_exit take_pilot(cli_run *run, scw_plan_request *plan,
                           scw_plan_scatter *scatter, const char **unit,
                           scw_table **table) {
  const cli_request *request = &run->request;
  cli_exit code = CLI_ANSWERED;
  if (request->cost_spot.given) {
    code = cli_read_scatter(run, plan, scatter, table);
  } else {
    code = cli_read_pilot(run, plan, table);
  }
  if (code == CLI_ANSWERED) {
    code = cli_check_unit(run, *table, "half-width", &request->half_width);
  }
  if (code == CLI_ANSWERED) {
    code = cli_check_unit(run, *table, "detect", &request->detect);
  }
  if (code == CLI_ANSWERED) {
    code = cli_check_unit(run, *table, "within", &request->within);
  }
  if (code == CLI_ANSWERED && *scw_table_input(*table, 0)->unit != '\0') {
    *unit = scw_table_input(*table, 0)->unit;
  }
  return code;
}

static cli_exit answer(cli_run *run, const scw_plan_request *plan,
                       const char *unit, const scw_table *table) {
  cli_exit code = CLI_ANSWERED;
  scw_plan_result result = {0};
  scw_status status =
      scw_plan(run->context, plan, unit, &run->request.settings, &result);
  if (status == SCW_OK) {
    code = result.possible ? CLI_ANSWERED : CLI_NO_FIGURE;
    status = scw_report_plan(run->context, &result, table,
                             cli_report_options(run), run->host->sink);
  }
  scw_plan_result_free(&result);
  return status == SCW_OK ? code : cli_failed(run, status);
}

/* A table of effects and scatters, as CSV. */
static cli_exit answer_grid(cli_run *run) {
  const cli_request *request = &run->request;
  scw_plan_grid_result result = {0};
  cli_input input;
  bool more = request->half_width.given || request->detect.given ||
              request->within.given || request->readings > 0 ||
              request->sd.given || request->pilot != NULL || request->json;
  if (more) {
    return cli_usage(run->command,
                     "--grid brings its own effects and scatters and writes "
                     "CSV; leave out the other questions, --sd, --pilot and "
                     "--json");
  }
  cli_exit code = cli_input_open(&input, run->host, request->grid);
  if (code != CLI_ANSWERED) {
    return code;
  }
  scw_status status = scw_plan_grid(run->context, &request->table,
                                    input.source, &request->settings, &result);
  cli_input_close(&input);
  if (status == SCW_OK) {
    status = scw_report_plan_grid(run->context, &result, run->host->sink);
  }
  scw_plan_grid_result_free(&result);
  return status == SCW_OK ? code : cli_failed(run, status);
}

static cli_exit run_plan(cli_run *run) {
  if (run->request.scatter != NULL &&
      (run->request.spots > 0 || run->request.grid != NULL)) {
    return cli_usage(run->command,
                     "--spots and --grid need no scatter; leave out "
                     "--scatter");
  }
  if (run->request.spots > 0) {
    return cli_plan_spots(run);
  }
  if (cli_only_for_spots(&run->request)) {
    return cli_usage(run->command,
                     "a list of places needs --spots N: how many to lay out");
  }
  if (run->request.grid != NULL) {
    return answer_grid(run);
  }
  const cli_request *request = &run->request;
  scw_plan_request plan = {.paired = request->paired,
                           .sd = request->sd.value,
                           .sd_after = request->sd_after.value,
                           .unequal = request->ratio.given,
                           .ratio = request->ratio.value,
                           .bench = request->scatter != NULL ? &run->bench
                                                             : NULL,
                           .bank = {.panel_type = request->panel_type,
                                    .geometry = request->table.geometry,
                                    .meter = request->meter}};
  scw_plan_scatter scatter = {.assurance = 0};
  const char *unit = NULL;
  scw_table *table = NULL;
  cli_exit code = find_goal(run, &plan);
  if (code == CLI_ANSWERED) {
    code = cli_bench_open(run);
  }
  if (code == CLI_ANSWERED) {
    code = check_scatter(run);
  }
  if (code == CLI_ANSWERED) {
    code = cli_check_designs(run);
  }
  if (code == CLI_ANSWERED) {
    code = find_unit(run, &unit);
  }
  if (code == CLI_ANSWERED && request->pilot != NULL) {
    code = take_pilot(run, &plan, &scatter, &unit, &table);
  }
  if (code == CLI_ANSWERED) {
    code = answer(run, &plan, unit != NULL ? unit : "", table);
  }
  scw_table_free(table);
  return code;
}

const cli_command cli_plan = {
    .name = "plan",
    .operands = "",
    .least = 0,
    .most = 0,
    .question = "how many readings?",
    .about =
        "Answers in whole numbers, never below 3: readings on each side, or "
        "spots where the same spots are read before and after (--paired). "
        "Trivial and impossible plans are answered in words. A small table "
        "shows what a few readings more or less would do.\n\n"
        "The scatter must come from your own bench: there is no default. A "
        "pilot of a few readings will do, and the plan then says how far its "
        "own uncertainty carries.",
    .example = "plan --detect 0.5 --paired --pilot gloss-k2.csv",
    .groups = groups,
    .run = run_plan,
};
