/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A panel as a whole: which analysis the readings carry, what is said, where
 * the spots lie. The figures are judged in the tests of the methods, and with
 * the whole program against R in tests/cli/test_panel.py. */
#include "from_text.h"

#include <math.h>
#include <string.h>

typedef struct run {
  scw_context *context;
  scw_table *table;
  scw_panel_result result;
} run;

static run panel_of(const char *text, bool each) {
  const scw_panel_options options = {.each = each};
  run r = {.context = a_context()};
  r.table = table_from(r.context, text, NULL);
  went_well(r.context,
            scw_panel(r.context, r.table, NULL, &options, &r.result));
  return r;
}

static void done(run *r) {
  scw_panel_result_free(&r->result);
  scw_panel_result_free(&r->result); /* twice is allowed */
  scw_table_free(r->table);
  scw_context_free(r->context);
}

static void refused(const char *text, const char *word) {
  run r = {.context = a_context()};
  r.table = table_from(r.context, text, NULL);
  assert_int_equal(scw_panel(r.context, r.table, NULL, NULL, &r.result),
                   SCW_BAD_INPUT);
  assert_null(r.result.parts);
  message_names(r.context, word, NULL);
  done(&r);
}

static const scw_panel_component *level(const scw_panel_part *part,
                                        const char *name) {
  for (size_t i = 0; i < part->n_components; i++)
    if (!strcmp(part->component[i].level, name)) return &part->component[i];
  fail_msg("no component %s", name);
  return NULL;
}

static bool has(const scw_panel_part *part, const char *code) {
  return note_text(part->notes, part->n_notes, code) != NULL;
}

/* Spot means 3, 5, 10 and repeats 1 apart from them on both sides: mean square
 * of spots 26, of repeats 2; components 12 and 2, shares 6/7 and 1/7. */
static const char three_spots[] = "spot,repeat,gloss (GU)\n1,1,2\n1,2,4\n2,1,4\n"
                                  "2,2,6\n3,1,9\n3,2,11\n";

static void spots_and_repeats(void **state) {
  run r = panel_of(three_spots, false);
  const scw_panel_part *part = &r.result.parts[0];
  (void)state;
  assert_int_equal(part->design, SCW_PANEL_NESTED);
  assert_int_equal(part->n_components, 2);
  assert_true(part->balanced);
  assert_null(part->reml);
  check_relative(level(part, "spot")->figures.variance.value, 12, 1e-14);
  check_relative(level(part, "repeat")->figures.variance.value, 2, 1e-14);
  check_relative(level(part, "spot")->figures.share.value, 6.0 / 7, 1e-14);
  check_relative(part->total_sd.value, sqrt(14), 1e-14);
  check_relative(part->mean.standard_uncertainty.value, sqrt(26.0 / 6), 1e-14);
  /* u^2 of the mean is 12/3 + 2/6; twice the repeats leave 12/3 + 2/12. */
  check_relative(level(part, "spot")->twice.value, sqrt(26.0 / 12), 1e-14);
  check_relative(level(part, "repeat")->twice.value,
                 sqrt(26.0 / 6 * (4 + 1.0 / 6) / (4 + 2.0 / 6)), 1e-14);
  check_relative(part->repeats_worth.value, 1, 1e-15);
  assert_non_null(strstr(part->sentence, "Spots carry 86 %"));
  assert_non_null(strstr(part->sentence, "on this panel, this application"));
  assert_string_equal(part->sentence, r.result.sentence);
  done(&r);
}

/* Twice the repeat SD of the spots': best is the root of the ratio of the
 * variances, whatever the unit. */
static void repeats_worth_their_while(void **state) {
  (void)state;
  run r = panel_of("spot,gloss\n1,0e280\n1,8e280\n2,2e280\n2,10e280\n3,12e280\n"
                   "3,20e280\n",
                   false);
  const scw_panel_part *part = &r.result.parts[0];
  double spot = level(part, "spot")->figures.sd.value;
  double repeat = level(part, "repeat")->figures.sd.value;
  check_relative(part->repeats_worth.value, fmax(1, repeat / spot), 1e-14);
  assert_int_equal(level(part, "repeat")->twice.state, SCW_PRESENT);
  done(&r);
}

