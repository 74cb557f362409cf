/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "made_up.h"

#include <stdlib.h>
#include <string.h>

static double gloss[] = {84.6, 84.3, 84.9, 84.6, 84.2,
                         84.7, 84.5, 88.6, 84.4, 84.8};
static size_t gloss_lines[] = {2, 3, 4, 5, 6, 7, 8, 9, 10, 11};
/* The third reading of the set was left out. */
static size_t gloss_places[] = {1, 2, 4, 5, 6, 7, 8, 9, 10, 11};
static scw_leave_out left_out[] = {{3, NULL, "the meter had slipped"}};
static scw_note set_notes[] = {
    {"assumes_one_reading_per_spot", "No spot column was there."}};

static scw_summary whole_summary(void) {
  scw_summary s = {.n = 10};
  s.mean = FIGURE(84.964);
  s.sd = FIGURE(1.297176420795054);
  s.standard_uncertainty_scatter = FIGURE(0.40);
  s.standard_uncertainty = FIGURE(0.41);
  s.df = FIGURE(9.25);
  s.interval = INTERVAL(84.03205588912195, 85.88794411087804);
  s.sd_interval = INTERVAL(0.89, 2.37);
  s.prediction = INTERVAL(81.88, 88.04);
  s.tolerance = (scw_tolerance){0.9, FIGURE(3.39), INTERVAL(80.56, 89.36)};
  s.median = FIGURE(84.6);
  s.q1 = FIGURE(84.425);
  s.q3 = FIGURE(84.775);
  s.mad = FIGURE(0.2);
  s.mad_sd = FIGURE(0.2965204437011204);
  s.robust_mean = FIGURE(84.60661505314627);
  s.robust_sd = FIGURE(0.30635698554435825);
  s.smallest = FIGURE(84.2);
  s.largest = FIGURE(88.6);
  s.step = (scw_step){0.1, SCW_STEP_INFERRED};
  return s;
}

static void add_order(scw_summary *s) {
  s->creep = (scw_creep){
      FIGURE(0.128), FIGURE(0.4), FIGURE(1.3125), INTERVAL(-0.2047, 0.4617),
      false,         FIGURE(6),   FIGURE(0.653)};
  s->serial = (scw_serial){FIGURE(-0.18), FIGURE(0.073), FIGURE(3.03)};
  s->level_shift = (scw_level_shift){.after_place = 7,
                                     .size = FIGURE(1.39),
                                     .p = FIGURE(0.49),
                                     .counted = true,
                                     .seed = 7,
                                     .orders = 9999};
  s->shape = (scw_shape){FIGURE(0.5296), FIGURE(0.0000081), FIGURE(2.297),
                         NO_FIGURE(SCW_TOO_FEW)};
}

static void add_stand_out(scw_summary *s) {
  s->stand_out = (scw_stand_out){.candidates = 1,
                                 .grubbs_statistic = FIGURE(2.806),
                                 .grubbs_limit = FIGURE(2.29),
                                 .grubbs_p = FIGURE(0.00000167),
                                 .n_steps = 1,
                                 .steps = {{8, 2.806, 2.29}},
                                 .n_flags = 1,
                                 .beyond_3_5 = 1};
  s->stand_out.flags[0] = (scw_flag){.place = 8,
                                     .reading = 88.6,
                                     .test = SCW_GRUBBS,
                                     .statistic = FIGURE(2.806),
                                     .limit = FIGURE(2.29),
                                     .p = FIGURE(0.00000167),
                                     .distance_sd = 2.806,
                                     .modified_z = NO_FIGURE(SCW_MAD_ZERO)};
}

scw_set_report made_up_set(void) {
  scw_set_report set = {.label = "K1", .unit = "GU", .readings = 10};
  set.sentence =
      "Mean 84.96 GU, interval 84.03 to 85.89 GU (95 %), from 10 "
      "readings; reading 9 stands out.";
  set.summary = whole_summary();
  add_order(&set.summary);
  add_stand_out(&set.summary);
  set.values = gloss;
  set.lines = gloss_lines;
  set.places = gloss_places;
  set.n_left_out = 1;
  set.left_out = left_out;
  set.without_flagged = (scw_summary){.n = 9,
                                      .mean = FIGURE(84.5556),
                                      .sd = FIGURE(0.23),
                                      .standard_uncertainty = FIGURE(0.077),
                                      .interval = INTERVAL(84.379, 84.732)};
  set.notes = set_notes;
  set.n_notes = 1;
  return set;
}

