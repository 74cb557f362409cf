/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "claims.h"

#include <math.h>

#include "named_columns.h"

#define BIT(what) SCWI_NAMED_BIT(SCWI_NAMED_##what)

static const unsigned wanted =
    BIT(PRODUCT) | BIT(GEOMETRY) | BIT(UNIT) | BIT(CLAIM) | BIT(CATEGORY) |
    BIT(DATE) | BIT(RULE) | BIT(METHOD) | BIT(PANEL) | BIT(METER) |
    BIT(SESSION) | BIT(N) | BIT(MEAN) | BIT(EFFECT) | BIT(SD) | BIT(SE) |
    BIT(STEP) | BIT(POINTS) | BIT(READING);

typedef struct taker {
  const scwi_claims_ask *ask;
  scwi_tick_scale *scale;
  bool scaled; /* all readings so far have a common tick */
} taker;

typedef const scwi_named_cell (*cells)[SCW_SIDE_AFTER + 1];

static const scw_side sides[2] = {SCW_SIDE_BEFORE, SCW_SIDE_AFTER};

scw_status scwi_claim_fail(scw_context *context, const scwi_claim_row *row,
                           const scwi_printed *cell, const char *words) {
  return scwi_fail_at(context, SCW_BAD_INPUT, row->file, row->line,
                      cell ? cell->column : 0, "%s", words);
}

/* The cell of this side, else the one that counts for both. */
static const scwi_named_cell *cell_of(cells cell, scwi_named what, int side) {
  return &cell[what][cell[what][sides[side]].has ? sides[side] : SCW_SIDE_NONE];
}

static scwi_printed printed(const scwi_named_cell *cell) {
  return (scwi_printed){cell->number, cell->digits, cell->has && !isnan(cell->number),
                        cell->has ? cell->column : 0};
}

static bool has(cells cell, scwi_named what, int side) {
  return cell_of(cell, what, side)->has;
}

static scw_status tell_columns(void *user, scw_context *context,
                               const scwi_named_row *row) {
  const taker *t = user;
  cells c = row->cell;
  scwi_claim_columns columns = {
      .mean = {c[SCWI_NAMED_MEAN][SCW_SIDE_BEFORE].has,
               has(c, SCWI_NAMED_MEAN, 1)},
      .change = c[SCWI_NAMED_EFFECT][SCW_SIDE_NONE].has,
      .points = c[SCWI_NAMED_POINTS][SCW_SIDE_NONE].has,
      .readings = {c[SCWI_NAMED_READING][SCW_SIDE_BEFORE].has,
                   c[SCWI_NAMED_READING][SCW_SIDE_AFTER].has},
      .rule = c[SCWI_NAMED_RULE][SCW_SIDE_NONE].has};
  if (!columns.mean[1] && !columns.change && !columns.points &&
      !columns.readings[1])
    return scwi_named_fail(
        context, row, NULL,
        "no column holds anything that is claimed; an archive has means "
        "('before mean', 'after mean'), readings ('before 1', 'after 1', ... or "
        "--before 'b*' --after 'a*'), a 'change' or 'points'");
  return t->ask->columns ? t->ask->columns(t->ask->user, context, &columns)
                         : SCW_OK;
}

static scw_status check_counts(scw_context *context, const scwi_claim_row *row,
                               int side) {
  const scwi_printed *n = &row->n[side];
  const struct {
    const scwi_printed *cell;
    const char *words;
  } never_below[] = {
      {&row->sd[side], "an SD below zero; correct the cell, or leave it empty"},
      {&row->se[side],
       "a standard error below zero; correct the cell, or leave it empty"},
      {&row->step[side], "a display step below zero; correct the cell"}};
  if (n->has && (!(n->value >= 1) || n->value > 1e6 ||
                 n->value != floor(n->value)))
    return scwi_claim_fail(context, row, n,
                           "n must be a whole number of readings, 1 to "
                           "1000000");
  for (size_t i = 0; i < 3; i++)
    if (never_below[i].cell->has && never_below[i].cell->value < 0)
      return scwi_claim_fail(context, row, never_below[i].cell,
                             never_below[i].words);
  return SCW_OK;
}

/* Sums of ticks where the readings of the row have a common one. */
static bool in_ticks(const scwi_decimal *x, size_t n,
                     scwi_claim_readings *out) {
  scwi_tick_sums sums = {0};
  int64_t tick;
  int digits = x[0].digits;
  for (size_t i = 1; i < n; i++)
    digits = x[i].digits > digits ? x[i].digits : digits;
  for (size_t i = 0; i < n; i++) {
    tick = x[i].mantissa;
    if ((x[i].digits != digits || !x[i].exact) &&
        !scwi_decimal_ticks(&x[i], digits, &tick))
      return false;
    scwi_tick_sums_add(&sums, tick);
  }
  *out = (scwi_claim_readings){n, digits, (double)sums.sum,
                               scwi_tick_sums_spread(&sums)};
  return true;
}

