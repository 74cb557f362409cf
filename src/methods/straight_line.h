/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether an expression is a straight line in one of its inputs, whatever
 * values the inputs have: read off the tape, so that no choice of points can
 * mislead. x * x / x counts as curved. */
#ifndef SCWI_STRAIGHT_LINE_H
#define SCWI_STRAIGHT_LINE_H

#include "expression.h"

/* False, with the character at which it stops being straight, where it is
 * not. An expression without the input is straight. */
bool scwi_straight_line(const scwi_expression *expression, size_t input,
                        uint32_t *place);

#endif
