/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet and the grid: wrapping, columns, decimal points, ASCII. */
#include <stdlib.h>
#include <string.h>

#include "grid.h"
#include "made_up.h"
#include "number_words.h"
#include "strip.h"
#include "wording.h"

static void long_text_is_wrapped_at_80(void **state) {
  (void)state;
  scwi_sheet sheet = {0};
  scwi_sheet_answer(&sheet,
                    "The gloss of the painted hull panel rose by 3.78 GU over "
                    "what it was before the dressing went on, by 12 95 % of "
                    "what had been hoped for.");
  assert_string_equal(
      sheet.text.data,
      "The gloss of the painted hull panel rose by 3.78 GU over what it was "
      "before the\ndressing went on, by 12 95 % of what had been hoped "
      "for.\n");
  scwi_sheet_free(&sheet);
}

static void a_number_keeps_its_unit(void **state) {
  (void)state;
  scwi_sheet sheet = {0};
  /* without the rule the unit would start the second line */
  scwi_sheet_answer(&sheet,
                    "A sentence so long that its unit would be torn off the "
                    "number it needs: 123.45 GU here, 95 % there");
  assert_has(sheet.text.data, "it needs:\n123.45 GU here");
  scwi_text_clear(&sheet.text);
  scwi_sheet_answer(&sheet,
                    "An interval told in a sentence that is just long enough "
                    "to end at its level, 95 %), here");
  assert_has(sheet.text.data, "its level,\n95 %), here");
  assert_true(widest_line(sheet.text.data) <= 80);
  scwi_sheet_free(&sheet);
}

static void a_word_longer_than_the_line_is_cut(void **state) {
  (void)state;
  char word[201];
  memset(word, 'w', 200);
  word[200] = 0;
  scwi_sheet sheet = {0};
  scwi_sheet_note(&sheet, word);
  assert_int_equal(widest_line(sheet.text.data), 80);
  size_t kept = 0;
  for (const char *at = sheet.text.data; *at; at++)
    kept += *at == 'w';
  assert_int_equal(kept, 200);
  scwi_sheet_free(&sheet);
}

static void columns_count_characters(void **state) {
  (void)state;
  scwi_sheet sheet = {0};
  /* 78 letters of two bytes fit one line beside the indent */
  scwi_text text = {0};
  for (int i = 0; i < 78; i++)
    scwi_text_add(&text, "\xC3\xA4");
  scwi_sheet_hanging(&sheet, "", 0, text.data);
  assert_int_equal(widest_line(sheet.text.data), 80);
  assert_int_equal(strcspn(sheet.text.data, "\n"), sheet.text.length - 1);
  scwi_text_free(&text);
  scwi_sheet_free(&sheet);
}

static void check_dressed(const char *text, bool ascii, const char *wanted) {
  scwi_text out = {0};
  scwi_sheet_dress(&out, text, ascii);
  assert_string_equal(out.data, wanted);
  scwi_text_free(&out);
}

static void dress_keeps_the_terminal_safe(void **state) {
  (void)state;
  check_dressed("a\033[31m\tb\x7F\n", false, "a [31m b  ");
  check_dressed("\xFF\xC3", false, "??");
  check_dressed("l\xE2\x80\xAEr", false, "l r"); /* right-to-left override */
  check_dressed("\xC3\xA4", false, "\xC3\xA4");
  check_dressed("\xED\xA0\x80", false, "???"); /* a surrogate */
}

static void dress_finds_ascii(void **state) {
  (void)state;
  check_dressed(
      "Gr\xC3\xB6\xC3\x9F"
      "e \xC2\xB1 5 \xC2\xB5m",
      true, "Groesse +- 5 um");
  check_dressed(
      "\xE2\x88\x92"
      "3 \xE2\x89\xA4 x \xE2\x80\xA6",
      true, "-3 <= x ...");
  check_dressed("\xE6\xBC\x86", true, "?");
}

static const scwi_column three[] = {{"set", SCWI_LEFT, 0, false, 0},
                                    {"mean", SCWI_POINT, 2, false, 0},
                                    {"remarks", SCWI_LEFT, 2, true, 0}};

