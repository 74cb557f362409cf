/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Archives of published scores: one claim a row, with whatever the archive has
 * of it. Columns are known by their headings (docs/manual/audit.md). */
#ifndef SCWI_CLAIMS_H
#define SCWI_CLAIMS_H

#include "blanks.h"
#include "context.h"
#include "scatterwise/table.h"
#include "tick_sums.h"

/* A number as printed; one that is not there has no column. */
typedef struct scwi_printed {
  double value;
  int digits;    /* decimals it is printed with */
  bool has;
  size_t column; /* of the cell; 0: the file has no such column */
} scwi_printed;

/* Readings of one side as sums: in ticks of 10^-digits, their sum and the sum
 * of (n * reading - sum)^2. n = 0: none. */
typedef struct scwi_claim_readings {
  size_t n;
  int digits;
  double sum, spread;
} scwi_claim_readings;

/* Sides are numbered 0 before, 1 after. A column of no side counts for both. */
typedef struct scwi_claim_row {
  const char *file;
  size_t line;
  scwi_span id, product, category, date, rule, method, geometry, unit;
  scwi_span panel[2], meter[2], session[2];
  scwi_printed mean[2], sd[2], se[2], n[2], step[2];
  scwi_printed change, points;
  scwi_claim_readings readings[2];
} scwi_claim_row;

typedef scw_status (*scwi_take_claim)(void *user, scw_context *context,
                                      const scwi_claim_row *row);

/* Which columns the file has: told before the first row. */
typedef struct scwi_claim_columns {
  bool mean[2], change, points, readings[2], rule;
} scwi_claim_columns;

typedef struct scwi_claims_ask {
  scw_status (*columns)(void *user, scw_context *context,
                        const scwi_claim_columns *columns); /* or null */
  scwi_take_claim take;
  void *user;
} scwi_claims_ask;

/* Reads the source to its end, a call of `take` for each row in the order of
 * the file. Readings are the columns meant by options->before_label and
 * after_label ('b*', 'a*'), or numbered ones, "before 1". *account carries the
 * account of the input. SCW_BAD_INPUT with line and column as
 * scwi_named_columns_read, for a file that has neither a mean after, readings
 * after, a change nor points, and for n that is no count, a scatter or step
 * below zero. *scale becomes what is known of all readings together, from which
 * their display step is inferred; its n is 0 where there are none, or where
 * they have no common tick. Memory does not grow with the number of rows. */
scw_status scwi_claims_read(scw_context *context,
                            const scw_table_options *options,
                            scw_source source, const scwi_claims_ask *ask,
                            scwi_tick_scale *scale, scw_table **account);

/* SCW_BAD_INPUT at a cell of the row, or at the row for a null cell. */
scw_status scwi_claim_fail(scw_context *context, const scwi_claim_row *row,
                           const scwi_printed *cell, const char *words);

#endif
