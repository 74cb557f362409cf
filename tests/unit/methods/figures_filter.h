/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Filters for the judges in R and SciPy: one question a line in, its figures a
 * line out ("nan" where there is none). Words and numbers are separated by
 * spaces; readings come as their number and the values. */
#ifndef FIGURES_FILTER_H
#define FIGURES_FILTER_H

#include "context.h"
#include "planning.h"
#include "sample.h"

enum { MOST_READINGS = 1024 };

typedef struct readings {
  scwi_sample sample; /* with ticks where they were taken as decimals */
  double x[MOST_READINGS];
  int64_t ticks[MOST_READINGS];
} readings;

typedef struct verb {
  const char *name;
  void (*answer)(scw_context *context, char *rest);
} verb;

/* Answers every line of standard input with the verb it starts with. */
int answer_lines(const verb *verbs, size_t n);

void must(scw_context *context, scw_status status);
double take_number(char **rest);
size_t take_count(char **rest);
void take_readings(char **rest, readings *out);
/* Whole ticks and their size: SIZE n t1 t2 ... */
void take_ticks(char **rest, readings *out);
scwi_comparison take_comparison(char **rest);
scw_figure take_margin(char **rest); /* 0: none */

double shown(scw_figure figure);
void say(const double *values, size_t n);
void say_estimate(const scw_estimate *e);

#endif