scw_set_report made_up_single(void) {
  static double value[] = {84.6};
  static size_t one[] = {1};
  const scw_figure none = NO_FIGURE(SCW_ONE_READING);
  scw_set_report set = {.label = "K2", .unit = "GU", .readings = 1};
  set.sentence = "Mean 84.6 GU from 1 reading.";
  set.summary = (scw_summary){
      .n = 1, .mean = FIGURE(84.6), .sd = none, .standard_uncertainty = none};
  set.summary.interval = NO_INTERVAL(SCW_ONE_READING);
  set.summary.median = set.summary.q1 = set.summary.q3 = FIGURE(84.6);
  set.summary.sd_interval = NO_INTERVAL(SCW_ONE_READING);
  set.summary.prediction = NO_INTERVAL(SCW_ONE_READING);
  set.summary.tolerance =
      (scw_tolerance){0.95, none, NO_INTERVAL(SCW_ONE_READING)};
  set.summary.shape.shapiro_w = NO_FIGURE(SCW_TOO_FEW);
  set.summary.step = (scw_step){0, SCW_STEP_NOT_KNOWN};
  set.values = value;
  set.lines = one;
  set.places = one;
  return set;
}

scw_settings made_up_settings(void) {
  return (scw_settings){.level = 0.95,
                        .stand_out = 0.05,
                        .power = 0.8,
                        .assurance = 0.8,
                        .content = 0.9,
                        .seed = 18446744073709551615ULL};
}

static scw_input shed_input(void) {
  static const scw_not_used not_used[] = {{7, 2, "missing", ""},
                                          {9, 2, "missing", "n/a"},
                                          {14, 1, "summary line", "Mean"}};
  scw_input input = {.name = "shed \"hull\".csv",
                     .bytes = 211,
                     .encoding = "UTF-8",
                     .separator = '\t',
                     .decimal_mark = ',',
                     .decimal_mark_given = true,
                     .shape = "wide pair",
                     .unit = "GU",
                     .quantity = "gloss",
                     .geometry = "60",
                     .rows = 13,
                     .used = 10,
                     .labels_carried = 2,
                     .labels_carried_line = 5,
                     .n_not_used = 3,
                     .not_used = not_used};
  input.role_column[SCW_ROLE_READING] = "gloss (GU)";
  input.role_column[SCW_ROLE_SPOT] = "place";
  strcpy(input.sha256,
         "0123456789abcdef0123456789abcdef"
         "0123456789abcdef0123456789abcdef");
  return input;
}

static const scw_input *two_inputs(const void *source, size_t index) {
  (void)index;
  return source;
}

scwi_inputs made_up_inputs(void) {
  static scw_input input;
  input = shed_input();
  return (scwi_inputs){2, two_inputs, &input};
}

static scw_set_report side(const char *label, double mean) {
  static double values[] = {84.6, 84.3, 84.9, 84.6};
  scw_set_report set = {.label = (char *)label,
                        .unit = "GU",
                        .readings = 4,
                        .spots = 4,
                        .values = values};
  set.summary = (scw_summary){.n = 4,
                              .mean = FIGURE(mean),
                              .sd = FIGURE(0.25),
                              .standard_uncertainty = FIGURE(0.12),
                              .interval = INTERVAL(mean - 0.4, mean + 0.4),
                              .step = {0.1, SCW_STEP_GIVEN}};
  return set;
}

static scw_estimate estimate(double value) {
  return (scw_estimate){FIGURE(value), FIGURE(0.14), FIGURE(8.253),
                        FIGURE(0.0021), INTERVAL(value - 0.3, value + 0.3)};
}

