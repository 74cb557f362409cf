/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fast_scan.h"

#include <pthread.h>
#include <stdlib.h>
#include <string.h>

#include "fast_sets.h"
#include "memory.h"
#include "running_sums.h"

enum {
  BLOCK = 256 * 1024,
  MOST_THREADS = 64,
  MOST_ASIDE = 4096,  /* lines put aside before they are dealt with */
  MOST_DIGITS = 18
};

/* A line put aside: its text in the worker's `aside_text`. */
typedef struct aside_line {
  size_t line, at, size;
} aside_line;

/* What a block held; blocks are put in order by their first line. */
typedef struct block_note {
  size_t line;
  const struct worker *worker;
  size_t first_aside, asides;
  size_t last_plain; /* its last plain line, 0: none ... */
  size_t last_set;   /* ... and the set of it */
} block_note;

typedef struct worker {
  scwi_fast *fast;
  scw_context context; /* of this thread */
  scw_status status;
  scwi_fast_sets sets;
  size_t rows;         /* plain ones since the account was told */
  aside_line *aside;
  size_t n_aside, aside_capacity;
  scwi_text aside_text;
  block_note *note;
  size_t n_notes, notes_capacity;
  char *block;
} worker;

struct scwi_fast {
  bool suits;
  char separator, mark;
  bool wholes, decimals; /* numbers that need no look at the evidence */
  scw_role role;         /* of the label */
  scw_side side;
  unsigned threads;
  worker *workers;
  /* shared while threads run; under the lock */
  pthread_mutex_t lock;
  bool lock_made, stop;
  scwi_rows *rows;
  scw_context *context;
  scw_status status;
  size_t n_aside;
};

/* ---- one line ---- */

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

static scw_status put_aside(worker *w, const char *at, const char *end,
                            size_t line) {
  scw_status status = SCWI_RESERVE(&w->context, w->n_aside + 1, &w->aside,
                                   &w->aside_capacity);
  if (status != SCW_OK) return status;
  w->aside[w->n_aside++] =
      (aside_line){line, w->aside_text.length, (size_t)(end - at)};
  scwi_text_append(&w->aside_text, at, (size_t)(end - at));
  w->note[w->n_notes - 1].asides++;
  return scwi_text_status(&w->context, &w->aside_text);
}

/* The set of the label; equal neighbours are not looked up again. */
static scw_status find_set(worker *w, const char *label, size_t length,
                           size_t line, size_t *set) {
  const scwi_fast_set *last = *set < w->sets.n ? &w->sets.set[*set] : NULL;
  if (last && last->length == length && !memcmp(last->text, label, length))
    return SCW_OK;
  return scwi_fast_sets_find(&w->context, &w->sets, label, length, line, set);
}

/* Sums the line when it is plain; returns behind it, or null when not. */
static const char *take_plain(worker *w, const char *at, const char *end,
                              size_t line, size_t *set) {
  int64_t mantissa;
  int digits;
  const char *separator = memchr(at, w->fast->separator, (size_t)(end - at));
  if (!separator) return NULL;
  const char *behind =
      take_number(w->fast, separator + 1, &mantissa, &digits);
  if (!behind) return NULL;
  behind += *behind == '\r';
  if (*behind != '\n') return NULL;
  w->status = find_set(w, at, (size_t)(separator - at), line, set);
  if (w->status != SCW_OK || *set == SCWI_NO_FAST_SET) return NULL;
  if (!scwi_fast_sets_add(&w->sets, *set, mantissa, digits)) return NULL;
  return behind + 1;
}

