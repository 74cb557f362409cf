/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of compare: products read, compared, and put into words. */
#ifndef SCWI_COMPARE_INSIDE_H
#define SCWI_COMPARE_INSIDE_H

#include "arm_estimate.h"
#include "notes.h"
#include "products.h"
#include "scatterwise/compare.h"
#include "several.h"

/* One product as it is compared. */
typedef struct scwi_contender {
  scwi_entry entry;
  scwi_moments moments; /* of what its mean is made of, for the background */
  scwi_comparison plan; /* its scatter, for planning */
  size_t n_before, n_after;
  scwi_values values;   /* by spot: differences, or means; for shared spots */
  scw_estimate own;
  size_t panels;        /* behind it; 2 or more: panels are the unit */
  int32_t panel;        /* of its first reading; SCW_NO_LABEL: not said */
} scwi_contender;

typedef struct scwi_compare_run {
  const scw_table *table;
  scwi_table_facts facts;
  scw_settings settings;
  scw_compare_options options;
  double divisor;
  scw_step step;         /* in the unit of the result */
  const char *unit;
  bool friction;
  scwi_products products;
  scwi_contender *contender; /* of each product that can be compared */
  size_t *place;         /* of each contender in `products` */
  size_t n;
  scw_estimate untreated;
  double block_u;        /* shared spots: of one product's figure, what the
                            spots' own level leaves; 0 otherwise */
  scwi_notes notes;
} scwi_compare_run;

/* compare_contender.c: one product; notes go to the run's. */
scw_status scwi_contender_of(scw_context *context, scwi_compare_run *run,
                             const scwi_product *product, bool changes,
                             scwi_contender *out);

/* compare_products.c: products with their figures; `out` gets their labels. */
scw_status scwi_compare_products(scw_context *context, scwi_compare_run *run,
                                 scw_compare_result *out);
void scwi_compare_run_free(scwi_compare_run *run);

/* compare_pairs.c: the comparisons, adjusted; ties. */
scw_status scwi_compare_pairs(scw_context *context, scwi_compare_run *run,
                              scw_compare_result *out);

/* compare_words.c, compare_notes.c */
scw_status scwi_compare_sentence(scw_context *context,
                                 scw_compare_result *out);
scw_status scwi_compare_notes(scw_context *context, scwi_compare_run *run,
                              const scw_compare_result *out);

#endif