scw_change_report made_up_change(void) {
  static char *unmatched[] = {"spot 7 has no after reading (line 12)"};
  static scw_note notes[] = {{"not_paired", "The readings are not paired."}};
  scw_change_report change = {.product = "K1", .unit = "GU"};
  change.design = SCW_UNPAIRED;
  change.change = estimate(3.7833);
  change.margin = FIGURE(0.5);
  change.verdict = SCW_CHANGED;
  change.sentence = "Gloss rose by 3.78 GU, on this panel, this application.";
  change.df_origin = "Welch-Satterthwaite from 4 and 4 spots";
  change.detectable = FIGURE(0.51);
  change.settle = (scw_settle){FIGURE(29), FIGURE(25), false, 0.8};
  change.before = side("before", 84.56);
  change.after = side("after", 88.37);
  change.unmatched = unmatched;
  change.n_unmatched = 1;
  change.has_without_flagged = true;
  change.without_flagged = estimate(3.9);
  change.verdict_without_flagged = SCW_CANNOT_TELL;
  change.notes = notes;
  change.n_notes = 1;
  return change;
}

scw_plan_result made_up_plan(void) {
  static scw_note notes[] = {{"pilot", "The SD comes from 6 readings."}};
  scw_plan_result plan = {.settings = made_up_settings(), .unit = "GU"};
  plan.request = (scw_plan_request){.goal = SCW_PLAN_DETECT,
                                    .target = 0.5,
                                    .paired = true,
                                    .sd = 0.43,
                                    .pilot_readings = 6};
  plan.sentence = "With 8 spots you would see a change of 0.5 GU.";
  plan.possible = true;
  for (size_t i = 0; i < 3; i++)
    plan.table[i] = (scw_plan_row){.spots = FIGURE(7.0 + (double)i),
                                   .half_width = FIGURE(0.3977),
                                   .detectable = FIGURE(0.4971),
                                   .power = FIGURE(0.7277 + 0.1 * (double)i)};
  plan.table[2].power = FIGURE(0.99999);
  plan.n_table = 3;
  plan.plan = plan.table[1];
  plan.assured = FIGURE(13);
  plan.expected = NO_FIGURE(SCW_TOO_MANY);
  plan.notes = notes;
  plan.n_notes = 1;
  return plan;
}

static int take(void *user, const char *data, size_t size) {
  written *to = user;
  if (++to->writes == to->refuse) return 1;
  scwi_text_append(&to->text, data, size);
  return 0;
}

scw_sink sink_of(written *to) {
  return (scw_sink){take, to};
}

scw_context *made_up_context(void) {
  scw_context *context = NULL;
  assert_int_equal(scw_context_new(&context), SCW_OK);
  return context;
}

/* What was written, as a heap string. */
static char *finish(scw_context *context, scw_status status, written *to) {
  char *text = NULL;
  assert_int_equal(status, SCW_OK);
  assert_int_equal(scwi_text_take(context, &to->text, &text), SCW_OK);
  scw_context_free(context);
  return text;
}

char *text_of_sets(scw_set_report *sets, size_t n, scw_report_options options) {
  scw_context *context = made_up_context();
  scw_readings_result result = {made_up_settings(), sets, n, NULL, 0};
  scwi_inputs inputs = made_up_inputs();
  written to = {0};
  return finish(
      context,
      scwi_text_readings(context, &result, &inputs, options, sink_of(&to)),
      &to);
}

char *text_of_changes(scw_change_report *changes, size_t n,
                      scw_report_options options) {
  scw_context *context = made_up_context();
  scw_change_result result = {.settings = made_up_settings(),
                              .options = {.margin = 0.5},
                              .changes = changes,
                              .n_changes = n};
  scwi_inputs inputs = made_up_inputs();
  written to = {0};
  return finish(
      context,
      scwi_text_change(context, &result, &inputs, options, sink_of(&to)), &to);
}

size_t widest_line(const char *text) {
  size_t widest = 0;
  for (size_t length; *text; text += length + (text[length] != 0)) {
    length = strcspn(text, "\n");
    size_t columns = scwi_text_columns(text, length);
    if (columns > widest) widest = columns;
  }
  return widest;
}

const char *line_of(const char *text, const char *start) {
  while (*text) {
    const char *word = text + strspn(text, " ");
    if (strncmp(word, start, strlen(start)) == 0) return text;
    text += strcspn(text, "\n");
    if (*text) text++;
  }
  fail_msg("no line starts with \"%s\"", start);
  return NULL;
}

void assert_contains(const char *text, const char *part, bool wanted) {
  if ((strstr(text, part) != NULL) != wanted)
    fail_msg("%s \"%s\" in:\n%s", wanted ? "no" : "unwanted", part, text);
}
