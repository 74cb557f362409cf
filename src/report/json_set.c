/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A reading set as a JSON object. */
#include "fields.h"
#include "figure.h"
#include "json_parts.h"
#include "text_parts.h"

static void add_stand_out(scwi_json *to, const scw_set_report *set) {
  const scw_stand_out *found = &set->summary.stand_out;
  scwi_json *object = scwi_json_object(), *steps = scwi_json_array();
  scwi_json_whole(object, "candidates", found->candidates);
  scwi_json_figure(object, "grubbs_statistic", found->grubbs_statistic);
  scwi_json_figure(object, "grubbs_limit", found->grubbs_limit);
  scwi_json_figure(object, "grubbs_p", found->grubbs_p);
  scwi_json_bool(object, "limits_approximate", found->limits_approximate);
  scwi_json_whole(object, "beyond_3_5", found->beyond_3_5);
  scwi_json_bool(object, "may_hide_each_other", found->may_hide_each_other);
  for (size_t i = 0; i < found->n_steps && i < SCW_MAX_CANDIDATES; i++) {
    scwi_json *step = scwi_json_object();
    scwi_json_count(step, "place",
                    scwi_place_in_set(set, found->steps[i].place));
    scwi_json_figure(step, "statistic", scwi_figure(found->steps[i].statistic));
    scwi_json_figure(step, "limit", scwi_figure(found->steps[i].limit));
    scwi_json_add(steps, NULL, step);
  }
  scwi_json_add(object, "steps", steps);
  scwi_json_add(to, "stand_out", object);
}

static scwi_json *flag_of(const scw_set_report *set, const scw_flag *flag) {
  scwi_json *to = scwi_json_object();
  scwi_json_count(to, "place", scwi_place_in_set(set, flag->place));
  scwi_json_number(to, "reading", flag->reading);
  scwi_json_count(to, "line", scwi_line_of_place(set, flag->place));
  scwi_json_text(to, "test", scwi_stand_out_code(flag->test));
  scwi_json_figure(to, "statistic", flag->statistic);
  scwi_json_figure(to, "limit", flag->limit);
  scwi_json_figure(to, "p", flag->p);
  scwi_json_figure(to, "distance_sd", scwi_figure(flag->distance_sd));
  scwi_json_figure(to, "modified_z", flag->modified_z);
  return to;
}

static void add_flags(scwi_json *to, const scw_set_report *set) {
  const scw_stand_out *found = &set->summary.stand_out;
  scwi_json *array = scwi_json_array();
  for (size_t i = 0; i < found->n_flags && i < SCW_MAX_CANDIDATES; i++)
    scwi_json_add(array, NULL, flag_of(set, &found->flags[i]));
  scwi_json_add(to, "flags", array);
}

static void add_tolerance(scwi_json *to, const scw_tolerance *tolerance) {
  scwi_json *object = scwi_json_object();
  scw_presence state = tolerance->interval.state;
  scwi_json_number(object, "content", tolerance->content);
  scwi_json_number(object, "level", tolerance->interval.level);
  scwi_json_figure(object, "k", tolerance->k);
  scwi_json_figure(object, "low", (scw_figure){tolerance->interval.low, state});
  scwi_json_figure(object, "high",
                   (scw_figure){tolerance->interval.high, state});
  scwi_json_add(to, "tolerance", object);
}

static void add_creep(scwi_json *to, const scw_creep *creep) {
  scwi_json *object = scwi_json_object();
  scw_presence state = creep->slope_interval.state;
  scwi_json_figure(object, "slope", creep->slope);
  scwi_json_number(object, "level", creep->slope_interval.level);
  scwi_json_figure(object, "low",
                   (scw_figure){creep->slope_interval.low, state});
  scwi_json_figure(object, "high",
                   (scw_figure){creep->slope_interval.high, state});
  scwi_json_figure(object, "p", creep->p);
  scwi_json_bool(object, "creeping", creep->creeping);
  scwi_json_figure(object, "sd_about_line", creep->sd_about_line);
  scwi_json_figure(object, "kendall_s", creep->kendall_s);
  scwi_json_figure(object, "kendall_p", creep->kendall_p);
  scwi_json_add(to, "creep", object);
}

