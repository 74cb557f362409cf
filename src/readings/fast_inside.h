/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of the quick way: fast_scan.c decides and hands over, fast_lines.c is
 * what each thread does, fast_aside.c goes through what was put aside. */
#ifndef SCWI_FAST_INSIDE_H
#define SCWI_FAST_INSIDE_H

#include <pthread.h>

#include "fast_scan.h"
#include "fast_sets.h"

enum {
  SCWI_FAST_BLOCK = 256 * 1024,
  SCWI_FAST_THREADS = 64,
  SCWI_FAST_ASIDE = 4096, /* lines put aside before they are dealt with */
};

/* A line put aside: its text in the worker's `aside_text`. */
typedef struct scwi_aside_line {
  size_t line, at, size;
  size_t plain, set; /* the plain line above it in its block, 0: none */
} scwi_aside_line;

/* What a block held; blocks are put in order by their first line. */
typedef struct scwi_block_note {
  size_t line;
  const struct scwi_worker *worker;
  size_t first_aside, asides;
  size_t last_plain; /* its last plain line, 0: none ... */
  size_t last_set;   /* ... and the set of it */
} scwi_block_note;

typedef struct scwi_worker {
  scwi_fast *fast;
  scw_context context; /* of this thread */
  scw_status status;
  scwi_fast_sets sets;
  size_t rows;         /* plain ones since the account was told */
  scwi_aside_line *aside;
  size_t n_aside, aside_capacity;
  scwi_text aside_text;
  scwi_block_note *note;
  size_t n_notes, notes_capacity;
  char *block;
} scwi_worker;

struct scwi_fast {
  bool suits;
  char separator, mark;
  bool wholes, decimals; /* numbers that need no look at the evidence */
  scw_role role;         /* of the label */
  scw_side side;
  unsigned threads;
  scwi_worker *workers;
  /* shared while threads run; under the lock */
  pthread_mutex_t lock;
  bool lock_made, stop;
  bool dry;              /* no further line is for this way at the moment */
  scwi_rows *rows;
  scw_context *context;
  scw_status status;
  size_t n_aside;
};

/* Takes the next block in turn with the other threads; false when there is
 * none for now. */
bool scwi_fast_next_block(scwi_worker *worker, scwi_lines *lines);
/* Sums its lines or puts them aside. */
void scwi_fast_take_block(scwi_worker *worker, const scwi_lines *lines);
/* Lets all threads take blocks until one of them stops; the caller is the
 * first. A thread that cannot be had is done without. */
void scwi_fast_run_threads(scwi_fast *fast);

/* After the threads have stopped: tells the account, and takes the lines put
 * aside through the reader. */
scw_status scwi_fast_settle(scwi_reader *reader, scwi_fast *fast);

#endif
