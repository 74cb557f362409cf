/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of the bridge question: what its files share. */
#ifndef SCWI_BRIDGE_INSIDE_H
#define SCWI_BRIDGE_INSIDE_H

#include "agreement.h"
#include "errors_in_both.h"
#include "notes.h"
#include "sample.h"
#include "scatterwise/bridge.h"
#include "table_facts.h"

/* The sums of one method at one item. */
typedef struct scwi_bridge_side {
  size_t n;
  double mean;
  double squares;  /* sum of squared deviations from it */
  int64_t ticks;   /* sum, where the frame holds ticks */
} scwi_bridge_side;

/* Readings sorted into items. */
typedef struct scwi_bridge_frame {
  const scw_table *table;
  const scwi_table_facts *facts;
  const scw_bridge_options *options;
  bool named;               /* items have labels */
  scwi_bridge_side *side[2]; /* old, new; of every item */
  size_t n_items;
  size_t again;             /* readings that replace earlier ones */
  bool ticks;               /* sums in ticks hold */
  /* The pairs: products with readings on both. */
  size_t *item;             /* of each pair */
  double *x, *y, *d;        /* means of old and new, and new less old */
  int64_t *d_ticks;         /* null: no common decimal */
  double d_tick_size;
  size_t n;
  scwi_repeats of_old, of_new; /* of the pairs' means; scatter of all items */
  bool uneven;              /* pairs differ in their numbers of readings */
} scwi_bridge_frame;

/* bridge_items.c: fills the frame and result->item; freed with
 * scwi_bridge_frame_free in any case. */
scw_status scwi_bridge_items(scw_context *context, scwi_bridge_frame *frame,
                             scw_bridge_result *out);
void scwi_bridge_frame_free(scwi_bridge_frame *frame);

/* bridge_pairs.c: pairs, repeats; bias, limits, trend, shape. */
scw_status scwi_bridge_pair_up(scw_context *context, scwi_bridge_frame *frame,
                               scw_bridge_result *out);
scw_status scwi_bridge_agreement(scw_context *context,
                                 const scwi_bridge_frame *frame,
                                 scw_bridge_result *out);
scwi_sample scwi_bridge_differences(const scwi_bridge_frame *frame);

/* bridge_line.c: lines, conversion, converted results. */
scw_status scwi_bridge_lines(scw_context *context,
                             const scwi_bridge_frame *frame,
                             scw_bridge_result *out);

/* bridge_baselines.c */
scw_status scwi_bridge_baselines_of(scw_context *context,
                                    const scwi_bridge_frame *frame,
                                    scw_bridge_result *out);

/* bridge_verdict.c: comparable, convertible, products to run. */
scw_status scwi_bridge_verdict(scw_context *context,
                               const scwi_bridge_frame *frame,
                               scw_bridge_result *out);

/* bridge_fences.c */
scw_status scwi_bridge_fences(scw_context *context,
                              const scwi_bridge_frame *frame,
                              scw_bridge_result *out);

/* bridge_words.c, bridge_notes.c */
scw_status scwi_bridge_sentence(scw_context *context,
                                const scwi_bridge_frame *frame,
                                scw_bridge_result *out);
scw_status scwi_bridge_notes(scw_context *context,
                             const scwi_bridge_frame *frame,
                             const scw_bridge_result *result,
                             scwi_notes *notes);

/* The line that conversion goes by. */
static inline const scw_bridge_line *scwi_bridge_used(
    const scw_bridge_result *result) {
  return result->weighted ? &result->weighted_line : &result->line;
}

#endif
