/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The point of a t distribution in the terms its formulas use. */
#ifndef SCWI_STUDENT_T_H
#define SCWI_STUDENT_T_H

/* x = t^2 / (df + t^2), y = df / (df + t^2), w = -log(y). */
typedef struct scwi_t_point {
  double x, y, w;
} scwi_t_point;

scwi_t_point scwi_t_at(double t, double df); /* t >= 0, finite */
#endif
