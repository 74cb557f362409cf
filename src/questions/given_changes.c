/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changes known by numbers, from a table of summaries. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "labels.h"
#include "memory.h"
#include "named_columns.h"
#include "notes.h"
#include "scatterwise/given.h"
#include "text.h"

enum { NO = SCW_SIDE_NONE, BEFORE = SCW_SIDE_BEFORE, AFTER = SCW_SIDE_AFTER };

typedef struct taker {
  const char *file;
  const scw_table_options *options;
  const scw_given_side *before; /* common to all, or null */
  scw_given_changes *out;
  size_t capacity;
  scwi_labels products; /* label = number of the change */
  bool (*seen)[2];      /* of each change: before, after */
  size_t seen_capacity;
} taker;

/* A side of its own columns, or the one that the state column names. */
typedef const scwi_named_cell (*cells)[SCW_SIDE_AFTER + 1];

static bool is_wide(cells cell) {
  return cell[SCWI_NAMED_MEAN][BEFORE].has || cell[SCWI_NAMED_MEAN][AFTER].has;
}

/* The first column of this side where there is no mean of it, or null. */
static const scwi_named_cell *without_mean(cells cell, scw_side side) {
  if (cell[SCWI_NAMED_MEAN][side].has) return NULL;
  for (int what = SCWI_NAMED_N; what <= SCWI_NAMED_STEP; what++)
    if (cell[what][side].has) return &cell[what][side];
  return NULL;
}

static scw_status check_wide(const taker *t, scw_context *context,
                             const scwi_named_row *row) {
  cells cell = row->cell;
  const scwi_named_cell *both = &cell[SCWI_NAMED_MEAN][NO];
  const scwi_named_cell *state = &cell[SCWI_NAMED_STATE][NO];
  const scwi_named_cell *before = &cell[SCWI_NAMED_MEAN][BEFORE];
  if (both->has)
    return scwi_named_fail(context, row, both,
                           "a mean without a side beside columns of before or "
                           "after; head it before mean or after mean");
  if (state->has)
    return scwi_named_fail(context, row, state,
                           "a state column beside columns of before or after; "
                           "both say what is before, so leave one out");
  if (cell[SCWI_NAMED_SD][NO].has || cell[SCWI_NAMED_SE][NO].has)
    return scwi_named_fail(
        context, row,
        &cell[cell[SCWI_NAMED_SD][NO].has ? SCWI_NAMED_SD : SCWI_NAMED_SE][NO],
        "a scatter that does not say of which side it is; head the columns "
        "before sd and after sd (or se)");
  if (!cell[SCWI_NAMED_MEAN][AFTER].has)
    return scwi_named_fail(context, row, before,
                           "before without after; add a column after mean");
  if (!before->has && !t->before)
    return scwi_named_fail(context, row, &cell[SCWI_NAMED_MEAN][AFTER],
                           "after without before; add a column before mean, "
                           "or give the before side that all products share");
  if (before->has && t->before)
    return scwi_named_fail(context, row, before,
                           "a before side here, and one that all products "
                           "share was given too; use one of them");
  return SCW_OK;
}

static scw_status check_long(const taker *t, scw_context *context,
                             const scwi_named_row *row) {
  if (row->cell[SCWI_NAMED_STATE][NO].has || t->before) return SCW_OK;
  return scwi_named_fail(context, row, NULL,
                         "no state column says before or after; add one, or "
                         "give the before side that all products share");
}

/* The header as a whole: which shape it is, and whether it is a whole one. */
static scw_status check_columns(void *user, scw_context *context,
                                const scwi_named_row *row) {
  const taker *t = user;
  for (int side = BEFORE; side <= AFTER; side++) {
    const scwi_named_cell *alone = without_mean(row->cell, (scw_side)side);
    if (alone)
      return scwi_named_fail(context, row, alone,
                             side == BEFORE
                                 ? "this needs a column before mean beside it"
                                 : "this needs a column after mean beside it");
  }
  return is_wide(row->cell) ? check_wide(t, context, row)
                            : check_long(t, context, row);
}

/* The change of this product; a new one where there is none yet. */
static scw_status change_of(taker *t, scw_context *context, scwi_span product,
                            size_t *out) {
  scw_given_changes *all = t->out;
  char *name = NULL;
  int32_t label;
  scw_status status = scwi_labels_intern(context, &t->products, product.text,
                                         product.length, &label);
  if (status) return status;
  *out = (size_t)label;
  if (*out < all->n) return SCW_OK;
  status = SCWI_RESERVE(context, all->n + 1, &all->change, &t->capacity);
  if (!status)
    status = SCWI_RESERVE(context, all->n + 1, &t->seen, &t->seen_capacity);
  if (!status)
    status = scwi_copy_text(context, product.text, product.length, &name);
  if (status) return status;
  t->seen[all->n][0] = t->seen[all->n][1] = false;
  all->change[all->n++] = (scw_given_change){.product = name};
  return SCW_OK;
}

