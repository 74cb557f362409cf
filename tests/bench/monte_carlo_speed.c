/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Time of propagation by trials, with mean, SD, median, symmetric and shortest
 * interval: a ratio of readings on a display over a block, and six inputs with
 * exp, log and powers. By the clock, the middle one and the least of the rounds,
 * and by the processor, which other work on the machine leaves nearly alone.
 * Beside it: peers/trials.py and peers/trials.R. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "monte_carlo.h"
#include "propagate.h"

enum { INPUTS = 6, ROUNDS = 7 };

typedef struct model {
  const char *name, *text;
  scw_budget_given given[INPUTS]; /* in the order of the text */
} model;

#define NORMAL(n, v, s)                                                        \
  { .name = n, .kind = SCW_KIND_NORMAL, .value = v, .uncertainty = s }
#define RECTANGULAR(n, v, a)                                                   \
  { .name = n, .kind = SCW_KIND_RECTANGULAR, .value = v, .half_width = a }

static const model models[] = {
    {"ratio", "pull / block",
     {{.name = "pull", .kind = SCW_KIND_READINGS, .value = 160, .n = 5,
       .sd = 4, .step = {10, SCW_STEP_GIVEN}},
      RECTANGULAR("block", 500, 1)}},
    {"six", "a * exp(-b) * log(c) / d^1.5 + e^2 / f",
     {NORMAL("a", 2, 0.1), NORMAL("b", 0.5, 0.05), RECTANGULAR("c", 5, 0.5),
      NORMAL("d", 3, 0.1), RECTANGULAR("e", 1, 0.2), NORMAL("f", 4, 0.2)}}};

static scw_context *context;

static void must(scw_status status) {
  if (status == SCW_OK) return;
  fprintf(stderr, "%s\n", scw_context_message(context));
  exit(1);
}

static double now(clockid_t clock) {
  struct timespec t;
  clock_gettime(clock, &t);
  return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static int ascending(const void *a, const void *b) {
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static void measure(const model *m, size_t trials, unsigned threads) {
  scwi_expression e;
  scwi_known_input known[INPUTS];
  scw_budget law;
  scw_monte_carlo out;
  double times[ROUNDS], processor[ROUNDS];
  const scw_trials_options options = {.trials = trials, .seed = 1};
  must(scwi_expression_parse(context, m->text, strlen(m->text), NULL, 0, &e));
  for (size_t i = 0; i < e.n_inputs; i++)
    must(scwi_input_known(context, &m->given[i], &known[i]));
  must(scwi_propagate(context, &e, m->given, known, NULL, 0.95, &law));
  must(scw_context_set_threads(context, threads));
  for (size_t i = 0; i < ROUNDS; i++) {
    double start = now(CLOCK_MONOTONIC);
    double before = now(CLOCK_PROCESS_CPUTIME_ID);
    must(scwi_monte_carlo(context, &e, m->given, known, NULL, 0.95, &options,
                          &law, &out));
    times[i] = now(CLOCK_MONOTONIC) - start;
    processor[i] = now(CLOCK_PROCESS_CPUTIME_ID) - before;
  }
  qsort(times, ROUNDS, sizeof *times, ascending);
  qsort(processor, ROUNDS, sizeof *processor, ascending);
  printf("%-6s %9zu trials, %u thread%s: %.3f s, least %.3f s, processor %.3f s"
         "  (mean %.6g, SD %.5g, shortest %.6g to %.6g)\n",
         m->name, trials, threads, threads == 1 ? " " : "s",
         times[ROUNDS / 2], times[0], processor[ROUNDS / 2], out.mean.value,
         out.sd.value, out.shortest.low, out.shortest.high);
  scwi_budget_free(&law);
  scwi_expression_free(&e);
}

int main(void) {
  static const size_t trials[] = {1000000, 10000000};
  if (scw_context_new(&context)) return 1;
  for (size_t m = 0; m < 2; m++)
    for (size_t t = 0; t < 2; t++)
      for (unsigned threads = 1; threads <= 2; threads++)
        measure(&models[m], trials[t], threads);
  scw_context_free(context);
  return 0;
}
