/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A grid of plans: readings for many effects and scatters at once. */
#include <math.h>
#include <stdlib.h>

#include "memory.h"
#include "named_columns.h"
#include "planning.h"
#include "scatterwise/given.h"
#include "settings.h"

typedef struct taker {
  scw_plan_grid_result *out;
  size_t capacity;
} taker;

static scw_status plan_row(scw_context *context, const scw_settings *settings,
                           scw_grid_row *row) {
  scwi_comparison c = {.sd_before = row->sd,
                       .sd_after = row->sd,
                       .step = settings->step.size,
                       .level = settings->level};
  scw_status status = scwi_plan_n(context, &c, SCW_PLAN_DETECT, row->effect,
                                  settings->power, &row->readings_per_side);
  c.paired = true;
  if (status) return status;
  return scwi_plan_n(context, &c, SCW_PLAN_DETECT, row->effect, settings->power,
                     &row->spots);
}

static scw_status take_row(void *user, scw_context *context,
                           const scwi_named_row *given) {
  static const scwi_named both[] = {SCWI_NAMED_EFFECT, SCWI_NAMED_SD};
  taker *t = user;
  for (size_t i = 0; i < sizeof both / sizeof *both; i++) {
    const scwi_named_cell *cell = &given->cell[both[i]][SCW_SIDE_NONE];
    if (!(cell->number > 0))
      return scwi_named_fail(context, given, cell,
                             "effect and sd must both be positive numbers");
  }
  scw_grid_row row = {
      .effect = given->cell[SCWI_NAMED_EFFECT][SCW_SIDE_NONE].number,
      .sd = given->cell[SCWI_NAMED_SD][SCW_SIDE_NONE].number};
  scw_status status =
      SCWI_RESERVE(context, t->out->n + 1, &t->out->row, &t->capacity);
  if (!status) status = plan_row(context, &t->out->settings, &row);
  if (!status) t->out->row[t->out->n++] = row;
  return status;
}

scw_status scw_plan_grid(scw_context *context, const scw_table_options *options,
                         scw_source source, const scw_settings *settings,
                         scw_plan_grid_result *out) {
  taker t = {.out = out};
  const scwi_named_ask ask = {.wanted = SCWI_NAMED_BIT(SCWI_NAMED_EFFECT) |
                                        SCWI_NAMED_BIT(SCWI_NAMED_SD),
                              .required = SCWI_NAMED_BIT(SCWI_NAMED_EFFECT) |
                                          SCWI_NAMED_BIT(SCWI_NAMED_SD),
                              .take = take_row,
                              .user = &t};
  *out = (scw_plan_grid_result){0};
  scw_status status = scwi_settings_take(context, settings, &out->settings);
  if (!status)
    status =
        scwi_named_columns_read(context, options, source, &ask, &out->account);
  if (status) scw_plan_grid_result_free(out);
  return status;
}

void scw_plan_grid_result_free(scw_plan_grid_result *result) {
  free(result->row);
  scw_table_free(result->account);
  *result = (scw_plan_grid_result){0};
}
