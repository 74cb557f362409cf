/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings grouped into sets, their labels and order; values in ticks. */
#include "reading_table.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "sets.h"
#include "text.h"

static scw_context *context;

static int open_context(void **state) {
  (void)state;
  return scw_context_new(&context) == SCW_OK ? 0 : 1;
}

static int close_context(void **state) {
  (void)state;
  scw_context_free(context);
  return 0;
}

static void check_sets_of(scw_table *table, const char *wanted) {
  scwi_sets sets;
  scwi_text text = {0};
  char *found;
  assert_int_equal(scwi_sets_of(context, table, &sets), SCW_OK);
  for (size_t s = 0; s < sets.n; s++) {
    scwi_text_format(&text, "%s[%s:", s ? " " : "", sets.set[s].label);
    for (size_t i = 0; i < sets.set[s].n; i++) {
      char number[32];
      size_t reading = sets.set[s].reading[i];
      check_snprintf(number, sizeof number, " %g",
               scw_table_readings(table)[reading].value);
      scwi_text_add(&text, number);
    }
    scwi_text_add(&text, "]");
  }
  assert_int_equal(scwi_text_take(context, &text, &found), SCW_OK);
  assert_string_equal(found, wanted);
  free(found);
  scwi_sets_free(&sets);
}

static void check_sets(const char *text, const char *wanted) {
  scw_table *table = table_of(text, NULL);
  check_sets_of(table, wanted);
  scw_table_free(table);
}

static void labels(void **state) {
  (void)state;
  check_sets("1\n2\n", "[boat.csv: 1 2]");
  check_sets("product,gloss\nK1,1\nK1,2\n", "[boat.csv: 1 2]");
  check_sets("product,panel,gloss\nK1,H7,1\nK2,H7,2\nK1,H7,3\n",
             "[K1: 1 3] [K2: 2]");
  check_sets("product,panel,gloss\nK1,H7,1\nK2,H8,2\n",
             "[K1 / H7: 1] [K2 / H8: 2]");
  check_sets("product,before,after\nK1,1,2\nK2,3,4\n",
             "[K1 / before: 1] [K1 / after: 2] [K2 / before: 3] "
             "[K2 / after: 4]");
  check_sets("session,state,gloss\nMon,fresh,1\nTue,fresh,2\nTue,worn,3\n",
             "[Mon / fresh: 1] [Tue / fresh: 2] [Tue / worn: 3]");
  check_sets("product,gloss\n,1\nK1,2\n", "[boat.csv: 1] [K1: 2]");
}

/* "baseline" and "Before" are the same side. */
static void sides(void **state) {
  (void)state;
  check_sets("state,gloss\nbaseline,1\nBefore,2\nafter,3\n",
             "[before: 1 2] [after: 3]");
}

static void spots_and_repeats_share_a_set(void **state) {
  (void)state;
  check_sets("spot,repeat,direction,gloss\nA,1,up,1\nB,2,down,2\n",
             "[boat.csv: 1 2]");
}

static void order(void **state) {
  (void)state;
  check_sets("product,order,gloss\nK1,3,1\nK1,1,2\nK2,2,3\nK1,2,4\n",
             "[K1: 2 4 1] [K2: 3]");
  check_sets("order,gloss\n2,1\n1,2\n2,3\n,4\n1,5\n",
             "[boat.csv: 1 2 3 4 5]");
  check_sets("order,gloss\n2,1\n1,2\n2,3\n1,5\n", "[boat.csv: 2 5 1 3]");
}

static void files_stay_apart(void **state) {
  (void)state;
  scw_table *table = table_of("1\n2\n", NULL), *more;
  const double values[] = {3, 4};
  assert_int_equal(
      scw_table_from_values(context, "second", values, 2, &more), SCW_OK);
  assert_int_equal(scw_table_append(context, table, more), SCW_OK);
  scw_table_free(more);
  check_sets_of(table, "[boat.csv: 1 2] [second: 3 4]");
  scw_table_free(table);
}

