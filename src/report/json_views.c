/* SPDX-License-Identifier: GPL-3.0-or-later */
/* JSON of what stands beside a change: other views of it, its control, the
 * tile. */
#include "figure.h"
#include "json_views.h"

static void add_permutation(scwi_json *to, const scw_permutation *found) {
  scwi_json *object = scwi_json_object();
  scwi_json_figure(object, "p", found->p);
  scwi_json_figure(object, "smallest_p", found->smallest_p);
  scwi_json_figure(object, "smallest_p_design", found->smallest_p_design);
  scwi_json_add(to, "permutation", object);
}

/* {"NAME":..,"low":..,"high":..} of an estimate and its interval. */
static scwi_json *with_ends(const char *name, scw_figure estimate,
                            scw_interval interval) {
  scwi_json *object = scwi_json_object();
  scwi_json_figure(object, name, estimate);
  scwi_json_figure(object, "low", (scw_figure){interval.low, interval.state});
  scwi_json_figure(object, "high", (scw_figure){interval.high, interval.state});
  return object;
}

void scwi_json_views(scwi_json *to, const scw_change_report *change) {
  scwi_json *tost = scwi_json_object();
  scwi_json *ranks = with_ends("estimate", change->hodges_lehmann.estimate,
                               change->hodges_lehmann.interval);
  add_permutation(to, &change->permutation);
  scwi_json_figure(ranks, "coverage", change->hodges_lehmann.coverage);
  scwi_json_add(to, "hodges_lehmann", ranks);
  scwi_json_add(to, "sd_ratio", with_ends("ratio", change->sd_ratio.ratio,
                                          change->sd_ratio.interval));
  scwi_json_figure(tost, "p", change->tost.p);
  scwi_json_number(tost, "level", change->tost.level);
  scwi_json_add(to, "tost", tost);
  scwi_json_figure(to, "break_even_sd", change->break_even_sd);
  scwi_json_figure(to, "break_even_baseline_u",
                   change->break_even_baseline_u);
}

void scwi_json_control(scwi_json *to, const scw_change_report *change) {
  if (!change->control) {
    scwi_json_null(to, "control");
    return;
  }
  scwi_json *object = scwi_json_object();
  scwi_json_text(object, "label", change->control);
  scwi_json_add(object, "change", scwi_json_estimate(&change->control_change));
  scwi_json_add(object, "treated_change",
                scwi_json_estimate(&change->treated_change));
  scwi_json_add(object, "before", scwi_json_set(&change->control_before));
  scwi_json_add(object, "after", scwi_json_set(&change->control_after));
  scwi_json_add(to, "control", object);
}

void scwi_json_tile(scwi_json *to, const scw_tile *tile) {
  if (tile->n == 0) {
    scwi_json_null(to, "tile");
    return;
  }
  scwi_json *object = scwi_json_object();
  scwi_json_count(object, "n", tile->n);
  scwi_json_figure(object, "assigned",
                   (scw_figure){tile->assigned, tile->difference.state});
  scwi_json_figure(object, "mean", tile->mean);
  scwi_json_figure(object, "difference", tile->difference);
  scwi_json_figure(object, "drift", tile->drift);
  scwi_json_figure(object, "difference_steps", tile->difference_steps);
  scwi_json_figure(object, "drift_steps", tile->drift_steps);
  scwi_json_add(to, "tile", object);
}
