/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plain lines, block by block, in several threads. */
#include <string.h>

#include "fast_inside.h"
#include "labels.h"
#include "memory.h"

enum { MOST_DIGITS = 18 };

/* A plain number at `at`; returns behind it, or null. */
static const char *take_number(const scwi_fast *fast, const char *at,
                               int64_t *mantissa, int *digits) {
  bool negative = *at == '-';
  uint64_t value = 0;
  const char *first = at += negative, *mark = NULL;
  for (;; at++) {
    unsigned digit = (unsigned)(unsigned char)*at - '0';
    if (digit < 10)
      value = value * 10 + digit;
    else if (*at == fast->mark && !mark && at > first)
      mark = at;
    else
      break;
  }
  size_t length = (size_t)(at - first) - (mark ? 1 : 0);
  bool known = mark ? fast->decimals : fast->wholes || value < 100;
  *digits = mark ? (int)(at - mark) - 1 : 0;
  if (length == 0 || length > MOST_DIGITS || !known) return NULL;
  if (mark && *digits == 0) return NULL;
  *mantissa = negative ? -(int64_t)value : (int64_t)value;
  return at;
}

/* A line of a block, looked at but not yet summed. */
typedef struct looked_at {
  const char *at, *behind;
  size_t line;
  bool plain;       /* as far as the label has not been looked at */
  bool same;        /* the label is that of the plain line before */
  size_t length;    /* of the label */
  uint64_t hash;
  int64_t mantissa;
  int digits;
} looked_at;

/* Is the label that of the line before? Neighbours mostly share it. */
static bool same_label(const scwi_fast *fast, const looked_at *before,
                       const char *at, const char *end) {
  if (!before || !before->plain) return false;
  return (size_t)(end - at) > before->length &&
         at[before->length] == fast->separator &&
         memcmp(before->at, at, before->length) == 0;
}

/* The separator behind the label at `at`; null when the line has none. */
static const char *find_separator(const scwi_fast *fast, const char *at) {
  while (*at != fast->separator && *at != '\n') at++;
  return *at == '\n' ? NULL : at;
}

/* Takes the line at `at` apart, and sends for the memory of its set. */
static void look_at_line(const scwi_worker *w, const char *at, const char *end,
                         const looked_at *before, looked_at *out) {
  out->at = at;
  out->same = same_label(w->fast, before, at, end);
  const char *separator =
      out->same ? at + before->length : find_separator(w->fast, at);
  const char *behind = separator ? take_number(w->fast, separator + 1,
                                               &out->mantissa, &out->digits)
                                 : NULL;
  if (behind) behind += *behind == '\r';
  out->plain = behind && *behind == '\n';
  if (!out->plain)
    behind = memchr(at, '\n', (size_t)(end - at)); /* every line has one */
  out->behind = behind + 1;
  if (!out->plain) return;
  out->length = (size_t)(separator - at);
  if (out->same) return;
  out->hash = scwi_label_hash(at, out->length);
  scwi_fast_sets_expect_slot(&w->sets, out->hash);
}

static scw_status put_aside(scwi_worker *w, const looked_at *line) {
  scwi_block_note *note = &w->note[w->n_notes - 1];
  size_t size = (size_t)(line->behind - line->at);
  scw_status status = SCWI_RESERVE(&w->context, w->n_aside + 1, &w->aside,
                                   &w->aside_capacity);
  if (status != SCW_OK) return status;
  w->aside[w->n_aside++] =
      (scwi_aside_line){line->line, w->aside_text.length, size,
                        note->last_plain, note->last_set};
  scwi_text_append(&w->aside_text, line->at, size);
  note->asides++;
  return scwi_text_status(&w->context, &w->aside_text);
}

