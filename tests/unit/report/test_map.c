/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The map of the panel: layout, marks, ASCII, width. */
#include "made_up.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "map.h"

/* Values from 80 in the lowest left corner to 87 in the highest right one. */
static scw_place_map map_of(size_t columns, size_t rows) {
  scw_place_map map = {.grid = true, .rows = rows, .columns = columns};
  size_t n = rows * columns;
  for (size_t i = 0; i < n; i++)
    map.mean[i] = n > 1 ? 80 + 7 * (double)i / (double)(n - 1) : 80;
  for (size_t c = 0; c < columns; c++) map.x[c] = 12.5 * (double)c;
  for (size_t r = 0; r < rows; r++) map.y[r] = 10 * (double)r;
  return map;
}

static scwi_sheet drawn(const scw_place_map *map, const scwi_map_words *words,
                        bool ascii) {
  scwi_sheet sheet = {.options = {.ascii = ascii}};
  scwi_sheet_map(&sheet, map, words);
  if (sheet.text.length) assert_true(widest_line(sheet.text.data) <= 80);
  return sheet;
}

static const scwi_map_words plain = {.decimals = 1, .unit = "GU",
                                     .length_unit = "mm"};

static void values_and_marks(void **state) {
  (void)state;
  scw_place_map map = map_of(4, 2);
  map.mean[5] = NAN;
  scwi_sheet sheet = drawn(&map, &plain, false);
  assert_string_equal(
      sheet.text.data,
      "  Each place its mean in GU; x to the right, y upwards, in mm\n"
      "  10  84.0 \xE2\x96\x85     \xC2\xB7    86.0 \xE2\x96\x87  87.0 "
      "\xE2\x96\x88\n"
      "   0  80.0 \xE2\x96\x81  81.0 \xE2\x96\x82  82.0 \xE2\x96\x83  83.0 "
      "\xE2\x96\x84\n"
      "       0.0    12.5    25.0    37.5\n"
      "  \xE2\x96\x81 from 80.0, \xE2\x96\x82 80.9, \xE2\x96\x83 81.8, "
      "\xE2\x96\x84 82.6, \xE2\x96\x85 83.5, \xE2\x96\x86 84.4, "
      "\xE2\x96\x87 85.2, \xE2\x96\x88 86.1 to\n"
      "  87.0 GU; \xC2\xB7 no spot\n");
  scwi_sheet_free(&sheet);
}

/* Digits as marks would read as part of the value: left out. */
static void ascii_shows_values_alone(void **state) {
  (void)state;
  scw_place_map map = map_of(4, 2);
  scwi_sheet sheet = drawn(&map, &plain, true);
  assert_string_equal(
      sheet.text.data,
      "  Each place its mean in GU; x to the right, y upwards, in mm\n"
      "  10  84.0  85.0  86.0  87.0\n"
      "   0  80.0  81.0  82.0  83.0\n"
      "       0.0  12.5  25.0  37.5\n");
  scwi_sheet_free(&sheet);
}

static void names_of_rows_and_columns(void **state) {
  static const char *rows[] = {"B", "A"}, *columns[] = {"1", "2", "3", "4"};
  (void)state;
  scw_place_map map = map_of(4, 2);
  scwi_map_words words = {.decimals = 0, .row_names = rows,
                          .column_names = columns};
  scwi_sheet sheet = drawn(&map, &words, true);
  assert_string_equal(sheet.text.data,
                      "  Each place its mean; x to the right, y upwards\n"
                      "  A  84  85  86  87\n"
                      "  B  80  81  82  83\n"
                      "      1   2   3   4\n");
  scwi_sheet_free(&sheet);
}

