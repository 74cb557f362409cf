/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The far side of noncentral t. */
#ifndef SCWI_NONCENTRAL_FAR_H
#define SCWI_NONCENTRAL_FAR_H

/* P(T > t) for t > 0 where T's noncentrality is -ncp, ncp >= 0: the tail
 * whose series alternates in sign and would lose its digits. */
double scwi_noncentral_far(double t, double df, double ncp);

#endif
