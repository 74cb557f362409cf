/* SPDX-License-Identifier: GPL-3.0-or-later */
/* With 1 - 1/F for the share a mean square may lie above its expectation and
 * 1/F - 1 for the share it may lie below, the squares of the parts add up; the
 * mixed terms make the limit exact where two mean squares nearly cancel. */
#include "large_sample.h"

#include <math.h>

#include "distributions.h"

static scw_status work_out(scw_context *context, double p, double df1,
                           double df2, double *out) {
  if (isfinite(df2)) return scwi_f_quantile(context, p, df1, df2, out);
  scw_status status = scwi_chi2_quantile(context, p, df1, out);
  *out /= df1;
  return status;
}

scw_status scwi_memo_f(scw_context *context, scwi_limits_memo *memo, double p,
                       double df1, double df2, double *out) {
  size_t n = memo ? memo->n : 0;
  for (size_t i = 0; i < n; i++)
    if (memo->entry[i].p == p && memo->entry[i].df1 == df1 &&
        memo->entry[i].df2 == df2) {
      *out = memo->entry[i].value;
      return SCW_OK;
    }
  scw_status status = work_out(context, p, df1, df2, out);
  if (status != SCW_OK || !memo || n == SCWI_MEMO_SIZE) return status;
  memo->entry[n].p = p;
  memo->entry[n].df1 = df1;
  memo->entry[n].df2 = df2;
  memo->entry[n].value = *out;
  memo->n++;
  return SCW_OK;
}

/* One limit: how far it lies from the estimate, squared. */
typedef struct side {
  scw_context *context;
  scwi_limits_memo *memo;
  const scwi_square_term *terms;
  size_t n;
  double assurance;
  double p; /* of the terms that are added; 1 - p of the others */
  bool upper;
} side;

static double size_of(const side *s, size_t i) {
  return fabs(s->terms[i].coefficient) * s->terms[i].square;
}

static bool added(const side *s, size_t i) {
  return s->terms[i].coefficient > 0;
}

/* 1 - 1/F or 1/F - 1 of one mean square alone, whichever is above 0. */
static scw_status own(const side *s, size_t i, double *out) {
  double f, p = added(s, i) ? s->p : 1 - s->p;
  scw_status status =
      scwi_memo_f(s->context, s->memo, p, s->terms[i].df, INFINITY, &f);
  *out = fabs(1 - 1 / f);
  return status;
}

/* An added and a subtracted mean square. */
static scw_status mixed(const side *s, size_t plus, size_t minus, double a,
                        double b, double *out) {
  double f;
  scw_status status = scwi_memo_f(s->context, s->memo, s->p, s->terms[plus].df,
                                  s->terms[minus].df, &f);
  *out = ((1 - f) * (1 - f) - a * a * f * f - b * b) / f;
  return status;
}

/* Two mean squares on the same side. */
static scw_status alike(const side *s, size_t i, size_t j, double a, double b,
                        double *out) {
  double f, n = s->terms[i].df, m = s->terms[j].df;
  scw_status status =
      scwi_memo_f(s->context, s->memo, s->assurance, n + m, INFINITY, &f);
  double both = (1 - 1 / f) * (n + m);
  *out = both * both / (n * m) - a * a * n / m - b * b * m / n;
  return status;
}

/* What the pair i, j adds; `same` counts the terms on the side of i. */
static scw_status pair(const side *s, size_t i, size_t j, const double *a,
                       size_t same, double *out) {
  double weight = 0;
  scw_status status = SCW_OK;
  if (added(s, i) != added(s, j)) {
    size_t plus = added(s, i) ? i : j, minus = added(s, i) ? j : i;
    status = mixed(s, plus, minus, a[plus], a[minus], &weight);
  } else if (added(s, i) != s->upper) {
    status = alike(s, i, j, a[i], a[j], &weight);
    weight /= (double)(same - 1);
  }
  *out += weight * size_of(s, i) * size_of(s, j);
  return status;
}

static scw_status distance(const side *s, double *out) {
  double a[SCWI_SQUARE_TERMS], square = 0;
  size_t plus = 0;
  scw_status status = SCW_OK;
  for (size_t i = 0; i < s->n && status == SCW_OK; i++) {
    status = own(s, i, &a[i]);
    plus += added(s, i);
    square += a[i] * a[i] * size_of(s, i) * size_of(s, i);
  }
  bool differ = plus > 0 && plus < s->n; /* else a plain sum */
  for (size_t i = 0; differ && i < s->n; i++)
    for (size_t j = i + 1; j < s->n && status == SCW_OK; j++)
      status = pair(s, i, j, a, added(s, i) ? plus : s->n - plus, &square);
  *out = sqrt(fmax(0, square));
  return status;
}

scw_status scwi_large_sample_limits(scw_context *context,
                                    scwi_limits_memo *memo,
                                    const scwi_square_term *terms, size_t n,
                                    double assurance, double *lower,
                                    double *upper) {
  double estimate = 0, below, above;
  side down = {context, memo, terms, n, assurance, assurance, false};
  side up = {context, memo, terms, n, assurance, 1 - assurance, true};
  scw_status status = distance(&down, &below);
  if (status == SCW_OK) status = distance(&up, &above);
  *lower = *upper = NAN;
  if (status != SCW_OK) return status;
  for (size_t i = 0; i < n; i++)
    estimate += terms[i].coefficient * terms[i].square;
  *lower = estimate - below;
  *upper = estimate + above;
  return SCW_OK;
}
