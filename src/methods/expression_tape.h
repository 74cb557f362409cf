/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Putting steps on the tape of an expression. */
#ifndef SCWI_EXPRESSION_TAPE_H
#define SCWI_EXPRESSION_TAPE_H

#include "expression.h"

typedef struct scwi_tape {
  scw_context *context;
  const char *text; /* of the expression, for messages */
  size_t length;
  scwi_expression *out;
  size_t capacity, input_capacity;
  uint16_t of_input[SCWI_EXPRESSION_INPUTS]; /* each input's step */
} scwi_tape;

/* Each puts a step on the tape, or finds it there, and gives its index. */
scw_status scwi_tape_number(scwi_tape *tape, double number, uint32_t place,
                            uint16_t *index);
scw_status scwi_tape_input(scwi_tape *tape, const char *name, size_t length,
                           uint32_t place, uint16_t *index);
/* Numbers with numbers are worked out at once. Without a second operand b is
 * that of the first. */
scw_status scwi_tape_operation(scwi_tape *tape, scwi_operation operation,
                               uint16_t a, uint16_t b, uint32_t place,
                               uint16_t *index);
/* All steps of another expression. */
scw_status scwi_tape_expression(scwi_tape *tape, const scwi_expression *other,
                                uint32_t place, uint16_t *index);

/* Closes the tape at step `last`: later steps go, slots are given out. */
scw_status scwi_tape_close(scwi_tape *tape, uint16_t last);

bool scwi_has_two_operands(scwi_operation operation);

#endif
