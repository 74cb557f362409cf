/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plain lines, block by block, in several threads. */
#include <string.h>

#include "fast_inside.h"
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

static scw_status put_aside(scwi_worker *w, const char *at, const char *end,
                            size_t line) {
  scwi_block_note *note = &w->note[w->n_notes - 1];
  scw_status status = SCWI_RESERVE(&w->context, w->n_aside + 1, &w->aside,
                                   &w->aside_capacity);
  if (status != SCW_OK) return status;
  w->aside[w->n_aside++] =
      (scwi_aside_line){line, w->aside_text.length, (size_t)(end - at),
                   note->last_plain, note->last_set};
  scwi_text_append(&w->aside_text, at, (size_t)(end - at));
  note->asides++;
  return scwi_text_status(&w->context, &w->aside_text);
}

/* Does the line start with the label of that set? Neighbours mostly do, and
 * are not looked up again. */
static bool same_label(const scwi_worker *w, size_t set, const char *at,
                       const char *end) {
  if (set == SCWI_NO_FAST_SET) return false;
  const scwi_fast_set *last = &w->sets.set[set];
  return (size_t)(end - at) > last->length &&
         at[last->length] == w->fast->separator &&
         memcmp(last->text, at, last->length) == 0;
}

/* Sums the line when it is plain; returns behind it, or null when not. */
static const char *take_plain(scwi_worker *w, const char *at, const char *end,
                              size_t line, size_t *set) {
  int64_t mantissa;
  int digits;
  bool same = same_label(w, *set, at, end);
  const char *separator =
      same ? at + w->sets.set[*set].length
           : memchr(at, w->fast->separator, (size_t)(end - at));
  if (!separator) return NULL;
  const char *behind =
      take_number(w->fast, separator + 1, &mantissa, &digits);
  if (!behind) return NULL;
  behind += *behind == '\r';
  if (*behind != '\n') return NULL;
  if (!same)
    w->status = scwi_fast_sets_find(&w->context, &w->sets, at,
                                    (size_t)(separator - at), line, set);
  if (w->status != SCW_OK || *set == SCWI_NO_FAST_SET) return NULL;
  if (!scwi_fast_sets_add(&w->sets, *set, mantissa, digits)) return NULL;
  return behind + 1;
}

static void take_lines(scwi_worker *w, const scwi_lines *lines) {
  const char *at = w->block, *end = at + lines->size;
  scwi_block_note *note = &w->note[w->n_notes++];
  size_t set = SCWI_NO_FAST_SET;
  *note = (scwi_block_note){.line = lines->line, .worker = w,
                       .first_aside = w->n_aside};
  for (size_t line = lines->line; at < end && !w->status; line++) {
    if (*at == '\n' || (*at == '\r' && at[1] == '\n')) {
      at += *at == '\n' ? 1 : 2; /* an empty line is no row */
      continue;
    }
    const char *behind = take_plain(w, at, end, line, &set);
    if (behind) {
      w->rows++;
      note->last_plain = line;
      note->last_set = set;
    } else {
      behind = (const char *)memchr(at, '\n', (size_t)(end - at)) + 1;
      if (!w->status) w->status = put_aside(w, at, behind, line);
    }
    at = behind;
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