/* Of the readings as doubles: ticks of 1. */
static scwi_claim_readings in_doubles(const scwi_decimal *x, size_t n) {
  long double sum = 0, spread = 0;
  for (size_t i = 0; i < n; i++) sum += x[i].value;
  for (size_t i = 0; i < n; i++) {
    long double off = (long double)n * x[i].value - sum;
    spread += off * off;
  }
  return (scwi_claim_readings){n, 0, (double)sum, (double)spread};
}

static void take_scale(taker *t, const scwi_decimal *reading) {
  int rise = t->scaled ? scwi_tick_scale_rise(t->scale, reading) : -1;
  t->scaled = rise >= 0;
  if (!t->scaled) return;
  if (rise > 0) scwi_tick_scale_raise(t->scale, rise);
  scwi_tick_scale_take(t->scale, reading);
}

/* Can these readings add nothing to what is known of all of them? */
static bool nothing_new(const scwi_tick_scale *scale, const scwi_decimal *x,
                        size_t n) {
  if (!scale->settled || scale->largest > INT64_MAX) return false;
  int64_t largest = (int64_t)scale->largest;
  for (size_t i = 0; i < n; i++)
    if (!x[i].exact || x[i].digits != scale->digits ||
        x[i].mantissa > largest || x[i].mantissa < -largest)
      return false;
  return true;
}

static void take_readings(taker *t, const scwi_named_row *row, int side,
                          scwi_claim_readings *out) {
  const scwi_decimal *x = row->reading[sides[side]];
  size_t n = row->n_readings[sides[side]];
  *out = (scwi_claim_readings){0};
  if (n == 0) return;
  if (!in_ticks(x, n, out)) *out = in_doubles(x, n);
  if (t->scaled && nothing_new(t->scale, x, n)) {
    t->scale->n += n;
    return;
  }
  for (size_t i = 0; i < n; i++) take_scale(t, &x[i]);
}

static scw_status take_row(void *user, scw_context *context,
                           const scwi_named_row *row) {
  taker *t = user;
  cells c = row->cell;
#define TEXT(what) c[SCWI_NAMED_##what][SCW_SIDE_NONE].text
#define NUMBER(what) printed(&c[SCWI_NAMED_##what][SCW_SIDE_NONE])
  scwi_claim_row out = {.file = row->file, .line = row->line,
                        .id = TEXT(CLAIM), .product = TEXT(PRODUCT),
                        .category = TEXT(CATEGORY), .date = TEXT(DATE),
                        .rule = TEXT(RULE), .method = TEXT(METHOD),
                        .geometry = TEXT(GEOMETRY), .unit = TEXT(UNIT),
                        .change = NUMBER(EFFECT), .points = NUMBER(POINTS)};
#undef TEXT
#undef NUMBER
  scw_status status = SCW_OK;
  for (int side = 0; side < 2 && !status; side++) {
    out.panel[side] = cell_of(c, SCWI_NAMED_PANEL, side)->text;
    out.meter[side] = cell_of(c, SCWI_NAMED_METER, side)->text;
    out.session[side] = cell_of(c, SCWI_NAMED_SESSION, side)->text;
    out.sd[side] = printed(cell_of(c, SCWI_NAMED_SD, side));
    out.se[side] = printed(cell_of(c, SCWI_NAMED_SE, side));
    out.n[side] = printed(cell_of(c, SCWI_NAMED_N, side));
    out.step[side] = printed(cell_of(c, SCWI_NAMED_STEP, side));
    take_readings(t, row, side, &out.readings[side]);
    status = check_counts(context, &out, side);
  }
  out.mean[0] = printed(&c[SCWI_NAMED_MEAN][SCW_SIDE_BEFORE]);
  out.mean[1] = printed(cell_of(c, SCWI_NAMED_MEAN, 1));
  return status ? status : t->ask->take(t->ask->user, context, &out);
}

scw_status scwi_claims_read(scw_context *context,
                            const scw_table_options *options,
                            scw_source source, const scwi_claims_ask *ask,
                            scwi_tick_scale *scale, scw_table **account) {
  taker t = {ask, scale, true};
  const scwi_named_ask named = {.wanted = wanted,
                                .sided = true,
                                .open = true,
                                .check = tell_columns,
                                .take = take_row,
                                .user = &t};
  *scale = (scwi_tick_scale){0};
  scw_status status =
      scwi_named_columns_read(context, options, source, &named, account);
  if (!t.scaled) *scale = (scwi_tick_scale){0};
  return status;
}
