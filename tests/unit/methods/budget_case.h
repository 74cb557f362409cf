/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Expressions and budgets in tests: one call each, failing the test when the
 * library refuses. */
#ifndef BUDGET_CASE_H
#define BUDGET_CASE_H

#include "check.h"

#include "monte_carlo.h"
#include "propagate.h"

enum { CASE_INPUTS = 8 };

extern scw_context *context;
int make_context(void **state);
int drop_context(void **state);

scwi_expression parsed(const char *text);

/* A model with named inputs, in any order. */
typedef struct budget_case {
  const char *model;
  scw_budget_given given[CASE_INPUTS]; /* closed by a null name */
  const double *correlation;           /* in the order of `given`; or null */
  double level;                        /* 0: 0.95 */
} budget_case;

/* The budget, its lines in the order of `given`. Definitions may be null. */
scw_budget budget_of(const budget_case *c, const scwi_definition *definitions,
                     size_t n_definitions);

/* The same model by trials. */
scw_monte_carlo trials_of(const budget_case *c,
                          const scw_trials_options *options);

/* The figure printed for an item of an example agrees: to half a unit of its
 * last digit, or cut off there. */
void check_published(const char *example, const char *item, double got);

#endif
