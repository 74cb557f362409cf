/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The account of the inputs, wherever it is kept: in a table, or in the result
 * of a run that made none. */
#ifndef SCWI_INPUTS_H
#define SCWI_INPUTS_H

#include "sheet.h"
#include "scatterwise/table.h"

typedef struct scwi_inputs {
  size_t n;
  const scw_input *(*at)(const void *source, size_t index);
  const void *source;
} scwi_inputs;

/* The account of one input. */
scwi_inputs scwi_inputs_of_one(const scw_input *input);

/* How many entries of an input were not used for one reason. */
typedef struct scwi_reason_count {
  const char *reason;
  size_t count, first_line;
} scwi_reason_count;

enum { SCWI_MOST_REASONS = 8 };

/* Counts the reasons in order of first appearance; what goes beyond eight
 * different ones is counted as "other". Returns how many. */
size_t scwi_reasons(const scw_input *input,
                    scwi_reason_count reasons[SCWI_MOST_REASONS]);

/* The last lines of a page: a paragraph per input and the display step. */
void scwi_sheet_inputs(scwi_sheet *sheet, const scwi_inputs *inputs,
                       scw_step step, const char *unit);

#endif
