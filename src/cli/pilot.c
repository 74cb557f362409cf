/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One set of readings gives one SD; a file with both sides gives that of the
 * differences for a paired plan, else one for each side. */
#include "pilot.h"

#include "input.h"
#include "message.h"

static bool has_sides(const scw_table *table) {
  const scw_reading *readings = scw_table_readings(table);
  for (size_t i = 0; i < scw_table_size(table); i++) {
    if (readings[i].side != SCW_SIDE_NONE) {
      return true;
    }
  }
  return false;
}

/* A scatter that cannot be planned from is said in words: none at all, or zero
 * with no display step to stand in for it. */
static cli_exit take(cli_run *run, scw_figure sd, size_t n, scw_step step,
                     scw_plan_request *plan) {
  bool nothing = sd.state == SCW_PRESENT && sd.value == 0.0 && step.size == 0.0;
  if (sd.state != SCW_PRESENT || nothing) {
    cli_say("%s gives no scatter to plan from: %s", run->request.pilot,
            scw_presence_text(nothing ? SCW_NO_SCATTER : sd.state));
    return CLI_NO_FIGURE;
  }
  plan->sd = sd.value;
  plan->pilot_readings = n;
  run->request.settings.step = step;
  return CLI_ANSWERED;
}

static cli_exit take_change(cli_run *run, const scw_change_result *result,
                            scw_plan_request *plan) {
  const scw_change_report *change = &result->changes[0];
  const scw_summary *before = &change->before.summary;
  const scw_summary *after = &change->after.summary;
  if (result->n_changes != 1) {
    return cli_usage(run->command,
                     "the pilot %s holds %zu products; plan from one of them",
                     run->request.pilot, result->n_changes);
  }
  if (plan->paired && change->design != SCW_PAIRED) {
    return cli_usage(run->command,
                     "--paired needs a pilot with the same spots on both "
                     "sides; %s names none",
                     run->request.pilot);
  }
  if (plan->paired) {
    return take(run, change->difference_sd, change->pairs, before->step, plan);
  }
  if (plan->goal == SCW_PLAN_HALF_WIDTH) {
    return cli_usage(run->command,
                     "--half-width asks about one mean, but the pilot %s holds "
                     "two sides; add --paired for the mean difference, or give "
                     "one side",
                     run->request.pilot);
  }
  size_t fewer = before->n < after->n ? before->n : after->n;
  cli_exit code = take(run, after->sd, fewer, after->step, plan);
  plan->sd_after = plan->sd;
  if (code == CLI_ANSWERED) {
    code = take(run, before->sd, fewer, before->step, plan);
  }
  return code;
}

static cli_exit from_change(cli_run *run, const scw_table *table,
                            scw_plan_request *plan) {
  const scw_change_options options = {0};
  scw_change_result result = {0};
  scw_status status = scw_change(run->context, table, &run->request.settings,
                                 &options, &result);
  cli_exit code = status == SCW_OK ? take_change(run, &result, plan)
                                   : cli_failed(run, status);
  scw_change_result_free(&result);
  return code;
}

static cli_exit take_set(cli_run *run, const scw_readings_result *result,
                         scw_plan_request *plan) {
  if (plan->paired) {
    return cli_usage(run->command,
                     "--paired needs a pilot with readings before and after; "
                     "%s holds one side",
                     run->request.pilot);
  }
  if (result->n_sets != 1) {
    return cli_usage(run->command,
                     "the pilot %s holds %zu sets; plan from one of them",
                     run->request.pilot, result->n_sets);
  }
  const scw_summary *summary = &result->sets[0].summary;
  return take(run, summary->sd, summary->n, summary->step, plan);
}

static cli_exit from_readings(cli_run *run, const scw_table *table,
                              scw_plan_request *plan) {
  scw_readings_result result = {0};
  scw_status status = scw_readings(run->context, table, &run->request.settings,
                                   NULL, 0, &result);
  cli_exit code =
      status == SCW_OK ? take_set(run, &result, plan) : cli_failed(run, status);
  scw_readings_result_free(&result);
  return code;
}

cli_exit cli_read_pilot(cli_run *run, scw_plan_request *plan,
                        scw_table **table) {
  char *name = (char *)run->request.pilot; /* only read */
  cli_exit code = cli_read_tables(run, &name, NULL, 1, table);
  if (code != CLI_ANSWERED) {
    return code;
  }
  return has_sides(*table) ? from_change(run, *table, plan)
                           : from_readings(run, *table, plan);
}
