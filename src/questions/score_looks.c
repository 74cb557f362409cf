/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A table of looks: product, ok at, gone by. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "named_columns.h"
#include "scatterwise/score.h"

#define NO SCW_SIDE_NONE

typedef struct taker {
  scw_looks *out;
  size_t capacity;
} taker;

static scw_status check(scw_context *context, const scwi_named_row *row,
                        const scw_look *look) {
  const scwi_named_cell *ok = &row->cell[SCWI_NAMED_OK_AT][NO];
  const scwi_named_cell *gone = &row->cell[SCWI_NAMED_GONE_BY][NO];
  if (isnan(look->ok_at))
    return scwi_named_fail(context, row, ok,
                           "the passes after which the coat was still fine "
                           "are missing; 0 if it was gone at the first look");
  if (look->ok_at < 0)
    return scwi_named_fail(context, row, ok, "passes below zero");
  if (!(look->gone_by > look->ok_at))
    return scwi_named_fail(context, row, gone,
                           "gone by no later than it was still fine; gone by "
                           "must be more passes, or blank where it was fine "
                           "at the last look");
  return SCW_OK;
}

static scw_status take_row(void *user, scw_context *context,
                           const scwi_named_row *row) {
  taker *t = user;
  const scwi_named_cell *product = &row->cell[SCWI_NAMED_PRODUCT][NO];
  const scwi_named_cell *panel = &row->cell[SCWI_NAMED_PANEL][NO];
  const scwi_named_cell *rule = &row->cell[SCWI_NAMED_RULE][NO];
  scwi_span name = product->has ? product->text : panel->text;
  double gone = row->cell[SCWI_NAMED_GONE_BY][NO].number;
  scw_look look = {.ok_at = row->cell[SCWI_NAMED_OK_AT][NO].number,
                   .gone_by = isnan(gone) ? INFINITY : gone,
                   .line = row->line};
  if (!name.length)
    return scwi_named_fail(context, row, product->has ? product : panel,
                           "no product on this row; name it");
  scw_status status = check(context, row, &look);
  if (!status)
    status = SCWI_RESERVE(context, t->out->n + 1, &t->out->look, &t->capacity);
  if (!status)
    status = scwi_copy_text(context, name.text, name.length, &look.product);
  if (!status)
    status = scwi_copy_text(context, rule->text.text, rule->text.length,
                            &look.rule);
  if (status) {
    free(look.product);
    return status;
  }
  t->out->look[t->out->n++] = look;
  return SCW_OK;
}

scw_status scw_looks_read(scw_context *context,
                          const scw_table_options *options, scw_source source,
                          scw_looks *out) {
  taker t = {.out = out};
  const scwi_named_ask ask = {
      .wanted = SCWI_NAMED_BIT(SCWI_NAMED_PRODUCT) |
                SCWI_NAMED_BIT(SCWI_NAMED_PANEL) |
                SCWI_NAMED_BIT(SCWI_NAMED_RULE) |
                SCWI_NAMED_BIT(SCWI_NAMED_OK_AT) |
                SCWI_NAMED_BIT(SCWI_NAMED_GONE_BY),
      .required = SCWI_NAMED_BIT(SCWI_NAMED_OK_AT) |
                  SCWI_NAMED_BIT(SCWI_NAMED_GONE_BY),
      .take = take_row,
      .user = &t};
  *out = (scw_looks){0};
  scw_status status =
      scwi_named_columns_read(context, options, source, &ask, &out->account);
  if (status) scw_looks_free(out);
  return status;
}

void scw_looks_free(scw_looks *looks) {
  for (size_t i = 0; i < looks->n; i++) {
    free(looks->look[i].product);
    free(looks->look[i].rule);
  }
  free(looks->look);
  scw_table_free(looks->account);
  *looks = (scw_looks){0};
}
