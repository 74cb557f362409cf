/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Spot lists as a whole, and the scatter of pilots. */
#include <math.h>
#include <string.h>

#include "from_text.h"

static scw_layout_result list_of(scw_layout_request request, unsigned seed) {
  scw_context *context = a_context();
  scw_layout_result list;
  scw_settings settings;
  scw_settings_init(&settings);
  settings.seed = seed;
  went_well(context, scw_layout(context, &request, &settings, &list));
  scw_context_free(context);
  return list;
}

static const scw_layout_request six_halved = {.width = 300,
                                              .height = 200,
                                              .margin = 20,
                                              .spots = 6,
                                              .panels = 4,
                                              .repeats = 2,
                                              .layout = SCW_LAYOUT_RANDOM,
                                              .halves = true,
                                              .blind = true,
                                              .before_after = true};

static void the_same_seed_gives_the_same_list(void **state) {
  scw_layout_result a = list_of(six_halved, 3), b = list_of(six_halved, 3),
                    c = list_of(six_halved, 4);
  (void)state;
  assert_int_equal(a.n_spots, 24);
  assert_int_equal(a.n_turns, 96);
  bool differs = false;
  for (size_t i = 0; i < a.n_spots; i++) {
    assert_true(a.spots[i].x == b.spots[i].x && a.spots[i].y == b.spots[i].y);
    assert_string_equal(a.spots[i].code, b.spots[i].code);
    differs |= strcmp(a.spots[i].code, c.spots[i].code) != 0;
  }
  for (size_t i = 0; i < a.n_turns; i++)
    assert_int_equal(a.turns[i].spot, b.turns[i].spot);
  assert_true(differs);
  scw_layout_result_free(&a);
  scw_layout_result_free(&b);
  scw_layout_result_free(&c);
}

/* Either half is the control on two of four panels, whatever the seed; pairs
 * mirror each other; no code comes twice or holds a sign that looks alike. */
static void halves_are_balanced_and_blind(void **state) {
  size_t first_by_seed = 0;
  (void)state;
  for (unsigned seed = 1; seed <= 40; seed++) {
    scw_layout_result list = list_of(six_halved, seed);
    size_t first = 0;
    for (size_t i = 0; i < list.n_spots; i++) {
      const scw_spot *spot = &list.spots[i];
      first += spot->control && spot->half == 1;
      assert_null(strpbrk(spot->code, "01256 8BGILOSUVZAE"));
      assert_string_not_equal(spot->code, list.treated_code);
      assert_true(spot->x >= 20 && spot->x <= 280 && spot->y >= 20 &&
                  spot->y <= 180 && fabs(spot->x - 150) >= 20 - 1e-9);
      for (size_t j = 0; j < i; j++)
        assert_string_not_equal(spot->code, list.spots[j].code);
      if (spot->half != 2) continue;
      const scw_spot *pair = &list.spots[i - 3];
      assert_int_equal(pair->number, spot->number);
      assert_true(pair->control != spot->control);
      check_absolute(pair->x + spot->x, 300, 1e-9);
      assert_true(pair->y == spot->y);
    }
    assert_int_equal(first, 6);
    first_by_seed += list.spots[0].control;
    scw_layout_result_free(&list);
  }
  assert_true(first_by_seed > 8 && first_by_seed < 32);
}

/* Every spot is read as often as asked in each state, before first. */
static void every_reading_has_its_turn(void **state) {
  scw_layout_result list = list_of(six_halved, 1);
  size_t count[24][2][2] = {{{0}}};
  (void)state;
  for (size_t i = 0; i < list.n_turns; i++) {
    const scw_turn *turn = &list.turns[i];
    assert_true((turn->side == SCW_SIDE_AFTER) == (i >= 48));
    count[turn->spot][turn->side == SCW_SIDE_AFTER][turn->repeat - 1]++;
  }
  for (size_t i = 0; i < 96; i++)
    assert_int_equal(count[i / 4][i / 2 % 2][i % 2], 1);
  scw_layout_result_free(&list);
}

static scw_plan_scatter scatter_of(const char *text) {
  scw_context *context = a_context();
  scw_table *table = table_from(context, text, NULL);
  scw_plan_scatter found;
  went_well(context, scw_plan_scatter_of(context, table, NULL, &found));
  scw_table_free(table);
  scw_context_free(context);
  return found;
}

/* By hand: within 0.02, between 2 * 4 = 8, so spot variance 3.99. Differences
 * 1, 2, 3 (-+ 0.1): the same halved means, variance 1 - 0.01. */
static void scatter_by_hand(void **state) {
  scw_plan_scatter one = scatter_of(
      "spot,reading\n1,9.9\n1,10.1\n2,11.9\n2,12.1\n3,13.9\n3,14.1\n");
  scw_plan_scatter two = scatter_of(
      "spot,before,after\n1,5,5.9\n1,5,6.1\n2,7,8.9\n2,7,9.1\n3,4,6.9\n"
      "3,4,7.1\n4,6,\n");
  (void)state;
  check_relative(one.variance[SCW_LEVEL_SPOT].value, 3.99, 1e-12);
  check_relative(one.variance[SCW_LEVEL_REPEAT].value, 0.02, 1e-12);
  assert_true(one.variance[SCW_LEVEL_PANEL].state != SCW_PRESENT);
  assert_true(two.of_differences && !one.of_differences);
  check_relative(two.variance[SCW_LEVEL_SPOT].value, 0.99, 1e-12);
  check_relative(two.variance[SCW_LEVEL_REPEAT].value, 0.02, 1e-12);
  assert_int_equal(two.unmatched, 1);
}

static void pilots_that_cannot_be_split(void **state) {
  static const char *const texts[] = {
      "reading\n1\n2\n", "spot,before,after\n1,5,\n2,,6\n",
      "product,spot,reading\nK1,1,5\nK2,1,6\n"};
  static const char *const words[] = {"without a spot", "both before and after",
                                      "holds one"};
  (void)state;
  for (size_t i = 0; i < 3; i++) {
    scw_context *context = a_context();
    scw_table *table = table_from(context, texts[i], NULL);
    scw_plan_scatter found;
    assert_int_equal(scw_plan_scatter_of(context, table, NULL, &found),
                     SCW_BAD_INPUT);
    message_names(context, "shed.csv", words[i], NULL);
    scw_table_free(table);
    scw_context_free(context);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_same_seed_gives_the_same_list),
      cmocka_unit_test(halves_are_balanced_and_blind),
      cmocka_unit_test(every_reading_has_its_turn),
      cmocka_unit_test(scatter_by_hand),
      cmocka_unit_test(pilots_that_cannot_be_split)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