/* The cell of this side, else the one that both sides share. */
static const scwi_named_cell *cell_of(cells cell, scwi_named what,
                                      scw_side side) {
  return &cell[what][cell[what][side].has ? side : SCW_SIDE_NONE];
}

static scw_status take_count(scw_context *context, const scwi_named_row *row,
                             const scwi_named_cell *cell, size_t *out) {
  double n = cell->number;
  *out = 0;
  if (isnan(n)) return SCW_OK;
  if (!(n >= 1) || n > 1e9 || n != floor(n))
    return scwi_named_fail(context, row, cell,
                           "n must be a whole number of readings, at least 1");
  *out = (size_t)n;
  return SCW_OK;
}

static scw_status take_scatter(scw_context *context, const scwi_named_row *row,
                               scw_side side, scw_given_side *out) {
  const scwi_named_cell *sd = &row->cell[SCWI_NAMED_SD][side];
  const scwi_named_cell *se = &row->cell[SCWI_NAMED_SE][side];
  bool has_sd = !isnan(sd->number), has_se = !isnan(se->number);
  const scwi_named_cell *cell = has_sd ? sd : se;
  if (has_sd && has_se)
    return scwi_named_fail(context, row, se,
                           "both an SD and a standard error; give one");
  out->has_sd = has_sd || has_se;
  if (!out->has_sd) return SCW_OK;
  if (cell->number < 0)
    return scwi_named_fail(context, row, cell,
                           "a scatter below zero; correct the cell, or leave "
                           "it empty if it is not known");
  if (out->n == 0)
    return scwi_named_fail(context, row, cell,
                           "a scatter without n; say how many readings are "
                           "behind it");
  if (out->n == 1)
    return scwi_named_fail(context, row, cell,
                           "a scatter of one reading; correct n, or leave the "
                           "scatter empty");
  out->sd = has_sd ? cell->number : cell->number * sqrt((double)out->n);
  if (!isfinite(out->sd))
    return scwi_named_fail(context, row, cell,
                           "larger than any number that can be worked with");
  return SCW_OK;
}

/* mean, n, step and SD or standard error of one side. */
static scw_status take_side(scw_context *context, const scwi_named_row *row,
                            scw_side side, scw_given_side *out) {
  const scwi_named_cell *mean = &row->cell[SCWI_NAMED_MEAN][side];
  const scwi_named_cell *step = cell_of(row->cell, SCWI_NAMED_STEP, side);
  *out = (scw_given_side){.mean = mean->number};
  if (isnan(mean->number))
    return scwi_named_fail(context, row, mean,
                           "the mean is missing; fill it in or take the row "
                           "out");
  if (step->number < 0)
    return scwi_named_fail(context, row, step, "a step below zero");
  if (!isnan(step->number)) out->step = step->number;
  scw_status status =
      take_count(context, row, cell_of(row->cell, SCWI_NAMED_N, side), &out->n);
  return status ? status : take_scatter(context, row, side, out);
}

static scw_status put(taker *t, scw_context *context, const scwi_named_row *row,
                      scw_side side, const scw_given_side *given) {
  size_t change;
  const scwi_named_cell *product = &row->cell[SCWI_NAMED_PRODUCT][NO];
  scw_status status = change_of(t, context, product->text, &change);
  if (status) return status;
  bool *seen = &t->seen[change][side == SCW_SIDE_AFTER];
  if (*seen)
    return scwi_named_fail(context, row, product,
                           "a second row for this product and state; give one "
                           "row for each, or a product column that tells them "
                           "apart");
  *seen = true;
  *(side == SCW_SIDE_AFTER ? &t->out->change[change].after
                           : &t->out->change[change].before) = *given;
  return SCW_OK;
}

/* Both sides in one row; the before side may be the one all share. */
static scw_status take_wide(taker *t, scw_context *context,
                            const scwi_named_row *row) {
  scw_given_side before, after;
  scw_status status = take_side(context, row, SCW_SIDE_AFTER, &after);
  if (!status && !t->before)
    status = take_side(context, row, SCW_SIDE_BEFORE, &before);
  if (status) return status;
  status =
      put(t, context, row, SCW_SIDE_BEFORE, t->before ? t->before : &before);
  return status ? status : put(t, context, row, SCW_SIDE_AFTER, &after);
}

static bool is_label(scwi_span text, const char *label) {
  return label && scwi_same_name((scwi_span){label, strlen(label)}, text);
}

static scw_side side_of(const taker *t, scwi_span state) {
  if (is_label(state, t->options->before_label)) return SCW_SIDE_BEFORE;
  if (is_label(state, t->options->after_label)) return SCW_SIDE_AFTER;
  return scwi_side_of(state.text, state.length);
}

