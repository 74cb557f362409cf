/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Old results from a table of numbers. */
#include <math.h>
#include <stdlib.h>

#include "memory.h"
#include "named_columns.h"
#include "scatterwise/bridge.h"

enum { NO = SCW_SIDE_NONE };

typedef struct taker {
  scw_old_results *out;
  size_t capacity;
} taker;

/* The standard uncertainty of the row: se, or sd over the root of n. */
static scw_status take_u(scw_context *context, const scwi_named_row *row,
                         scw_old_result *out) {
  const scwi_named_cell *sd = &row->cell[SCWI_NAMED_SD][NO];
  const scwi_named_cell *se = &row->cell[SCWI_NAMED_SE][NO];
  const scwi_named_cell *n = &row->cell[SCWI_NAMED_N][NO];
  bool has_sd = !isnan(sd->number), has_se = !isnan(se->number);
  out->has_u = has_sd || has_se;
  if (has_sd && has_se)
    return scwi_named_fail(context, row, se,
                           "both an SD and a standard error; give one");
  if (!out->has_u) return SCW_OK;
  out->u = has_se ? se->number : sd->number;
  if (out->u < 0)
    return scwi_named_fail(context, row, has_se ? se : sd,
                           "a scatter below zero; correct the cell, or leave "
                           "it empty if it is not known");
  if (has_se) return SCW_OK;
  if (isnan(n->number) || !(n->number >= 1) || n->number != floor(n->number))
    return scwi_named_fail(context, row, isnan(n->number) ? sd : n,
                           "an SD needs n, the whole number of readings behind "
                           "the result");
  out->u /= sqrt(n->number);
  return SCW_OK;
}

static scw_status take_row(void *user, scw_context *context,
                           const scwi_named_row *row) {
  taker *t = user;
  scw_old_results *all = t->out;
  const scwi_named_cell *mean = &row->cell[SCWI_NAMED_MEAN][NO];
  const scwi_named_cell *product = &row->cell[SCWI_NAMED_PRODUCT][NO];
  scw_old_result result = {.value = mean->number};
  char *name = NULL;
  if (isnan(mean->number))
    return scwi_named_fail(context, row, mean,
                           "the old result is missing; fill it in or take the "
                           "row out");
  scw_status status = take_u(context, row, &result);
  if (!status)
    status = SCWI_RESERVE(context, all->n + 1, &all->result, &t->capacity);
  if (!status)
    status = scwi_copy_text(context, product->text.text, product->text.length,
                            &name);
  if (status) return status;
  result.product = name;
  all->result[all->n++] = result;
  return SCW_OK;
}

scw_status scw_old_results_read(scw_context *context,
                                const scw_table_options *options,
                                scw_source source, scw_old_results *out) {
  taker t = {.out = out};
  const scwi_named_ask ask = {
      .wanted = SCWI_NAMED_BIT(SCWI_NAMED_PRODUCT) |
                SCWI_NAMED_BIT(SCWI_NAMED_GEOMETRY) |
                SCWI_NAMED_BIT(SCWI_NAMED_UNIT) | SCWI_NAMED_BIT(SCWI_NAMED_N) |
                SCWI_NAMED_BIT(SCWI_NAMED_MEAN) |
                SCWI_NAMED_BIT(SCWI_NAMED_SD) | SCWI_NAMED_BIT(SCWI_NAMED_SE),
      .required = SCWI_NAMED_BIT(SCWI_NAMED_MEAN),
      .take = take_row,
      .user = &t};
  *out = (scw_old_results){0};
  scw_status status =
      scwi_named_columns_read(context, options, source, &ask, &out->account);
  if (status) scw_old_results_free(out);
  return status;
}

void scw_old_results_free(scw_old_results *results) {
  for (size_t i = 0; i < results->n; i++)
    free((char *)results->result[i].product);
  free(results->result);
  scw_table_free(results->account);
  *results = (scw_old_results){0};
}
