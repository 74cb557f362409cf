/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Point or comma: one decimal mark per file, decided on the evidence of all
 * its numbers. Where two readings of a number are possible the run stops. */
#ifndef SCWI_MARKS_H
#define SCWI_MARKS_H

#include "context.h"
#include "decimal.h"
#include "token.h"

/* The first cell of its kind; line 0: none yet. */
typedef struct scwi_witness {
  size_t line, column;
  char text[SCWI_SHOWN_SIZE];
} scwi_witness;

typedef struct scwi_marks {
  char decimal;  /* '.', ',' or 0 while no mark has been seen */
  bool given;    /* by the caller */
  /* [0] point, [1] comma */
  scwi_witness sure[2];   /* can only be the decimal mark: 87.4 */
  scwi_witness groups[2]; /* can only separate thousands: 1.234.567 */
  scwi_witness open[2];   /* either: 1.234 */
  scwi_witness big_whole; /* 987: with 1.234 beside it, 1234 is likely */
} scwi_marks;

/* Where a number stands, for messages. */
typedef struct scwi_place {
  const char *file;
  size_t line, column;
  scwi_span text;
} scwi_place;

/* Adds one number to the evidence. */
void scwi_marks_look(scwi_marks *marks, const scwi_token *number,
                     const scwi_place *place);

/* Decides on the evidence so far; SCW_BAD_INPUT when it allows two answers or
 * contradicts itself. */
scw_status scwi_marks_settle(scw_context *context, scwi_marks *marks,
                             const char *file);

/* Is everything said, so that further numbers such as 87.4, or whole ones, can
 * add nothing to the evidence? */
bool scwi_marks_know_decimals(const scwi_marks *marks);
bool scwi_marks_know_wholes(const scwi_marks *marks);

/* The number as a decimal, by the marks settled; later evidence that
 * contradicts them is an error. */
scw_status scwi_marks_read(scw_context *context, scwi_marks *marks,
                           const scwi_token *number, const scwi_place *place,
                           scwi_decimal *out);

/* The same of a cell that may be empty or a missing mark: *is_number = false
 * and the value NaN then. SCW_BAD_INPUT when it holds anything else; `what` says
 * who needs the number. */
scw_status scwi_marks_cell(scw_context *context, scwi_marks *marks,
                           const scwi_place *place, const char *what,
                           bool *is_number, scwi_decimal *out);

#endif
