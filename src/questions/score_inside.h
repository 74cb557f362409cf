/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of score: parts gathered, trials, places, words. */
#ifndef SCWI_SCORE_INSIDE_H
#define SCWI_SCORE_INSIDE_H

#include "labels.h"
#include "notes.h"
#include "scatterwise/score.h"
#include "standings.h"

/* One product while it is scored. */
typedef struct scwi_scored {
  scw_scored_part *part;
  scwi_standing_part *draw;
  scw_presence *state;     /* of each part: SCW_PRESENT when it can be drawn,
                              SCW_NOT_COMPUTED when it was not measured */
  const char *category;
} scwi_scored;

typedef struct scwi_score_run {
  scw_settings settings;
  scw_score_options options;
  const scw_score_table *tables;
  size_t n_tables;
  const scw_score_rule *score;
  const scw_rule *rules;
  scwi_labels names;       /* of products, in order of first appearance */
  scwi_scored *scored;
  size_t n, capacity;
  scwi_measured *measured;
  size_t n_measured, measured_capacity;
  bool shared_baseline;
  scwi_notes notes;
} scwi_score_run;

/* score_parts.c: what was measured of each product, through the rules. */
scw_status scwi_score_parts(scw_context *context, scwi_score_run *run);
void scwi_score_run_free(scwi_score_run *run);

/* score_words.c, score_notes.c */
scw_status scwi_score_sentence(scw_context *context, scw_score_result *out);
scw_status scwi_score_notes(scw_context *context, scwi_score_run *run,
                            const scw_score_result *out);

#endif