static void points_stand_below_each_other(void **state) {
  (void)state;
  scwi_sheet sheet = {0};
  scwi_grid grid = {.columns = three, .n_columns = 3};
  const double values[] = {84.25, -1234.5, 7};
  const int decimals[] = {2, 1, 0};
  for (size_t i = 0; i < 3; i++) {
    scwi_grid_cell(&grid, "K1");
    scwi_grid_fixed(&grid, values[i], decimals[i]);
    scwi_grid_cell(&grid, i == 2 ? "one" : "");
  }
  scwi_sheet_grid(&sheet, &grid);
  assert_string_equal(sheet.text.data,
                      "  set      mean  remarks\n"
                      "  K1      84.25\n"
                      "  K1   -1234.5\n"
                      "  K1       7     one\n");
  scwi_sheet_free(&sheet);
}

static void remarks_wrap_below_themselves(void **state) {
  (void)state;
  scwi_sheet sheet = {0};
  scwi_grid grid = {.columns = three, .n_columns = 3};
  scwi_grid_cell(&grid, "a label longer than any column should be, surely");
  scwi_grid_fixed(&grid, 84.25, 2);
  scwi_grid_cell(&grid,
                 "a remark that goes on and on until the end of the "
                 "line is reached and passed");
  scwi_sheet_grid(&sheet, &grid);
  assert_string_equal(
      sheet.text.data,
      "   mean  remarks\n"
      "  a label longer than any column should be, surely\n"
      "  84.25  a remark that goes on and on until the end of the line is "
      "reached and\n"
      "         passed\n");
  scwi_sheet_free(&sheet);
}

static void a_grid_too_wide_becomes_words(void **state) {
  (void)state;
  static const scwi_column wide[] = {{"set", SCWI_LEFT, 0, false, 0},
                                     {"low", SCWI_POINT, 2, false, 0},
                                     {"high", SCWI_POINT, 2, false, 0}};
  scwi_sheet sheet = {0};
  scwi_grid grid = {.columns = wide, .n_columns = 3};
  scwi_grid_cell(&grid, "K1");
  scwi_grid_fixed(&grid, 1e12, 20);
  scwi_grid_fixed(&grid, -1e12, 20);
  for (size_t i = 0; i < 2; i++)
    scwi_grid_fixed(&grid, 1.0, 20);
  scwi_grid_fixed(&grid, 1.0, 20);
  scwi_sheet_grid(&sheet, &grid);
  assert_true(widest_line(sheet.text.data) <= 80);
  assert_has(sheet.text.data, "low 1000000000000.0");
  scwi_sheet_free(&sheet);
}

static void check_words(void (*say)(scwi_text *, double), double value,
                        const char *wanted) {
  scwi_text text = {0};
  scwi_sheet sheet = {0};
  say(&text, value);
  scwi_sheet_hanging(&sheet, "", 0, text.data);
  sheet.text.data[sheet.text.length - 1] = 0; /* the line end */
  assert_string_equal(sheet.text.data + 2, wanted);
  scwi_text_free(&text);
  scwi_sheet_free(&sheet);
}

static void say_p(scwi_text *text, double p) {
  scwi_word_p(text, FIGURE(p));
}

static void say_three(scwi_text *text, double value) {
  scwi_put_short(text, value, 3);
}

static void words_for_numbers(void **state) {
  (void)state;
  check_words(scwi_word_percent, 0.95, "95 %");
  check_words(scwi_word_percent, 0.56, "56 %");
  check_words(scwi_word_percent, 0.999975, "99.9975 %");
  check_words(scwi_word_chance, 0.8, "8 times in 10");
  check_words(scwi_word_chance, 0.95, "95 times in 100");
  check_words(scwi_word_chance, 0.9995, "99.95 % of the time");
  check_words(say_p, 0.000099, "p below 0.0001");
  check_words(say_p, 0.0001, "p 0.0001");
  check_words(say_p, 0.0421, "p 0.042");
  check_words(say_p, 1, "p 1.00");
  check_words(say_three, 9, "9");
  check_words(say_three, 8.2534, "8.25");
  check_words(say_three, 120, "120");
}

