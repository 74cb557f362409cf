/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table and its account; several files in one; arrays. */
#include "reading_table.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

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

static void decimals_as_written(void **state) {
  (void)state;
  scw_table *table = table_of("gloss\n87.40\n-0.5\n12\n1e2\n", NULL);
  const scw_reading *r = scw_table_readings(table);
  static const struct { int64_t mantissa; int digits; } wanted[] = {
      {8740, 2}, {-5, 1}, {12, 0}, {1, -2}};
  for (size_t i = 0; i < 4; i++) {
    assert_true(r[i].exact);
    assert_int_equal(r[i].mantissa, wanted[i].mantissa);
    assert_int_equal(r[i].digits, wanted[i].digits);
  }
  scw_table_free(table);
}

static void places(void **state) {
  (void)state;
  scw_table *table = table_of("Gl\xC3\xA4nze,\n\nspot,\xC3\xA4,before,after\n"
                              "1,\xC3\xB6,87.4,88\n2,,,86\n",
                              NULL);
  const scw_reading *r = scw_table_readings(table);
  assert_int_equal(scw_table_size(table), 3);
  assert_int_equal(r[0].line, 4);
  assert_int_equal(r[0].column, 5); /* characters, not bytes */
  assert_int_equal(r[1].column, 10);
  assert_int_equal(r[2].line, 5);
  assert_int_equal(r[2].column, 5);
  scw_table_free(table);
}

static void account(void **state) {
  const char *text = "product;gloss (GU)\nK1;87,4\n;87,1\n;NA\n";
  (void)state;
  scw_table *table = table_of(text, NULL);
  const scw_input *input = scw_table_input(table, 0);
  assert_string_equal(input->name, "boat.csv");
  assert_int_equal(input->bytes, strlen(text));
  /* sha256sum of the text */
  assert_string_equal(
      input->sha256,
      "d465c26e7360e9d051fd67e8f99e530c8866fc865d9f7673e50d9a48c5d44359");
  assert_string_equal(input->encoding, "UTF-8");
  assert_int_equal(input->rows, 3);
  assert_int_equal(input->used, 2);
  assert_int_equal(input->labels_carried, 2);
  assert_string_equal(input->role_column[SCW_ROLE_READING], "gloss (GU)");
  assert_string_equal(input->role_column[SCW_ROLE_PRODUCT], "product");
  assert_null(input->role_column[SCW_ROLE_SPOT]);
  scw_table_free(table);
}

static void any_block_size(void **state) {
  const char *text = "\xEF\xBB\xBFproduct;spot;before;after\r\nK1;1;87,4;88\r\n"
                     ";2;>100;\"88,5\"\r\n\r\nMean;;87;88\r\n";
  (void)state;
  scw_table *whole = table_of(text, NULL);
  char *wanted = described(whole);
  for (size_t block = 1; block < 20; block++) {
    scw_table *table;
    assert_int_equal(
        read_bytes(context, NULL, text, strlen(text), block, &table), SCW_OK);
    char *found = described(table);
    assert_string_equal(found, wanted);
    assert_string_equal(scw_table_input(table, 0)->sha256,
                        scw_table_input(whole, 0)->sha256);
    free(found);
    scw_table_free(table);
  }
  free(wanted);
  scw_table_free(whole);
}

/* More rows than the reader looks ahead, all there in order. */
static void many_rows(void **state) {
  enum { ROWS = 50000 };
  char *text = malloc(ROWS * 24 + 64), *at = text;
  (void)state;
  assert_non_null(text);
  at += sprintf(at, "set,spot,reading\n");
  for (int i = 0; i < ROWS; i++)
    at += sprintf(at, "s%d,%d,%d.5\n", i % 700, i % 10, i);
  scw_table *table = table_of(text, NULL);
  const scw_reading *r = scw_table_readings(table);
  assert_int_equal(scw_table_size(table), ROWS);
  for (int i = 0; i < ROWS; i++) {
    char name[16];
    snprintf(name, sizeof name, "s%d", i % 700);
    assert_string_equal(scw_table_label(table, r[i].set), name);
    assert_true(r[i].value == i + 0.5);
    assert_int_equal(r[i].line, i + 2);
  }
  scw_table_free(table);
  free(text);
}

static void appended(void **state) {
  (void)state;
  scw_table *all = table_of("product,gloss\nK1,87\nK2,88\n", NULL);
  scw_table *more = table_of("spot,product,gloss\nA,K2,80\nB,K3,81\n", NULL);
  assert_int_equal(scw_table_append(context, all, more), SCW_OK);
  assert_int_equal(scw_table_size(more), 0);
  assert_int_equal(scw_table_inputs(more), 0);
  scw_table_free(more);
  char *found = described(all);
  assert_string_equal(found, "87 product=K1; 88 product=K2; "
                             "80 product=K2 spot=A; 81 product=K3 spot=B");
  const scw_reading *r = scw_table_readings(all);
  assert_int_equal(r[1].product, r[2].product);
  assert_int_equal(scw_table_inputs(all), 2);
  assert_int_equal(scw_table_input_of(all, 1), 0);
  assert_int_equal(scw_table_input_of(all, 2), 1);
  assert_int_equal(scw_table_input(all, 1)->used, 2);
  assert_null(scw_table_input(all, 2));
  assert_int_equal(scw_table_append(context, all, all), SCW_BAD_ARGUMENT);
  free(found);
  scw_table_free(all);
}

static void from_values(void **state) {
  const double values[] = {87.4, 0.1 + 0.2, -1e300, 0};
  const double bad[] = {87.4, NAN}, worse[] = {INFINITY};
  scw_table *table;
  (void)state;
  assert_int_equal(scw_table_from_values(context, "array", values, 4, &table),
                   SCW_OK);
  const scw_reading *r = scw_table_readings(table);
  assert_int_equal(scw_table_size(table), 4);
  assert_int_equal(r[0].mantissa, 874);
  assert_int_equal(r[0].digits, 1);
  for (size_t i = 0; i < 4; i++) assert_true(r[i].value == values[i]);
  assert_int_equal(r[2].spot, SCW_NO_LABEL);
  assert_string_equal(scw_table_input(table, 0)->name, "array");
  assert_string_equal(scw_table_input(table, 0)->sha256, "");
  scw_table_free(table);
  assert_int_equal(scw_table_from_values(context, "array", bad, 2, &table),
                   SCW_BAD_INPUT);
  assert_null(table);
  assert_string_equal(scw_context_message(context),
                      "array: value 2 is not a finite number. Leave it out");
  assert_int_equal(scw_table_from_values(context, "array", worse, 1, &table),
                   SCW_BAD_INPUT);
  assert_null(table);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(decimals_as_written), cmocka_unit_test(places),
      cmocka_unit_test(account),             cmocka_unit_test(any_block_size),
      cmocka_unit_test(many_rows),           cmocka_unit_test(appended),
      cmocka_unit_test(from_values)};
  return cmocka_run_group_tests(tests, open_context, close_context);
}
