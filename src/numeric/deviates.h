/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random deviates, a block at a time, from a stream. */
#ifndef SCWI_DEVIATES_H
#define SCWI_DEVIATES_H

#include "streams.h"

/* Layers of equal area under the normal density (Marsaglia & Tsang 2000). */
enum { SCWI_ZIGGURAT = 256 };
typedef struct scwi_ziggurat {
  double edge[SCWI_ZIGGURAT + 1];    /* right ends of the layers, falling to 0 */
  double density[SCWI_ZIGGURAT + 1]; /* exp(-edge^2/2) there */
} scwi_ziggurat;

void scwi_ziggurat_make(scwi_ziggurat *out);

/* Uniform on (-1, 1), the ends never reached. */
void scwi_symmetric_deviates(scwi_stream_at *stream, double *out, size_t n);

/* Standard normal. */
void scwi_normal_deviates(const scwi_ziggurat *ziggurat, scwi_stream_at *stream,
                          double *out, size_t n);

/* sqrt(df / chi-square(df)), df > 0: what makes a normal deviate one of t. */
void scwi_t_factors(const scwi_ziggurat *ziggurat, scwi_stream_at *stream,
                    double df, double *out, size_t n);

/* sin(2 pi r), r uniform: the arcsine distribution on (-1, 1). */
void scwi_arcsine_deviates(scwi_stream_at *stream, double *out, size_t n);

#endif