static void draw(scwi_sheet *sheet, const double *values, size_t n, double mean,
                 double low, double high) {
  const scwi_strip one = {.label = "readings",
                          .values = values,
                          .n = n,
                          .mean = FIGURE(mean),
                          .interval = INTERVAL(low, high)};
  scwi_sheet_strips(sheet, &one, 1, 1, "GU");
}

/* Marks stand where their values lie on the scale: 60 cells from 0 to 59. */
static void strip_is_to_scale(void **state) {
  (void)state;
  const double values[] = {0, 10, 59, 10, 15.6};
  scwi_sheet sheet = {.options = {.ascii = true}};
  draw(&sheet, values, 5, 20, 10, 30);
  const char *readings = line_of(sheet.text.data, "readings") + 18;
  assert_int_equal(readings[0], 'o');
  assert_int_equal(readings[10], '2');
  assert_int_equal(readings[16], 'o'); /* the nearest cell */
  assert_int_equal(readings[59], 'o');
  assert_int_equal(readings[60], '\n');
  const char *mean = line_of(sheet.text.data, "mean, interval") + 18;
  assert_memory_equal(mean + 10, "(---------#---------)\n", 22);
  const char *ends = line_of(sheet.text.data, "0.0 GU") + 18;
  assert_memory_equal(ends, "0.0 GU ", 7);
  assert_memory_equal(ends + 53, "59.0 GU\n", 8);
  scwi_sheet_free(&sheet);
}

/* An interval far wider than the readings is cut, and that is shown. */
static void strip_cuts_a_wide_interval(void **state) {
  (void)state;
  const double values[] = {84.3, 84.6};
  scwi_sheet sheet = {.options = {.ascii = true}};
  draw(&sheet, values, 2, 84.45, 62, 106);
  const char *mean = line_of(sheet.text.data, "mean, interval") + 18;
  assert_int_equal(mean[0], '<');
  assert_int_equal(mean[59], '>');
  assert_has(sheet.text.data, "runs on");
  scwi_sheet_free(&sheet);
}

static void many_readings_become_heights(void **state) {
  (void)state;
  double values[100];
  for (size_t i = 0; i < 100; i++)
    values[i] = i < 80 ? 1 : (double)i;
  scwi_sheet sheet = {.options = {.ascii = true}};
  draw(&sheet, values, 100, 20, 10, 30);
  const char *readings = line_of(sheet.text.data, "readings") + 18;
  assert_int_equal(readings[0], '8');
  assert_int_equal(readings[59], '1');
  assert_has(sheet.text.data, "height counts readings");
  scwi_sheet_free(&sheet);
}

static void nothing_to_spread_draws_nothing(void **state) {
  (void)state;
  const double values[] = {5, 5};
  scwi_sheet sheet = {0};
  draw(&sheet, values, 2, 5, 5, 5);
  assert_int_equal(sheet.text.length, 0);
  scwi_sheet_free(&sheet);
}

static void the_largest_doubles_have_a_scale(void **state) {
  (void)state;
  const double values[] = {-1.7e308, 0, 1.7e308};
  scwi_sheet sheet = {.options = {.ascii = true}};
  draw(&sheet, values, 3, 0, -1.7e308, 1.7e308);
  const char *readings = line_of(sheet.text.data, "readings") + 18;
  assert_int_equal(readings[0], 'o');
  assert_int_equal(readings[59], 'o');
  scwi_sheet_free(&sheet);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(long_text_is_wrapped_at_80),
      cmocka_unit_test(a_number_keeps_its_unit),
      cmocka_unit_test(a_word_longer_than_the_line_is_cut),
      cmocka_unit_test(columns_count_characters),
      cmocka_unit_test(dress_keeps_the_terminal_safe),
      cmocka_unit_test(dress_finds_ascii),
      cmocka_unit_test(points_stand_below_each_other),
      cmocka_unit_test(remarks_wrap_below_themselves),
      cmocka_unit_test(a_grid_too_wide_becomes_words),
      cmocka_unit_test(words_for_numbers),
      cmocka_unit_test(strip_is_to_scale),
      cmocka_unit_test(strip_cuts_a_wide_interval),
      cmocka_unit_test(many_readings_become_heights),
      cmocka_unit_test(nothing_to_spread_draws_nothing),
      cmocka_unit_test(the_largest_doubles_have_a_scale)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
