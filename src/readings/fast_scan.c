/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fast_scan.h"

#include <stdlib.h>
#include <string.h>

#include "fast_inside.h"
#include "memory.h"
#include "running_sums.h"
#include "table.h"

/* A label that makes the set, and plain readings beside it. */
static bool suits(const scwi_reader *reader, char separator) {
  const scwi_layout *layout = &reader->layout;
  if (layout->bare || layout->n != 2 || layout->n_others != 1 ||
      layout->n_readings != 1 || layout->other[0] != 0 ||
      layout->reading[0] != 1)
    return false;
  const scwi_column *label = &layout->column[0], *value = &layout->column[1];
  bool makes_set = label->use == SCWI_USE_LABEL &&
                   (label->role == SCW_ROLE_SET ||
                    label->role == SCW_ROLE_PRODUCT ||
                    label->role == SCW_ROLE_PANEL ||
                    label->role == SCW_ROLE_SESSION);
  bool plain = value->side == SCW_SIDE_NONE &&
               reader->geometry == SCW_NO_LABEL;
  for (int role = 0; role < SCW_ROLE_COUNT; role++)
    plain = plain && value->given[role] == SCW_NO_LABEL;
  return makes_set && plain && separator && strchr(",;\t", separator);
}

static scw_status make_workers(scw_context *context, scwi_fast *fast) {
  scw_status status = SCWI_ALLOCATE(context, fast->threads, &fast->workers);
  for (unsigned i = 0; i < fast->threads && status == SCW_OK; i++) {
    fast->workers[i].fast = fast;
    status = SCWI_ALLOCATE(context, SCWI_FAST_BLOCK, &fast->workers[i].block);
  }
  return status;
}

static scw_status make(scwi_reader *reader, scwi_rows *rows,
                       scwi_fast **out) {
  scw_context *context = reader->context;
  scw_status status = SCWI_ALLOCATE(context, 1, out);
  if (status != SCW_OK) return status;
  scwi_fast *fast = *out;
  fast->separator = scwi_rows_facts_of(rows).separator;
  fast->suits = suits(reader, fast->separator);
  fast->lock_made = pthread_mutex_init(&fast->lock, NULL) == 0;
  if (!fast->suits || !fast->lock_made) return fast->suits = false, SCW_OK;
  fast->role = reader->layout.column[0].role;
  fast->side = reader->options->side;
  fast->threads = context->threads < SCWI_FAST_THREADS ? context->threads
                                                  : SCWI_FAST_THREADS;
  fast->rows = rows;
  fast->context = context;
  return make_workers(context, fast);
}

/* Until a row comes that is not for this way, or many lines are put aside. */
static scw_status run(scwi_reader *reader, scwi_fast *fast, bool *go_on) {
  scwi_worker *first = &fast->workers[0];
  scwi_lines lines;
  fast->mark = reader->marks.decimal ? reader->marks.decimal : '.';
  fast->decimals = scwi_marks_know_decimals(&reader->marks);
  fast->wholes = scwi_marks_know_wholes(&reader->marks);
  fast->stop = fast->dry = false;
  fast->n_aside = 0;
  *go_on = false;
  if (fast->mark == fast->separator) return fast->suits = false, SCW_OK;
  if (!scwi_fast_next_block(first, &lines)) return fast->status;
  scwi_fast_take_block(first, &lines);
  if (lines.size > SCWI_FAST_BLOCK / 2) scwi_fast_run_threads(fast);
  *go_on = !fast->dry;
  return scwi_fast_settle(reader, fast);
}

scw_status scwi_fast_lines(scwi_fast **fast, scwi_reader *reader,
                           scwi_rows *rows) {
  scw_status status = SCW_OK;
  if (!*fast) status = make(reader, rows, fast);
  bool go_on = status == SCW_OK && (*fast)->suits;
  while (go_on) {
    status = run(reader, *fast, &go_on);
    if (status != SCW_OK) return status;
  }
  return status;
}

