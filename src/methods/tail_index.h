/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which moments the result of a model has, told from the model and the
 * degrees of freedom of its inputs. */
#ifndef SCWI_TAIL_INDEX_H
#define SCWI_TAIL_INDEX_H

#include "expression.h"

/* The tail index of the result: it has moments of every order below it, and
 * none of an order above. `df` are those of the inputs' distributions,
 * infinite for inputs without heavy tails: t with df degrees of freedom has
 * the index df, a heavy denominator makes it 1, an exponential of a heavy
 * input has no moments at all (0). Where inputs meet themselves the smaller
 * answer is given. A mean exists above 1, an SD above 2. */
scw_status scwi_tail_index(scw_context *context,
                           const scwi_expression *expression, const double *df,
                           double *out);

#endif