/* An empty cell says where its set stands; a set without any reading is none. */
static void columns_give_the_order(void **state) {
  (void)state;
  check_sets("K1,K2,K3\n,1,\n2,>3,\n4,5,6\n",
             "[K1: 2 4] [K2: 1 5] [K3: 6]");
  check_sets("K1,K2,K3\n,1,\n-,2,3\n", "[K2: 1 2] [K3: 3]");
  check_sets("spot,before,after\n1,,2\n2,3,4\n",
             "[before: 3] [after: 2 4]");
  check_sets("panel,K1,K2\nH7,,1\nH8,2,3\nH7,4,\n",
             "[K1 / H7: 4] [K2 / H7: 1] [K1 / H8: 2] [K2 / H8: 3]");
  check_sets("product,before,after\nK1,1,2\nK2,,4\nK2,5,6\n",
             "[K1 / before: 1] [K1 / after: 2] [K2 / before: 5] "
             "[K2 / after: 4 6]");
}

static void columns_of_several_files(void **state) {
  (void)state;
  scw_table *table = table_of("product,gloss\nold,1\nK2,2\n", NULL);
  scw_table *more = table_of("K1,K2\n,3\n4,5\n", NULL), *last;
  const double values[] = {6};
  assert_int_equal(scw_table_append(context, table, more), SCW_OK);
  assert_int_equal(
      scw_table_from_values(context, "second", values, 1, &last), SCW_OK);
  assert_int_equal(scw_table_append(context, table, last), SCW_OK);
  for (size_t i = 0; i < 6; i++)
    assert_int_equal(scw_table_input_of(table, i), i < 2 ? 0 : i < 5 ? 1 : 2);
  scw_table_free(more);
  scw_table_free(last);
  check_sets_of(table, "[boat.csv / old: 1] [boat.csv / K2: 2] "
                       "[boat.csv / K1: 4] [boat.csv / K2: 3 5] [second: 6]");
  scw_table_free(table);
}

static void many_sets(void **state) {
  enum { SETS = 5000 };
  char *text = malloc(SETS * 24 + 32), *at = text;
  scwi_sets sets;
  (void)state;
  assert_non_null(text);
  at += sprintf(at, "set,reading\n");
  for (int i = 0; i < SETS; i++) at += sprintf(at, "s%d,%d\n", i, i);
  scw_table *table = table_of(text, NULL);
  assert_int_equal(scwi_sets_of(context, table, &sets), SCW_OK);
  assert_int_equal(sets.n, SETS);
  for (size_t i = 0; i < SETS; i++) {
    assert_int_equal(sets.set[i].n, 1);
    assert_int_equal(sets.set[i].reading[0], i);
  }
  scwi_sets_free(&sets);
  scw_table_free(table);
  free(text);
}

static void ticks(void **state) {
  (void)state;
  scw_table *table = table_of("87.4\n-0.25\n12\n", NULL);
  int64_t *values;
  int digits;
  assert_int_equal(scwi_table_ticks(context, table, &values, &digits), SCW_OK);
  assert_int_equal(digits, 2);
  assert_int_equal(values[0], 8740);
  assert_int_equal(values[1], -25);
  assert_int_equal(values[2], 1200);
  free(values);
  scw_table_free(table);
  table = table_of("1e300\n0.1\n", NULL);
  assert_int_equal(scwi_table_ticks(context, table, &values, &digits), SCW_OK);
  assert_null(values);
  scw_table_free(table);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(labels),    cmocka_unit_test(sides),
      cmocka_unit_test(spots_and_repeats_share_a_set),
      cmocka_unit_test(order),     cmocka_unit_test(files_stay_apart),
      cmocka_unit_test(columns_give_the_order),
      cmocka_unit_test(columns_of_several_files),
      cmocka_unit_test(many_sets), cmocka_unit_test(ticks)};
  return cmocka_run_group_tests(tests, open_context, close_context);
}
