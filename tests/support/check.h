/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Comparing numbers in tests: cmocka's own float assertion casts to float, so
 * it is never used. A failure prints both numbers and the distance. */
#ifndef CHECK_H
#define CHECK_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

/* |got - wanted| <= tolerance * |wanted|; equal infinities and two zeros
 * pass, NaN never does. */
#define check_relative(got, wanted, tolerance)                                 \
  check_number((got), (wanted), 0, (tolerance), #got, __FILE__, __LINE__)
#define check_absolute(got, wanted, tolerance)                                 \
  check_number((got), (wanted), (tolerance), 0, #got, __FILE__, __LINE__)
/* Passes when either tolerance holds. */
#define check_either(got, wanted, absolute, relative)                          \
  check_number((got), (wanted), (absolute), (relative), #got, __FILE__,        \
               __LINE__)

void check_number(double got, double wanted, double absolute, double relative,
                  const char *what, const char *file, int line);

/* One table of numbers and words from a CSV file in reference-data, '#' lines
 * skipped, first row a header. Fails the test when it cannot be read. */
typedef struct check_table {
  size_t rows, columns;
  char **cells; /* rows * columns texts */
  char **header;
} check_table;
check_table check_table_read(const char *path);
const char *check_table_text(const check_table *table, size_t row,
                             const char *column);
double check_table_number(const check_table *table, size_t row,
                          const char *column);
/* strtod and snprintf in the C locale, whatever locale the test runs in. */
double check_strtod(const char *text);
int check_snprintf(char *out, size_t size, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
void check_table_free(check_table *table);

/* SCATTERWISE_TEST_MULTIPLIER from the environment, 1 when not set. */
unsigned check_multiplier(void);

#endif