static scw_status take_row(void *user, scw_context *context,
                           const scwi_named_row *row) {
  taker *t = user;
  const scwi_named_cell *state = &row->cell[SCWI_NAMED_STATE][NO];
  scw_given_side given;
  if (is_wide(row->cell)) return take_wide(t, context, row);
  scw_side side = state->has ? side_of(t, state->text) : SCW_SIDE_AFTER;
  if (side == SCW_SIDE_NONE)
    return scwi_named_fail(context, row, state,
                           "the state is neither before nor after; write one "
                           "of these words, or say which word means which");
  if (side == SCW_SIDE_BEFORE && t->before)
    return scwi_named_fail(context, row, state,
                           "a before row here, and a before side that all "
                           "products share was given too; use one of them");
  scw_status status = take_side(context, row, SCW_SIDE_NONE, &given);
  if (!status && t->before)
    status = put(t, context, row, SCW_SIDE_BEFORE, t->before);
  return status ? status : put(t, context, row, side, &given);
}

static scw_status check_sides(const taker *t, scw_context *context) {
  for (size_t i = 0; i < t->out->n; i++)
    for (int side = 0; side < 2; side++)
      if (!t->seen[i][side])
        return scwi_fail_at(context, SCW_BAD_INPUT, t->file, 0, 0,
                            "product '%s' has no %s row; a change needs both",
                            t->out->change[i].product,
                            side ? "after" : "before");
  return SCW_OK;
}

scw_status scw_given_changes_read(scw_context *context,
                                  const scw_table_options *options,
                                  scw_source source,
                                  const scw_given_side *before,
                                  scw_given_changes *out) {
  static const scw_table_options none;
  taker t = {.file = source.name ? source.name : "input",
             .options = options ? options : &none,
             .before = before,
             .out = out};
  const scwi_named_ask ask = {
      .wanted = SCWI_NAMED_BIT(SCWI_NAMED_PRODUCT) |
                SCWI_NAMED_BIT(SCWI_NAMED_STATE) |
                SCWI_NAMED_BIT(SCWI_NAMED_GEOMETRY) |
                SCWI_NAMED_BIT(SCWI_NAMED_UNIT) | SCWI_NAMED_BIT(SCWI_NAMED_N) |
                SCWI_NAMED_BIT(SCWI_NAMED_MEAN) |
                SCWI_NAMED_BIT(SCWI_NAMED_SD) | SCWI_NAMED_BIT(SCWI_NAMED_SE) |
                SCWI_NAMED_BIT(SCWI_NAMED_STEP),
      .required = SCWI_NAMED_BIT(SCWI_NAMED_MEAN),
      .sided = true,
      .check = check_columns,
      .take = take_row,
      .user = &t};
  *out = (scw_given_changes){0};
  scw_status status =
      scwi_named_columns_read(context, options, source, &ask, &out->account);
  if (!status) status = check_sides(&t, context);
  if (status) scw_given_changes_free(out);
  scwi_labels_free(&t.products);
  free(t.seen);
  return status;
}

/* Each column of numbers that nobody understood is named. */
static scw_status note_columns(scw_context *context, const scw_input *input,
                               scwi_notes *notes) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < input->n_not_used && !status; i++) {
    const scw_not_used *entry = &input->not_used[i];
    if (strcmp(entry->reason, SCWI_NOT_UNDERSTOOD) != 0) continue;
    status = scwi_note(context, notes, "column_not_understood",
                       "Column '%s' was not used: its heading is none that is "
                       "known here. If it holds a scatter, head it sd or se.",
                       entry->text);
  }
  return status;
}

scw_status scw_change_from_given(scw_context *context,
                                 const scw_given_changes *given,
                                 const scw_settings *settings,
                                 const scw_change_options *options,
                                 scw_change_result *out) {
  const scw_input *input = scw_table_input(given->account, 0);
  scw_change_options asked = options ? *options : (scw_change_options){0};
  const char *geometry = asked.scatter.geometry;
  if (!geometry) asked.scatter.geometry = input->geometry;
  scw_status status =
      scw_change_from_numbers(context, given->change, given->n, input->unit,
                              input->quantity, settings, &asked, out);
  if (status) return status;
  out->options.scatter.geometry = geometry;
  scwi_notes notes = {out->notes, out->n_notes, out->n_notes};
  status = note_columns(context, input, &notes);
  out->notes = notes.note;
  out->n_notes = notes.n;
  if (status) scw_change_result_free(out);
  return status;
}

void scw_given_changes_free(scw_given_changes *changes) {
  for (size_t i = 0; i < changes->n; i++)
    free((char *)changes->change[i].product);
  free(changes->change);
  scw_table_free(changes->account);
  *changes = (scw_given_changes){0};
}
