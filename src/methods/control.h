/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The change of a treated panel, less what the untreated one did meanwhile. */
#ifndef SCWI_CONTROL_H
#define SCWI_CONTROL_H

#include "two_sample.h"

/* change(treated) - change(control): variances add, Satterthwaite df. A change
 * without any uncertainty adds none; one without scatter for another reason
 * makes the result missing for that reason. */
scw_status scwi_control(scw_context *context, const scw_estimate *treated,
                        const scw_estimate *control, double level,
                        scw_estimate *out);

/* True pairs of a treated and an untreated half: the sample holds, for each of
 * m pairs, change(treated) - change(control). Each is made of four displayed
 * values of step q: u^2 = sd^2/m + max(q^2/2 - sd^2/3, sides^2, 0), df as
 * ever. The form is ours; see docs/methods/change.md for what it covers. */
scw_status scwi_control_paired(scw_context *context,
                               const scwi_sample *differences,
                               scwi_display display, double level,
                               scw_estimate *out);
#endif
