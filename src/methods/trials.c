/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "trials.h"

#include <math.h>
#include <pthread.h>
#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "tails.h"

enum { MOST_THREADS = 64 };

/* A thread's own room, and the units it takes: every `threads`-th from
 * `first` on. */
typedef struct scwi_trial_worker {
  scwi_trials *trials;
  size_t first;
  double *memory;
  double **x;      /* a block of each input */
  double *block;   /* room for drawing, and for the expression */
  double *room;
  double *scratch; /* a unit's values, to be put in order */
} scwi_trial_worker;

scwi_coverage scwi_coverage_of(size_t n, double level) {
  size_t q = (size_t)floor(level * (double)n + 0.5);
  if (q >= n) q = n - 1;
  size_t rank = (n - q + 1) / 2; /* from 1: (n - q)/2, or the half above */
  if (rank == 0) rank = 1;
  return (scwi_coverage){q, rank - 1, rank - 1 + q};
}

static scw_status make_worker(scw_context *context, scwi_trials *trials,
                              scwi_trial_worker *out) {
  size_t inputs = trials->expression->n_inputs;
  size_t room = scwi_expression_room(trials->expression);
  size_t blocks = (inputs + 1) * SCWI_BLOCK;
  scw_status status = SCWI_ALLOCATE(context, inputs, &out->x);
  if (!status)
    status = SCWI_ALLOCATE(context, blocks + room + trials->per_unit,
                           &out->memory);
  if (status) return status;
  out->trials = trials;
  for (size_t i = 0; i < inputs; i++) out->x[i] = out->memory + i * SCWI_BLOCK;
  out->block = out->memory + inputs * SCWI_BLOCK;
  out->room = out->memory + blocks;
  out->scratch = out->room + room;
  return SCW_OK;
}

scw_status scwi_trials_start(scw_context *context,
                             const scwi_expression *expression,
                             scwi_draw *draw, double level, uint64_t seed,
                             size_t per_unit, scwi_trials *out) {
  *out = (scwi_trials){.expression = expression, .draw = *draw, .seed = seed,
                       .level = level, .per_unit = per_unit, .scale = 1};
  *draw = (scwi_draw){.n = 0};
  out->threads = context->threads < 1              ? 1
                 : context->threads > MOST_THREADS ? MOST_THREADS
                                                   : context->threads;
  scw_status status = SCWI_ALLOCATE(context, out->threads, &out->worker);
  for (unsigned i = 0; i < out->threads && !status; i++)
    status = make_worker(context, out, &out->worker[i]);
  return status;
}

void scwi_trials_free(scwi_trials *trials) {
  for (unsigned i = 0; trials->worker && i < trials->threads; i++) {
    free(trials->worker[i].memory);
    free(trials->worker[i].x);
  }
  free(trials->worker);
  free(trials->value);
  free(trials->unit);
  scwi_draw_free(&trials->draw);
  *trials = (scwi_trials){.n = 0};
}

static void fill(scwi_trial_worker *worker, size_t unit, double *value,
                 size_t n) {
  const scwi_trials *trials = worker->trials;
  size_t blocks = (trials->per_unit + SCWI_BLOCK - 1) / SCWI_BLOCK;
  for (size_t done = 0, b = 0; done < n; done += SCWI_BLOCK, b++) {
    size_t m = n - done < SCWI_BLOCK ? n - done : SCWI_BLOCK;
    scwi_draw_block(&trials->draw, trials->seed, unit * blocks + b, m,
                    worker->x, worker->block);
    scwi_expression_block(trials->expression, (const double *const *)worker->x,
                          m, worker->room, value + done);
  }
}

static size_t count_failed(const double *value, size_t n) {
  size_t failed = 0;
  for (size_t i = 0; i < n; i++) failed += isfinite(value[i]) ? 0 : 1;
  return failed;
}

/* Mean and squares about a value of its own, so that neither is lost beside
 * it. */
static void sum_up(const double *value, size_t n, double scale,
                   scwi_trial_unit *out) {
  double about = value[0], sum = 0, squares = 0;
  for (size_t i = 0; i < n; i++) sum += value[i] - about;
  double mean = sum / (double)n;
  for (size_t i = 0; i < n; i++) {
    double d = ((value[i] - about) - mean) * (1 / scale);
    squares += d * d;
  }
  out->mean = about + mean;
  out->squares = squares;
}

static void take_unit(scwi_trial_worker *worker, size_t index) {
  scwi_trials *trials = worker->trials;
  scwi_trial_unit *unit = &trials->unit[index];
  double *value = trials->value + index * trials->per_unit;
  fill(worker, index, value, unit->n);
  unit->failed = count_failed(value, unit->n);
  if (unit->failed) return;
  sum_up(value, unit->n, trials->scale, unit);
  scwi_coverage ends = scwi_coverage_of(unit->n, trials->level);
  memcpy(worker->scratch, value, unit->n * sizeof *value);
  unit->high = scwi_value_of_rank(worker->scratch, unit->n, ends.high);
  unit->low = scwi_value_of_rank(worker->scratch, ends.high, ends.low);
}

static void *work(void *user) {
  scwi_trial_worker *worker = user;
  const scwi_trials *trials = worker->trials;
  for (size_t i = worker->first; i < trials->n_units; i += trials->threads)
    take_unit(worker, i);
  return NULL;
}

static void run_threads(scwi_trials *trials, size_t from) {
  pthread_t thread[MOST_THREADS];
  bool started[MOST_THREADS] = {false};
  for (unsigned i = 0; i < trials->threads; i++)
    trials->worker[i].first = from + i;
  for (unsigned i = 1; i < trials->threads; i++)
    started[i] =
        pthread_create(&thread[i], NULL, work, &trials->worker[i]) == 0;
  work(&trials->worker[0]);
  for (unsigned i = 1; i < trials->threads; i++) {
    if (started[i])
      pthread_join(thread[i], NULL);
    else
      work(&trials->worker[i]);
  }
}

scw_status scwi_trials_run(scw_context *context, scwi_trials *trials,
                           size_t more) {
  size_t from = trials->n_units;
  size_t units = (more + trials->per_unit - 1) / trials->per_unit;
  scw_status status = SCWI_RESERVE(context, trials->n + more, &trials->value,
                                   &trials->value_room);
  if (!status)
    status = SCWI_RESERVE(context, from + units, &trials->unit,
                          &trials->unit_room);
  if (status) return status;
  for (size_t i = 0; i < units; i++) {
    size_t left = more - i * trials->per_unit;
    trials->unit[from + i] = (scwi_trial_unit){
        .n = left < trials->per_unit ? left : trials->per_unit};
  }
  trials->n += more;
  trials->n_units += units;
  run_threads(trials, from);
  return SCW_OK;
}
