/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A number that knows its first and second derivatives by up to four
 * parameters. */
#ifndef SCWI_JET_H
#define SCWI_JET_H

#include <math.h>
#include <stddef.h>

enum { SCWI_JET_SLOPES = 4, SCWI_JET_CURVES = 10 };
typedef struct scwi_jet {
  double value;
  double slope[SCWI_JET_SLOPES];
  double curve[SCWI_JET_CURVES]; /* (0,0) (1,0) (1,1) (2,0) ... (3,3) */
} scwi_jet;

static inline size_t scwi_jet_at(size_t i, size_t j) {
  return i >= j ? i * (i + 1) / 2 + j : j * (j + 1) / 2 + i;
}

static inline scwi_jet scwi_jet_constant(double value) {
  return (scwi_jet){.value = value};
}

static inline void scwi_jet_add(scwi_jet *sum, const scwi_jet *a,
                                double times) {
  sum->value += times * a->value;
  for (size_t i = 0; i < SCWI_JET_SLOPES; i++)
    sum->slope[i] += times * a->slope[i];
  for (size_t i = 0; i < SCWI_JET_CURVES; i++)
    sum->curve[i] += times * a->curve[i];
}

/* f(a) from the value and the first two derivatives of f there. */
static inline scwi_jet scwi_jet_chain(const scwi_jet *a, double f, double f1,
                                      double f2) {
  scwi_jet out = {.value = f};
  size_t k = 0;
  for (size_t i = 0; i < SCWI_JET_SLOPES; i++)
    out.slope[i] = f1 * a->slope[i];
  for (size_t i = 0; i < SCWI_JET_SLOPES; i++)
    for (size_t j = 0; j <= i; j++, k++)
      out.curve[k] = f1 * a->curve[k] + f2 * a->slope[i] * a->slope[j];
  return out;
}

static inline scwi_jet scwi_jet_inverse(const scwi_jet *a) {
  double w = 1 / a->value;
  return scwi_jet_chain(a, w, -w * w, 2 * w * w * w);
}

static inline scwi_jet scwi_jet_log(const scwi_jet *a) {
  double w = 1 / a->value;
  return scwi_jet_chain(a, log(a->value), w, -w * w);
}

static inline scwi_jet scwi_jet_product(const scwi_jet *a, const scwi_jet *b) {
  scwi_jet out = {.value = a->value * b->value};
  size_t k = 0;
  for (size_t i = 0; i < SCWI_JET_SLOPES; i++)
    out.slope[i] = a->slope[i] * b->value + a->value * b->slope[i];
  for (size_t i = 0; i < SCWI_JET_SLOPES; i++)
    for (size_t j = 0; j <= i; j++, k++)
      out.curve[k] = a->curve[k] * b->value + a->value * b->curve[k] +
                     a->slope[i] * b->slope[j] + a->slope[j] * b->slope[i];
  return out;
}

#endif
