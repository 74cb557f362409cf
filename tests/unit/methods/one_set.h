/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading sets for the tests of methods: from decimals as written. */
#ifndef ONE_SET_H
#define ONE_SET_H

#include "summarise.h"

typedef struct one_set {
  size_t n;
  double *x;
  int64_t *ticks;
  int digits; /* ticks are 10^-digits */
} one_set;

one_set one_set_from_texts(const char *const *texts, size_t n);
/* The column of reference-data/`name`. */
one_set one_set_from_file(const char *name, const char *column);
/* ticks * 10^-digits; the ticks are copied. */
one_set one_set_from_ticks(const int64_t *ticks, size_t n, int digits);
void one_set_free(one_set *set);

/* With ticks and the display step inferred from the set itself. */
scwi_sample one_set_sample(const one_set *set);
/* The same readings known as doubles only, at the same display step. */
scwi_sample one_set_doubles(const one_set *set);

/* Level and content 0.95, stand-out 0.05, candidates by n, seed 1. */
extern const scwi_summary_settings one_set_defaults;

/* Sums up and fails the test when that fails. */
scw_summary one_set_summary(scwi_sample sample);
scw_summary one_set_summary_with(scwi_sample sample,
                                 const scwi_summary_settings *settings);

/* Every figure and every end of an interval of a summary, by its name. */
typedef struct one_set_named {
  const char *name;
  scw_figure figure;
} one_set_named;
enum { ONE_SET_FIGURES = 40 };
void one_set_list(const scw_summary *summary,
                  one_set_named out[ONE_SET_FIGURES]);
scw_figure one_set_find(const scw_summary *summary, const char *name);

/* For tests of single methods: workings that fail the test when memory does.
 * The context lasts for the whole program. */
scw_context *one_set_context(void);

/* Small deterministic random numbers for made-up sets. */
unsigned long long one_set_random(unsigned long long *state);
double one_set_normal(unsigned long long *state); /* mean 0, SD 1 */

#endif