/* Sums the line or puts it aside; *set is that of the plain line before. */
static scw_status take_line(scwi_worker *w, const looked_at *line,
                            size_t *set) {
  scwi_block_note *note = &w->note[w->n_notes - 1];
  scw_status status = SCW_OK;
  if (!line->plain) return put_aside(w, line);
  if (!line->same)
    status = scwi_fast_sets_find(&w->context, &w->sets, line->at, line->length,
                                 line->hash, line->line, set);
  if (status != SCW_OK) return status;
  bool known = *set != SCWI_NO_FAST_SET;
  if (!known ||
      !scwi_fast_sets_add(&w->sets, *set, line->mantissa, line->digits))
    return put_aside(w, line);
  w->rows++;
  note->last_plain = line->line;
  note->last_set = *set;
  return SCW_OK;
}

static size_t empty_line(const char *at) {
  return *at == '\n' ? 1 : *at == '\r' && at[1] == '\n' ? 2 : 0;
}

/* Many lines are looked at before the first of them is summed, so that memory
 * has time to come. */
static void take_lines(scwi_worker *w, const scwi_lines *lines) {
  enum { MANY = 64 };
  looked_at looked[MANY];
  const char *at = w->block, *end = at + lines->size;
  size_t line = lines->line, set = SCWI_NO_FAST_SET;
  w->note[w->n_notes++] = (scwi_block_note){
      .line = line, .worker = w, .first_aside = w->n_aside};
  while (at < end && w->status == SCW_OK) {
    size_t n = 0, empty;
    for (; n < MANY && at < end; line++) {
      if ((empty = empty_line(at)) > 0) { /* no row */
        at += empty;
        continue;
      }
      look_at_line(w, at, end, n ? &looked[n - 1] : NULL, &looked[n]);
      looked[n].line = line;
      at = looked[n++].behind;
    }
    for (size_t i = 0; i < n; i++)
      if (looked[i].plain && !looked[i].same)
        scwi_fast_sets_expect_set(&w->sets, looked[i].hash);
    for (size_t i = 0; i < n && w->status == SCW_OK; i++)
      w->status = take_line(w, &looked[i], &set);
  }
}

bool scwi_fast_next_block(scwi_worker *w, scwi_lines *lines) {
  scwi_fast *fast = w->fast;
  pthread_mutex_lock(&fast->lock);
  lines->size = 0;
  if (!fast->stop && fast->status == SCW_OK) {
    fast->status = scwi_rows_lines(fast->context, fast->rows, w->block,
                                   SCWI_FAST_BLOCK, lines);
    fast->dry = lines->size == 0;
    fast->stop = fast->dry;
  }
  pthread_mutex_unlock(&fast->lock);
  return lines->size > 0;
}

/* Tells how many lines this block put aside; too many stop the others. */
static void count_aside(scwi_worker *w, size_t more) {
  if (more == 0 && w->status == SCW_OK) return;
  pthread_mutex_lock(&w->fast->lock);
  w->fast->n_aside += more;
  if (w->fast->n_aside > SCWI_FAST_ASIDE || w->status != SCW_OK)
    w->fast->stop = true;
  pthread_mutex_unlock(&w->fast->lock);
}

void scwi_fast_take_block(scwi_worker *w, const scwi_lines *lines) {
  w->status = SCWI_RESERVE(&w->context, w->n_notes + 1, &w->note,
                           &w->notes_capacity);
  if (w->status == SCW_OK) take_lines(w, lines);
  count_aside(w, w->n_notes ? w->note[w->n_notes - 1].asides : 0);
}

static void *work(void *user) {
  scwi_worker *w = user;
  scwi_lines lines;
  while (w->status == SCW_OK && scwi_fast_next_block(w, &lines))
    scwi_fast_take_block(w, &lines);
  return NULL;
}

void scwi_fast_run_threads(scwi_fast *fast) {
  pthread_t thread[SCWI_FAST_THREADS];
  unsigned started = 0;
  while (started + 1 < fast->threads &&
         pthread_create(&thread[started], NULL, work,
                        &fast->workers[started + 1]) == 0)
    started++;
  work(&fast->workers[0]);
  for (unsigned i = 0; i < started; i++) pthread_join(thread[i], NULL);
}
