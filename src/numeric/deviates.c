/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "deviates.h"

#include <math.h>

/* Right end of the lowest layer, and the area of each, for 256 layers
 * (Marsaglia & Tsang 2000; that the layers close at the top is tested). */
static const double tail_start = 3.6541528853610088;

static const double two_pi = 6.283185307179586;

/* (0, 1) in steps of 2^-52, at their middles. */
static double open_unit(uint64_t bits) {
  return ((double)(bits >> 12) + 0.5) * 0x1p-52;
}

/* (-1, 1) in steps of 2^-52, at their middles. */
static double open_symmetric(uint64_t bits) {
  return ((double)((int64_t)bits >> 11) + 0.5) * 0x1p-52;
}

static double density_at(double x) { return exp(-x * x / 2); }

/* Area under the tail beyond x: sqrt(pi/2) erfc(x / sqrt 2). */
static double tail_area(double x) {
  return sqrt(two_pi) / 2 * erfc(x * sqrt(0.5));
}

void scwi_ziggurat_make(scwi_ziggurat *out) {
  double area = tail_start * density_at(tail_start) + tail_area(tail_start);
  out->edge[0] = area / density_at(tail_start); /* the tail as a rectangle */
  out->edge[1] = tail_start;
  out->density[0] = 0; /* not used */
  out->density[1] = density_at(tail_start);
  for (int i = 2; i < SCWI_ZIGGURAT; i++) {
    out->density[i] = area / out->edge[i - 1] + out->density[i - 1];
    out->edge[i] = sqrt(-2 * log(out->density[i]));
  }
  out->edge[SCWI_ZIGGURAT] = 0;
  out->density[SCWI_ZIGGURAT] = 1;
}

void scwi_symmetric_deviates(scwi_stream_at *stream, double *out, size_t n) {
  enum { AT_A_TIME = 64 };
  uint64_t bits[AT_A_TIME];
  for (size_t done = 0; done < n; done += AT_A_TIME) {
    size_t m = n - done < AT_A_TIME ? n - done : AT_A_TIME;
    scwi_stream_bits(stream, bits, m);
    for (size_t i = 0; i < m; i++) out[done + i] = open_symmetric(bits[i]);
  }
}

/* Beyond the lowest layer (Marsaglia 1964). */
static double beyond(scwi_stream_at *stream) {
  double x, y;
  do {
    x = -log(open_unit(scwi_stream_next(stream))) / tail_start;
    y = -log(open_unit(scwi_stream_next(stream)));
  } while (2 * y < x * x);
  return tail_start + x;
}

/* The layer takes 8 bits of the number, the place in it 53 others. */
static double one_normal(const scwi_ziggurat *z, scwi_stream_at *stream) {
  for (;;) {
    uint64_t bits = scwi_stream_next(stream);
    unsigned layer = (unsigned)(bits & (SCWI_ZIGGURAT - 1));
    double u = open_symmetric(bits), x = u * z->edge[layer];
    if (fabs(x) < z->edge[layer + 1]) return x;
    if (layer == 0) return u < 0 ? -beyond(stream) : beyond(stream);
    double low = z->density[layer], high = z->density[layer + 1];
    double y = low + open_unit(scwi_stream_next(stream)) * (high - low);
    if (y < density_at(x)) return x;
  }
}

void scwi_normal_deviates(const scwi_ziggurat *ziggurat, scwi_stream_at *stream,
                          double *out, size_t n) {
  for (size_t i = 0; i < n; i++) out[i] = one_normal(ziggurat, stream);
}

/* Gamma deviate of shape a >= 1 over its a - 1/3 (Marsaglia & Tsang 2000b). */
static double gamma_part(const scwi_ziggurat *z, scwi_stream_at *stream,
                         double d, double c) {
  for (;;) {
    double x = one_normal(z, stream), v = 1 + c * x;
    if (v <= 0) continue;
    v = v * v * v;
    double u = open_unit(scwi_stream_next(stream)), x2 = x * x;
    if (u < 1 - 0.0331 * x2 * x2) return v;
    if (log(u) < x2 / 2 + d * (1 - v + log(v))) return v;
  }
}

void scwi_t_factors(const scwi_ziggurat *ziggurat, scwi_stream_at *stream,
                    double df, double *out, size_t n) {
  double shape = df / 2, raised = shape < 1 ? shape + 1 : shape;
  double d = raised - 1.0 / 3, c = 1 / sqrt(9 * d);
  for (size_t i = 0; i < n; i++) {
    double gamma = d * gamma_part(ziggurat, stream, d, c);
    if (shape < 1)
      gamma *= pow(open_unit(scwi_stream_next(stream)), 1 / shape);
    out[i] = gamma;
  }
  for (size_t i = 0; i < n; i++) out[i] = sqrt(shape / out[i]);
}

void scwi_arcsine_deviates(scwi_stream_at *stream, double *out, size_t n) {
  scwi_symmetric_deviates(stream, out, n);
  for (size_t i = 0; i < n; i++) out[i] = sin(two_pi / 2 * out[i]);
}
