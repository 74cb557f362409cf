/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changes known by numbers, from a table of summaries. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "named_columns.h"
#include "scatterwise/given.h"

enum { PRODUCT, STATE, N, MEAN, SD, SE, STEP, BEFORE, AFTER, UNSAID, COLUMNS };

static const scwi_named_column columns[COLUMNS] = {
    [PRODUCT] = {"product", "dressing", true, false},
    [STATE] = {"state", "when", true, false},
    [N] = {"n", "readings", false, false},
    [MEAN] = {"mean", "average", false, false},
    [SD] = {"sd", "standard deviation", false, false},
    [SE] = {"se", "standard error", false, false},
    [STEP] = {"step", NULL, false, false},
    [BEFORE] = {"before", "baseline", false, false},
    [AFTER] = {"after", "final", false, false},
    [UNSAID] = {"+-", "error", false, false}};

typedef struct taker {
  const char *file;
  const scw_given_side *before; /* common to all, or null */
  scw_given_changes *out;
  size_t capacity;
  bool *seen; /* two for each change: before, after */
  size_t seen_capacity;
} taker;

static scw_status fail(const taker *t, scw_context *context,
                       const scwi_named_row *row, const char *words) {
  return scwi_fail_at(context, SCW_BAD_INPUT, t->file, row->line, 0, "%s",
                      words);
}

/* The change of this product; a new one where there is none yet. */
static scw_status change_of(taker *t, scw_context *context, scwi_span product,
                            size_t *out) {
  scw_given_changes *all = t->out;
  char *name = NULL;
  for (*out = 0; *out < all->n; ++*out) {
    const char *other = all->change[*out].product;
    if (strlen(other) == product.length &&
        !memcmp(other, product.text, product.length))
      return SCW_OK;
  }
  scw_status status =
      SCWI_RESERVE(context, all->n + 1, &all->change, &t->capacity);
  if (!status)
    status = SCWI_RESERVE(context, 2 * (all->n + 1), &t->seen,
                          &t->seen_capacity);
  if (!status)
    status = scwi_copy_text(context, product.text, product.length, &name);
  if (status) return status;
  t->seen[2 * all->n] = t->seen[2 * all->n + 1] = false;
  all->change[all->n++] = (scw_given_change){.product = name};
  return SCW_OK;
}

static scw_status take_count(const taker *t, scw_context *context,
                             const scwi_named_row *row, size_t *out) {
  double n = row->number[N];
  *out = 0;
  if (isnan(n)) return SCW_OK;
  if (!(n >= 1) || n > 1e9 || n != floor(n))
    return fail(t, context, row, "n must be a whole number of at least 1");
  *out = (size_t)n;
  return SCW_OK;
}

/* mean, sd or se, n and step of a row. */
static scw_status take_side(const taker *t, scw_context *context,
                            const scwi_named_row *row, scw_given_side *out) {
  *out = (scw_given_side){.mean = row->number[MEAN]};
  scw_status status = take_count(t, context, row, &out->n);
  if (status) return status;
  if (isnan(out->mean)) return fail(t, context, row, "the mean is missing");
  if (!isnan(row->number[STEP])) out->step = row->number[STEP];
  double sd = row->number[SD], se = row->number[SE];
  if (!isnan(sd) && !isnan(se))
    return fail(t, context, row, "both an SD and a standard error; give one");
  out->has_sd = !isnan(sd) || !isnan(se);
  if (!out->has_sd) return SCW_OK;
  if (out->n < 2)
    return fail(t, context, row,
                "a scatter without n; say how many readings are behind it");
  out->sd = isnan(se) ? sd : se * sqrt((double)out->n);
  return SCW_OK;
}

static scw_status put(taker *t, scw_context *context,
                      const scwi_named_row *row, scw_side side,
                      const scw_given_side *given) {
  size_t change;
  scw_status status = change_of(t, context, row->text[PRODUCT], &change);
  if (status) return status;
  bool *seen = &t->seen[2 * change + (side == SCW_SIDE_AFTER)];
  if (*seen)
    return fail(t, context, row, "a second row for this product and state");
  *seen = true;
  *(side == SCW_SIDE_AFTER ? &t->out->change[change].after
                           : &t->out->change[change].before) = *given;
  return SCW_OK;
}

/* product,before,after,n: bare numbers. */
static scw_status take_published(taker *t, scw_context *context,
                                 const scwi_named_row *row) {
  scw_given_side before = {.mean = row->number[BEFORE]};
  scw_given_side after = {.mean = row->number[AFTER]};
  scw_status status = take_count(t, context, row, &before.n);
  if (status) return status;
  if (isnan(before.mean) || isnan(after.mean))
    return fail(t, context, row, "before or after is missing");
  after.n = before.n;
  if (!isnan(row->number[STEP])) before.step = after.step = row->number[STEP];
  status = put(t, context, row, SCW_SIDE_BEFORE, &before);
  return status ? status : put(t, context, row, SCW_SIDE_AFTER, &after);
}

static scw_status take_row(void *user, scw_context *context,
                           const scwi_named_row *row) {
  taker *t = user;
  scw_given_side given;
  if (row->has[UNSAID] && !row->has[SD] && !row->has[SE])
    return fail(t, context, row,
                "a scatter that does not say what it is; head the column sd or "
                "se");
  if (row->has[BEFORE] && row->has[AFTER] && !row->has[MEAN])
    return take_published(t, context, row);
  if (!row->has[MEAN])
    return fail(t, context, row, "no column is called 'mean'");
  scw_status status = take_side(t, context, row, &given);
  if (status) return status;
  if (!row->has[STATE]) {
    if (!t->before)
      return fail(t, context, row,
                  "no state column says before or after; add one, or give the "
                  "before side that all products share");
    status = put(t, context, row, SCW_SIDE_BEFORE, t->before);
    return status ? status : put(t, context, row, SCW_SIDE_AFTER, &given);
  }
  scw_side side = scwi_named_side(row->text[STATE]);
  if (side == SCW_SIDE_NONE)
    return fail(t, context, row, "the state is neither before nor after");
  return put(t, context, row, side, &given);
}

static scw_status check_sides(const taker *t, scw_context *context) {
  for (size_t i = 0; i < t->out->n; i++)
    for (int side = 0; side < 2; side++)
      if (!t->seen[2 * i + (size_t)side])
        return scwi_fail_at(context, SCW_BAD_INPUT, t->file, 0, 0,
                            "product '%s' has no %s row",
                            t->out->change[i].product,
                            side ? "after" : "before");
  return SCW_OK;
}

scw_status scw_given_changes_read(scw_context *context, scw_source source,
                                  const scw_given_side *before,
                                  scw_given_changes *out) {
  taker t = {.file = source.name, .before = before, .out = out};
  *out = (scw_given_changes){0};
  scw_status status = scwi_named_columns_read(context, source, columns,
                                              COLUMNS, take_row, &t,
                                              &out->account);
  if (!status) status = check_sides(&t, context);
  free(t.seen);
  if (status) scw_given_changes_free(out);
  return status;
}

void scw_given_changes_free(scw_given_changes *changes) {
  for (size_t i = 0; i < changes->n; i++)
    free((char *)changes->change[i].product);
  free(changes->change);
  scw_table_free(changes->account);
  *changes = (scw_given_changes){0};
}
