/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Spots in square or staggered rows. */
#ifndef SCWI_REGULAR_SPOTS_H
#define SCWI_REGULAR_SPOTS_H

#include "spot_layout.h"

/* n spots on the square or staggered arrangement, either way round, that keeps
 * them farthest apart with the outer ones on the border; without `to_border`
 * half that distance inside it. Returns the distance; infinity for one spot,
 * which lies in the middle. */
double scwi_regular_spots(scwi_rectangle field, bool to_border, size_t n, double *x,
                          double *y);

#endif
