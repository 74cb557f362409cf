/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether gloss at another angle would tell more. */
#ifndef SCWI_ANGLE_ADVICE_H
#define SCWI_ANGLE_ADVICE_H

#include "notes.h"

/* The angle that is best for all levels of gloss seen so far; 0: none seen, or
 * they differ. */
typedef struct scwi_best_angle {
  int degrees;
  bool seen;
} scwi_best_angle;

void scwi_see_gloss(scwi_best_angle *best, scw_figure gloss);

/* A note where they were read at a `geometry` of 60 degrees and 20 or 85 tells
 * such surfaces apart better (ISO 2813). */
scw_status scwi_angle_advice(scw_context *context, scwi_best_angle best,
                             const char *geometry, scwi_notes *notes);

#endif