static void operators_and_spots(void **state) {
  (void)state;
  run r = panel_of("spot,mate,cook\n1,2,3\n1,4,5\n2,4,5\n2,6,7\n3,9,10\n"
                   "3,11,12\n",
                   false);
  assert_int_equal(r.result.n_parts, 2); /* names of no role are products */
  done(&r);
  r = panel_of("spot,by mate,by cook\n1,2,3\n1,4,5\n2,4,5\n2,6,7\n3,9,10\n"
               "3,11,12\n",
               false);
  const scw_panel_part *part = &r.result.parts[0];
  assert_int_equal(r.result.n_parts, 1);
  assert_int_equal(part->design, SCW_PANEL_CROSSED);
  assert_int_equal(part->n_by, 2);
  assert_string_equal(part->by[1].label, "cook");
  check_relative(part->by[1].mean.value - part->by[0].mean.value, 1, 1e-14);
  /* operators 1 apart: mean square 3, interaction 0, 6 readings each. */
  check_relative(level(part, "operator")->figures.variance.value, 0.5, 1e-12);
  done(&r);
}

static void operators_of_one_thing(void **state) {
  (void)state;
  run r = panel_of("lab,gloss\nquay,2\nquay,4\ndock,4\ndock,6\nslip,9\nslip,11\n",
                   false);
  const scw_panel_part *part = &r.result.parts[0];
  assert_int_equal(part->design, SCW_PANEL_PRECISION);
  check_relative(level(part, "operator")->figures.variance.value, 12, 1e-14);
  check_relative(part->precision->s_R.value, sqrt(14), 1e-14);
  assert_non_null(strstr(part->sentence, "seldom"));
  done(&r);
}

static void operators_apart(void **state) {
  (void)state;
  run r = panel_of("operator,spot,gloss\nA,1,2\nA,1,4\nA,2,4\nA,2,6\nB,3,9\n"
                   "B,3,11\nB,4,5\nB,4,6\n",
                   false);
  assert_true(has(&r.result.parts[0], "own_spots"));
  assert_string_equal(r.result.parts[0].component[0].level, "operator");
  done(&r);
  r = panel_of("operator,spot,gloss\nA,1,2\nA,1,4\nA,2,4\nB,2,6\nB,3,9\nB,3,1\n",
               false);
  assert_true(has(&r.result.parts[0], "empty_cells"));
  assert_string_equal(r.result.parts[0].component[0].level, "spot");
  done(&r);
}

/* Row A on top, and the slope from A on downwards. */
static void labels_as_a_grid(void **state) {
  (void)state;
  run r = panel_of("spot,gloss\nA1,1\nA2,2\nA3,3.5\nB1,11\nB2,12\nB3,13\nC1,21\n"
                   "C2,22\nC3,23\n",
                   false);
  const scw_panel_part *part = &r.result.parts[0];
  assert_int_equal(part->positions, SCW_POSITIONS_SPOTS);
  assert_true(has(part, "grid_from_labels"));
  check_relative(part->place->gradient.x.estimate.value, 6.5 / 6, 1e-13);
  check_relative(part->place->gradient.y.estimate.value, 59.5 / 6, 1e-13);
  assert_int_equal(part->place->map.rows, 3);
  check_relative(part->place->map.mean[6], 1, 1e-15); /* A1: top row, left */
  check_relative(part->place->map.y[2], 1, 1e-15);
  done(&r);
  r = panel_of("spot,gloss\nS1,1\nS2,2\nS3,3\nS4,4\n", false);
  assert_int_equal(r.result.parts[0].positions, SCW_POSITIONS_NONE);
  done(&r);
  r = panel_of("spot,gloss\nA1,1\nB2,2\nC3,3\nD4,4\n", false); /* a diagonal */
  assert_int_equal(r.result.parts[0].positions, SCW_POSITIONS_NONE);
  done(&r);
}

static void rows_columns_and_coordinates(void **state) {
  (void)state;
  run r = panel_of("row,column,gloss\nA,1,1\nA,1,2\nA,2,5\nA,2,6\nB,1,3\nB,1,4\n"
                   "B,2,8\nB,2,9\n",
                   false);
  const scw_panel_part *part = &r.result.parts[0];
  assert_int_equal(part->positions, SCW_POSITIONS_GRID);
  assert_true(part->letter_rows);
  assert_false(part->letter_columns);
  assert_int_equal(part->spots, 4); /* told by their places */
  assert_int_equal(part->least_repeats, 2);
  done(&r);
  r = panel_of("x (mm),y (mm),gloss\n0,0,1\n0,10,2\n10,0,5\n10,10,6.5\n", false);
  assert_int_equal(r.result.parts[0].positions, SCW_POSITIONS_XY);
  assert_string_equal(r.result.parts[0].length_unit, "mm");
  check_relative(r.result.parts[0].place->gradient.x.estimate.value, 0.425,
                 1e-13);
  done(&r);
}