/* Too many columns for values: marks alone, of which every eighth is one. */
static void marks_where_values_do_not_fit(void **state) {
  (void)state;
  scw_place_map map = map_of(32, 1);
  scwi_sheet sheet = drawn(&map, &plain, true);
  const char *row = strchr(sheet.text.data, '\n') + 1;
  for (size_t c = 0; c < 32; c++) {
    char wanted[3] = {' ', (char)('1' + c * 8 / 32), 0};
    assert_memory_equal(row + 3 + 2 * c, wanted, 2);
  }
  assert_has(sheet.text.data, "\n    0.0");
  assert_has(sheet.text.data, " 387.5\n");
  assert_has(sheet.text.data, "1 from 80.0, 2 80.9");
  assert_has(sheet.text.data, "8 86.1 to 87.0 GU");
  scwi_sheet_free(&sheet);
}

static void every_size_fits_the_page(void **state) {
  (void)state;
  static const char *long_name[SCW_MAP_ROWS];
  static const char *long_names[SCW_MAP_COLUMNS];
  for (size_t r = 0; r < SCW_MAP_ROWS; r++)
    long_name[r] = "Steuerbord vorn \xC3\xBC"
                   "ber der Wasserlinie";
  for (size_t c = 0; c < SCW_MAP_COLUMNS; c++)
    long_names[c] = "a column named at far greater length than any page holds";
  for (size_t columns = 1; columns <= SCW_MAP_COLUMNS; columns++)
    for (size_t rows = 1; rows <= SCW_MAP_ROWS; rows += 6)
      for (int ascii = 0; ascii < 2; ascii++)
        for (int named = 0; named < 2; named++) {
          scw_place_map map = map_of(columns, rows);
          scwi_map_words words = plain;
          if (named) {
            words.row_names = long_name;
            words.column_names = long_names;
          }
          scwi_sheet sheet = drawn(&map, &words, ascii);
          size_t lines = 0;
          for (const char *at = sheet.text.data; *at; at++)
            lines += *at == '\n';
          assert_in_range(lines, rows + 2, rows + 5);
          scwi_sheet_free(&sheet);
        }
}

/* Positions far from zero keep the digits that tell them apart. */
static void positions_are_told_apart(void **state) {
  (void)state;
  scw_place_map map = map_of(3, 2);
  for (size_t c = 0; c < 3; c++) map.x[c] = 1000000 + 0.25 * (double)c;
  scwi_sheet sheet = drawn(&map, &plain, true);
  assert_has(sheet.text.data, "1000000.00  1000000.25  1000000.50");
  scwi_sheet_free(&sheet);
}

static void nothing_and_nearly_nothing(void **state) {
  (void)state;
  scw_place_map map = {.grid = false};
  scwi_sheet sheet = drawn(&map, &plain, false);
  assert_int_equal(sheet.text.length, 0);
  map = map_of(3, 3);
  for (size_t i = 0; i < 9; i++) map.mean[i] = NAN;
  scwi_sheet_free(&sheet);
  sheet = drawn(&map, &plain, false);
  assert_int_equal(sheet.text.length, 0);
  for (size_t i = 0; i < 9; i++) map.mean[i] = 84; /* no low, no high */
  map.grid = false;
  scwi_sheet_free(&sheet);
  sheet = drawn(&map, &plain, false);
  assert_has(sheet.text.data, "Each cell the mean of its spots");
  assert_has(sheet.text.data, "  20  84.0  84.0  84.0\n");
  assert_null(strstr(sheet.text.data, "from"));
  scwi_sheet_free(&sheet);
  map = map_of(2, 2);
  for (size_t i = 0; i < 4; i++) map.mean[i] = i % 2 ? 1e300 : -1.7e308;
  sheet = drawn(&map, &plain, false);
  assert_true(sheet.text.length > 0);
  scwi_sheet_free(&sheet);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(values_and_marks),
      cmocka_unit_test(ascii_shows_values_alone),
      cmocka_unit_test(names_of_rows_and_columns),
      cmocka_unit_test(marks_where_values_do_not_fit),
      cmocka_unit_test(every_size_fits_the_page),
      cmocka_unit_test(positions_are_told_apart),
      cmocka_unit_test(nothing_and_nearly_nothing)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