static void add_level_shift(scwi_json *to, const scw_set_report *set) {
  const scw_level_shift *shift = &set->summary.level_shift;
  scwi_json *object = scwi_json_object();
  size_t place = shift->after_place;
  scwi_json_count(object, "after_place",
                  place ? scwi_place_in_set(set, place) : 0);
  scwi_json_figure(object, "size", shift->size);
  scwi_json_figure(object, "p", shift->p);
  scwi_json_bool(object, "counted", shift->counted);
  scwi_json_count(object, "orders", shift->orders);
  scwi_json_add(to, "level_shift", object);
}

static void add_shape(scwi_json *to, const scw_shape *shape) {
  scwi_json *object = scwi_json_object();
  scwi_json_figure(object, "shapiro_w", shape->shapiro_w);
  scwi_json_figure(object, "shapiro_p", shape->shapiro_p);
  scwi_json_figure(object, "anderson_darling", shape->anderson_darling);
  scwi_json_figure(object, "anderson_darling_p", shape->anderson_darling_p);
  scwi_json_add(to, "shape", object);
}

static void add_without_flagged(scwi_json *to, const scw_summary *summary) {
  if (summary->n == 0) {
    scwi_json_null(to, "without_flagged");
    return;
  }
  scwi_json *object = scwi_json_object();
  scwi_json_whole(object, "n", summary->n);
  scwi_json_figure(object, "mean", summary->mean);
  scwi_json_figure(object, "sd", summary->sd);
  scwi_json_figure(object, "standard_uncertainty",
                   summary->standard_uncertainty);
  scwi_json_figure(object, "df", summary->df);
  scwi_json_interval(object, "interval", summary->interval);
  scwi_json_add(to, "without_flagged", object);
}

static void add_left_out(scwi_json *to, const scw_set_report *set) {
  scwi_json *array = scwi_json_array();
  for (size_t i = 0; i < set->n_left_out; i++) {
    scwi_json *object = scwi_json_object();
    scwi_json_whole(object, "place", set->left_out[i].place);
    scwi_json_text(object, "because", set->left_out[i].because);
    scwi_json_add(array, NULL, object);
  }
  scwi_json_add(to, "left_out", array);
}

static void add_figures(scwi_json *to, const scw_summary *s) {
  scwi_json_whole(to, "n", s->n);
  for (size_t i = 0; i < scwi_n_summary_fields; i++)
    scwi_json_figure(to, scwi_summary_fields[i].key,
                     scwi_field_of(s, scwi_summary_fields[i]));
  scwi_json_interval(to, "interval", s->interval);
  scwi_json_interval(to, "sd_interval", s->sd_interval);
  scwi_json_interval(to, "prediction", s->prediction);
  add_tolerance(to, &s->tolerance);
  scwi_json_figure(to, "step", scwi_step_figure(s->step));
  scwi_json_text(to, "step_origin", scwi_step_origin_code(s->step.origin));
}

scwi_json *scwi_json_set(const scw_set_report *set) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "label", set->label);
  scwi_json_text(to, "unit", set->unit);
  scwi_json_text(to, "sentence", set->sentence);
  scwi_json_whole(to, "readings", set->readings);
  scwi_json_count(to, "spots", set->spots);
  add_figures(to, &set->summary);
  add_stand_out(to, set);
  add_flags(to, set);
  add_creep(to, &set->summary.creep);
  add_level_shift(to, set);
  add_shape(to, &set->summary.shape);
  add_without_flagged(to, &set->without_flagged);
  add_left_out(to, set);
  scwi_json_notes(to, "notes", set->notes, set->n_notes);
  return to;
}
