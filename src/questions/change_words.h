/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The verdict of a change as a sentence fit to publish. */
#ifndef SCWI_CHANGE_WORDS_H
#define SCWI_CHANGE_WORDS_H

#include "arm_estimate.h"
#include "text.h"

/* What the sentence needs beside the report's figures. */
typedef struct scwi_change_subject {
  const char *product;  /* "" when there is only one and it has no name */
  const char *quantity; /* "gloss"; "the reading" when not said */
} scwi_change_subject;

scw_status scwi_change_sentence(scw_context *context,
                                scwi_change_subject subject,
                                const scwi_compared *compared,
                                scw_change_report *report);

/* "9 spot pairs minus 1". */
scw_status scwi_df_origin(scw_context *context, const scwi_compared *compared,
                          const scwi_arm_estimate *estimate,
                          scw_change_report *report);

/* "changed", "cannot tell" ... as in a sentence. */
const char *scwi_verdict_words(scw_verdict verdict, scw_design design);

#endif