/* The worker whose next set was met first; null when all are through. */
static const scwi_fast_sets *earliest(const scwi_fast *fast, size_t *next,
                                      size_t **at) {
  const scwi_fast_sets *found = NULL;
  for (unsigned i = 0; i < fast->threads; i++) {
    const scwi_fast_sets *sets = &fast->workers[i].sets;
    if (next[i] == sets->n) continue;
    if (found && sets->name[next[i]].line > found->name[**at].line) continue;
    found = sets;
    *at = &next[i];
  }
  return found;
}

/* Which set has which label, as far as sets have no other label: number + 1,
 * 0 for none. Freed by the caller. */
static scw_status map_labels(scw_context *context, const scwi_fast *fast,
                             const scwi_sums *sums, size_t labels,
                             size_t **out) {
  scw_status status = SCWI_ALLOCATE(context, labels, out);
  for (size_t i = 0; i < sums->index.n && status == SCW_OK; i++) {
    scwi_set_key key = sums->index.key[i];
    int32_t label = key.set;
    if (fast->role == SCW_ROLE_PRODUCT) label = key.product;
    if (fast->role == SCW_ROLE_PANEL) label = key.panel;
    if (fast->role == SCW_ROLE_SESSION) label = key.session;
    if (label != SCW_NO_LABEL) (*out)[label] = i + 1;
  }
  return status;
}

/* Hands one set over. Labels are looked up in memory that is not in the
 * cache: those a few sets ahead are sent for in time. */
static scw_status hand_over(scw_context *context, const scwi_fast *fast,
                            const scwi_fast_sets *sets, size_t i,
                            scwi_sums *sums, size_t *set_of) {
  enum { AHEAD = 8 };
  scwi_labels *labels = &sums->table->labels;
  const scwi_fast_name *set = &sets->name[i];
  int32_t label;
  size_t number;
  if (i + AHEAD < sets->n)
    __builtin_prefetch(labels->slot +
                       (set[AHEAD].hash & (labels->slots - 1)));
  scw_status status = scwi_labels_intern_hashed(
      context, labels, set->text, set->length, set->hash, &label);
  if (status != SCW_OK) return status;
  if (set_of[label]) {
    number = set_of[label] - 1;
  } else {
    scw_reading like = scwi_reading_none();
    like.side = fast->side;
    *scwi_reading_label(&like, fast->role) = label;
    scwi_set_key key = scwi_set_key_of(&like, 0);
    status = scwi_sums_append(context, sums, &key, &number);
    if (status != SCW_OK) return status;
    set_of[label] = number + 1;
  }
  scwi_sums_absorb(sums, number, set->line, &scwi_fast_set_at(sets, i)->sums,
                   sets->scale.digits);
  return SCW_OK;
}

scw_status scwi_fast_finish(scw_context *context, scwi_fast *fast,
                            scwi_sums *sums) {
  size_t next[SCWI_FAST_THREADS] = {0}, *at = NULL, *set_of = NULL;
  size_t most = sums->table->labels.n; /* labels there can be */
  for (unsigned i = 0; i < fast->threads; i++) {
    scwi_sums_meet(sums, &fast->workers[i].sets.scale);
    most += fast->workers[i].sets.n;
  }
  scw_status status = scwi_sums_reserve(context, sums, most);
  if (status == SCW_OK)
    status = map_labels(context, fast, sums, most, &set_of);
  const scwi_fast_sets *sets;
  while (status == SCW_OK && (sets = earliest(fast, next, &at)))
    status = hand_over(context, fast, sets, (*at)++, sums, set_of);
  free(set_of);
  return status;
}

void scwi_fast_free(scwi_fast *fast) {
  if (!fast) return;
  for (unsigned i = 0; fast->workers && i < fast->threads; i++) {
    scwi_worker *w = &fast->workers[i];
    scwi_fast_sets_free(&w->sets);
    scwi_text_free(&w->aside_text);
    free(w->aside);
    free(w->note);
    free(w->block);
  }
  if (fast->lock_made) pthread_mutex_destroy(&fast->lock);
  free(fast->workers);
  free(fast);
}