static void take_block(worker *w, const scwi_lines *lines) {
  const char *at = w->block, *end = at + lines->size;
  block_note *note = &w->note[w->n_notes++];
  size_t set = SCWI_NO_FAST_SET;
  *note = (block_note){.line = lines->line, .worker = w,
                       .first_aside = w->n_aside};
  for (size_t line = lines->line; at < end && !w->status; line++) {
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

/* ---- threads ---- */

/* The next block of lines, in turn with the others. */
static bool next_block(worker *w, scwi_lines *lines) {
  scwi_fast *fast = w->fast;
  pthread_mutex_lock(&fast->lock);
  lines->size = 0;
  if (!fast->stop && fast->status == SCW_OK)
    fast->status = scwi_rows_lines(fast->context, fast->rows, w->block, BLOCK,
                                   lines);
  if (lines->size == 0) fast->stop = true;
  pthread_mutex_unlock(&fast->lock);
  return lines->size > 0;
}

/* Tells how many lines this block put aside; too many stop the others. */
static void count_aside(worker *w, size_t more) {
  if (more == 0 && w->status == SCW_OK) return;
  pthread_mutex_lock(&w->fast->lock);
  w->fast->n_aside += more;
  if (w->fast->n_aside > MOST_ASIDE || w->status != SCW_OK)
    w->fast->stop = true;
  pthread_mutex_unlock(&w->fast->lock);
}

static void *work(void *user) {
  worker *w = user;
  scwi_lines lines;
  while (w->status == SCW_OK && next_block(w, &lines)) {
    w->status = SCWI_RESERVE(&w->context, w->n_notes + 1, &w->note,
                             &w->notes_capacity);
    if (w->status == SCW_OK) take_block(w, &lines);
    count_aside(w, w->n_notes ? w->note[w->n_notes - 1].asides : 0);
  }
  return NULL;
}

/* Lets all threads work until one of them stops; the caller is the first. A
 * thread that cannot be had is done without. */
static void run_threads(scwi_fast *fast) {
  pthread_t thread[MOST_THREADS];
  unsigned started = 0;
  while (started + 1 < fast->threads &&
         pthread_create(&thread[started], NULL, work,
                        &fast->workers[started + 1]) == 0)
    started++;
  work(&fast->workers[0]);
  for (unsigned i = 0; i < started; i++) pthread_join(thread[i], NULL);
}

/* ---- lines put aside ---- */

static int by_line(const void *left, const void *right) {
  const block_note *a = left, *b = right;
  return a->line < b->line ? -1 : a->line > b->line;
}

/* All blocks' notes in the order of the file; freed by the caller. */
static scw_status order_notes(scw_context *context, scwi_fast *fast,
                              block_note **out, size_t *n) {
  *n = 0;
  for (unsigned i = 0; i < fast->threads; i++) *n += fast->workers[i].n_notes;
  scw_status status = SCWI_ALLOCATE(context, *n, out);
  size_t at = 0;
  for (unsigned i = 0; i < fast->threads && status == SCW_OK; i++) {
    const worker *w = &fast->workers[i];
    if (w->n_notes) memcpy(*out + at, w->note, w->n_notes * sizeof **out);
    at += w->n_notes;
  }
  if (status == SCW_OK) qsort(*out, *n, sizeof **out, by_line);
  return status;
}

/* A reading below a remark is the start of another table. */
static scw_status check_remark(scwi_reader *reader, size_t last_plain) {
  if (!reader->remark.line || last_plain <= reader->remark.line)
    return SCW_OK;
  return scwi_reader_blocks(
      reader, reader->remark.line,
      (scwi_span){reader->remark_text, strlen(reader->remark_text)});
}

/* The reader's label becomes that of the plain line, for a blank one below. */
static scw_status set_label(scwi_reader *reader, const scwi_fast *fast,
                            const worker *w, size_t set) {
  const scwi_fast_set *known = &w->sets.set[set];
  return scwi_labels_intern(reader->context, reader->labels, known->text,
                            known->length,
                            scwi_reading_label(&reader->row, fast->role));
}

/* The label of a line put aside may be that of the plain line above it. Only
 * its own text tells; the block is not there any more. */
static scw_status replay_line(scwi_reader *reader, const scwi_fast *fast,
                              const worker *w, const aside_line *line) {
  scwi_row row;
  scw_status status = scwi_rows_split(
      reader->context, fast->rows, w->aside_text.data + line->at, line->size,
      line->line, &row);
  return status == SCW_OK ? scwi_reader_row(reader, &row) : status;
}

