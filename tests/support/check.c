/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"

#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void check_number(double got, double wanted, double absolute, double relative,
                  const char *what, const char *file, int line) {
  if (got == wanted) return; /* also equal infinities */
  double distance = fabs(got - wanted);
  if (distance <= absolute || distance <= relative * fabs(wanted)) return;
  print_error("%s: got %.17g, wanted %.17g, apart by %.3g (relative %.3g)\n",
              what, got, wanted, distance, distance / fabs(wanted));
  _fail(file, line);
}

static char *slurp(const char *path) {
  FILE *file = fopen(path, "rb");
  if (!file) fail_msg("cannot open %s", path);
  fseek(file, 0, SEEK_END);
  long size = ftell(file);
  rewind(file);
  char *text = calloc((size_t)size + 1, 1);
  assert_non_null(text);
  assert_int_equal(fread(text, 1, (size_t)size, file), (size_t)size);
  fclose(file);
  return text;
}

static char *copy(const char *text) {
  char *mine = strdup(text);
  assert_non_null(mine);
  return mine;
}

/* Splits one line at commas into at most `most` cells (no quoting). */
static size_t split(char *line, char **cells, size_t most) {
  size_t n = 0;
  for (char *at = line; at && n < most; n++) {
    char *comma = strchr(at, ',');
    if (comma) *comma = 0;
    cells[n] = copy(at);
    at = comma ? comma + 1 : NULL;
  }
  return n;
}

check_table check_table_read(const char *path) {
  enum { MOST_COLUMNS = 64 };
  check_table table = {0};
  char *text = slurp(path), *rest = text, *line, *cells[MOST_COLUMNS];
  while ((line = strsep(&rest, "\n"))) {
    line[strcspn(line, "\r")] = 0;
    if (!line[0] || line[0] == '#') continue;
    size_t n = split(line, cells, MOST_COLUMNS);
    if (!table.header) {
      table.columns = n;
      table.header = calloc(n, sizeof *table.header);
      assert_non_null(table.header);
      memcpy(table.header, cells, n * sizeof *cells);
      continue;
    }
    if (n != table.columns) fail_msg("%s: row of %zu cells", path, n);
    table.cells = realloc(table.cells,
                          (table.rows + 1) * n * sizeof *table.cells);
    assert_non_null(table.cells);
    memcpy(table.cells + table.rows++ * n, cells, n * sizeof *cells);
  }
  free(text);
  if (table.rows == 0) fail_msg("%s holds no rows", path);
  return table;
}

const char *check_table_text(const check_table *table, size_t row,
                             const char *column) {
  for (size_t c = 0; c < table->columns; c++)
    if (!strcmp(table->header[c], column))
      return table->cells[row * table->columns + c];
  fail_msg("no column %s", column);
  return NULL;
}

static locale_t plain_locale(void) {
  static locale_t plain;
  if (!plain) plain = newlocale(LC_ALL_MASK, "C", (locale_t)0);
  assert_true(plain != (locale_t)0);
  return plain;
}

double check_strtod(const char *text) {
  return strtod_l(text, NULL, plain_locale());
}

int check_snprintf(char *out, size_t size, const char *format, ...) {
  va_list arguments;
  locale_t before = uselocale(plain_locale());
  va_start(arguments, format);
  int length = vsnprintf(out, size, format, arguments);
  va_end(arguments);
  uselocale(before);
  return length;
}

double check_table_number(const check_table *table, size_t row,
                          const char *column) {
  return check_strtod(check_table_text(table, row, column));
}

void check_table_free(check_table *table) {
  for (size_t i = 0; i < table->rows * table->columns; i++)
    free(table->cells[i]);
  for (size_t c = 0; c < table->columns; c++) free(table->header[c]);
  free(table->cells);
  free(table->header);
  *table = (check_table){0};
}

/* One test of a program: SCATTERWISE_TEST_FILTER=name, with * and ?. */
__attribute__((constructor)) static void filter_tests(void) {
  const char *pattern = getenv("SCATTERWISE_TEST_FILTER");
  if (pattern) cmocka_set_test_filter(pattern);
}

unsigned check_multiplier(void) {
  const char *text = getenv("SCATTERWISE_TEST_MULTIPLIER");
  unsigned long value = text ? strtoul(text, NULL, 10) : 1;
  return value ? (unsigned)value : 1;
}