static const char two_panels[] =
    "panel,state,spot,gloss\nA,before,1,2\nA,before,2,4\nB,before,1,4\n"
    "B,before,2,7\nA,after,1,12\nA,after,2,14\nB,after,1,13\nB,after,2,17\n";

static void parts(void **state) {
  (void)state;
  run r = panel_of(two_panels, false);
  assert_int_equal(r.result.n_parts, 2);
  assert_string_equal(r.result.parts[0].label, "before");
  assert_int_equal(r.result.parts[0].panels, 2);
  assert_non_null(note_text(r.result.notes, r.result.n_notes, "parts_apart"));
  /* Within four sets of two: squares 2, 4.5, 2 and 8 on 4 df. */
  check_relative(r.result.pool.sd.value, sqrt(16.5 / 4), 1e-14);
  check_relative(r.result.pool.df.value, 4, 1e-15);
  done(&r);
  r = panel_of(two_panels, true);
  assert_int_equal(r.result.n_parts, 4);
  assert_string_equal(r.result.parts[3].label, "B / after");
  check_relative(r.result.parts[3].mean.estimate.value, 15, 1e-15);
  done(&r);
  r = panel_of("set,gloss\na,1\na,2\nb,4\nb,6\n", false);
  assert_string_equal(r.result.parts[0].component[0].level, "set");
  assert_string_equal(r.result.parts[0].component[1].level, "reading");
  done(&r);
}

static void little_to_go_by(void **state) {
  (void)state;
  run r = panel_of("82.4\n", false);
  assert_non_null(strstr(r.result.sentence, "One reading has no scatter"));
  assert_int_equal(r.result.parts[0].mean.interval.state, SCW_ONE_READING);
  done(&r);
  r = panel_of("spot,gloss\n1,82\n1,83\n1,84\n", false);
  assert_true(has(&r.result.parts[0], "one_spot"));
  assert_non_null(strstr(r.result.sentence, "at this one spot"));
  done(&r);
  r = panel_of("spot,gloss\n1,82\n2,83\n3,84\n", false);
  assert_true(has(&r.result.parts[0], "no_repeats"));
  done(&r);
  r = panel_of("spot,gloss\n1,82.4\n1,82.4\n2,82.4\n2,82.4\n", false);
  assert_non_null(strstr(r.result.sentence, "All 4 readings are the same"));
  assert_true(has(&r.result.parts[0], "display_limits"));
  done(&r);
  r = panel_of("spot,gloss\n1,82\n1,83\n2,84\n", false);
  assert_true(has(&r.result.parts[0], "unbalanced"));
  assert_non_null(r.result.parts[0].reml);
  done(&r);
}

static void what_does_not_count(void **state) {
  (void)state;
  run r = panel_of("state,spot,replaces,gloss\ntile,,,95.1\nafter,1,,82\n"
                   "after,2,,83\nafter,2,x,93\n",
                   false);
  assert_int_equal(r.result.parts[0].readings, 2);
  assert_non_null(note_text(r.result.notes, r.result.n_notes, "tile_readings"));
  assert_non_null(note_text(r.result.notes, r.result.n_notes, "read_again"));
  done(&r);
  refused("gloss 20,gloss 60\n82,91\n", "60 degrees");
  refused("track,direction,pull\n1,up,300\n1,down,310\n", "two directions");
  refused("state,gloss\ntile,95\n", "tile");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(spots_and_repeats),
      cmocka_unit_test(repeats_worth_their_while),
      cmocka_unit_test(operators_and_spots),
      cmocka_unit_test(operators_of_one_thing),
      cmocka_unit_test(operators_apart),
      cmocka_unit_test(labels_as_a_grid),
      cmocka_unit_test(rows_columns_and_coordinates),
      cmocka_unit_test(parts),
      cmocka_unit_test(little_to_go_by),
      cmocka_unit_test(what_does_not_count)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
