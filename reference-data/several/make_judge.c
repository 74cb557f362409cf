/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Upper tails of the studentised range and of the largest of correlated
 * absolute t values, in quadruple precision (113 bits):
 *
 *   gcc -O2 make_judge.c -lquadmath -o make_judge && ./make_judge range > studentised_range.csv
 *   ./make_judge max_t > max_t.csv
 *
 * The definitions are integrated as they stand, in the SD itself, by composite
 * Gauss-Legendre rules; nothing is shared with the library's way, which goes by
 * the logarithm of the SD, the trapezium rule and interpolation. */
#include <quadmath.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef __float128 quad;
enum { NODES = 24, MOST = 100 };
static quad node[NODES], weight[NODES];

static void legendre(void) {
  for (int i = 0; i < NODES; i++) {
    quad x = cosq(M_PIq * (i + 0.75Q) / (NODES + 0.5Q)), slope = 0;
    for (int step = 0; step < 60; step++) {
      quad p0 = 1, p1 = x;
      for (int k = 2; k <= NODES; k++) {
        quad p2 = ((2 * k - 1) * x * p1 - (k - 1) * p0) / k;
        p0 = p1;
        p1 = p2;
      }
      slope = NODES * (x * p1 - p0) / (x * x - 1);
      quad d = p1 / slope;
      x -= d;
      if (fabsq(d) < 1e-32Q) break;
    }
    node[i] = x;
    weight[i] = 2 / ((1 - x * x) * slope * slope);
  }
}

typedef quad (*function)(quad x, void *user);

static quad piece(function f, void *user, quad low, quad high) {
  quad sum = 0, middle = (low + high) / 2, half = (high - low) / 2;
  for (int i = 0; i < NODES; i++) sum += weight[i] * f(middle + half * node[i], user);
  return sum * half;
}

static quad upper(quad z) { return erfcq(z / sqrtq(2)) / 2; }
static quad density(quad z) { return expq(-z * z / 2) / sqrtq(2 * M_PIq); }

/* What is asked. */
typedef struct question {
  int k;                      /* groups; 0: the largest t */
  quad lambda[MOST]; int n;
  quad w, df, x;
} question;

static quad range_at(quad z, void *user) {
  question *q = user;
  quad here = upper(-z), below = upper(-(z - q->w));
  return q->k * density(z) *
         (powq(here, q->k - 1) - powq(here - below, q->k - 1));
}

static quad range_tail(question *q) {
  quad sum = 0, high = 11 + q->w / 2;
  for (quad z = -11; z < high; z += 1) sum += piece(range_at, q, z, z + 1);
  return sum;
}

static quad max_at(quad c, void *user) {
  question *q = user;
  quad inside = 1;
  for (int i = 0; i < q->n;) {
    int same = i;
    quad l = q->lambda[i], rest = sqrtq((1 - l) * (1 + l)), one = 1;
    if (rest > 0)
      one = 1 - upper((q->w - l * c) / rest) - upper((q->w + l * c) / rest);
    else if (c > q->w)
      one = 0;
    for (; same < q->n && q->lambda[same] == l; same++) inside *= one;
    i = same;
  }
  return density(c) * (1 - inside);
}

static int by_size(const void *a, const void *b) {
  quad x = *(const quad *)a, y = *(const quad *)b;
  return (x > y) - (x < y);
}

static quad max_tail(question *q) {
  quad place[MOST * 41 + 32], sum = 0;
  int n = 0;
  for (int i = 0; i <= 24; i++) place[n++] = i * 0.5Q;
  for (int i = 0; i < q->n; i++) {
    quad l = q->lambda[i], rest = sqrtq((1 - l) * (1 + l));
    if (l == 0 || (i && q->lambda[i - 1] == l)) continue;
    for (int d = -12; d <= 12; d++) {
      quad at = (q->w + d * rest) / l;
      if (at > 0 && at < 12) place[n++] = at;
    }
  }
  qsort(place, (size_t)n, sizeof *place, by_size);
  for (int i = 1; i < n; i++)
    if (place[i] > place[i - 1]) sum += piece(max_at, q, place[i - 1], place[i]);
  return 2 * sum;
}

static quad tail(question *q, quad w) {
  q->w = w;
  return q->k ? range_tail(q) : max_tail(q);
}

static quad over_at(quad s, void *user) {
  question *q = user;
  quad half = q->df / 2;
  quad log_density = logq(2) + half * logq(half) - lgammaq(half) +
                     (q->df - 1) * logq(s) - half * s * s;
  return log_density < -80 ? 0 : expq(log_density) * tail(q, q->x * s);
}

/* Pieces that halve towards zero, where s^(df - 1) is no power series, and even
 * ones around 1. */
static quad answer(question *q) {
  if (isinfq(q->df)) return tail(q, q->x);
  quad width = 1 / sqrtq(2 * q->df), sum = 0, low = 1 - 13 * width;
  quad least = width < 0.25Q ? width * 1.5Q : 0.35Q, high = 1 + 15 * width;
  if (low < 0.5Q) {
    quad from = 0.5Q;
    for (int i = 0; i < 45; i++, from /= 2) sum += piece(over_at, q, from / 2, from);
    low = 0.5Q;
  }
  for (quad s = low; s < high; s += least) sum += piece(over_at, q, s, s + least);
  return sum;
}

static const double dfs[] = {1, 1.3, 1.9, 2.5, 5, 10, 30.7, 200, 1e6, -1};
enum { DFS = sizeof dfs / sizeof *dfs };

static void print(const char *what, const question *q, quad p) {
  char text[64], df[32];
  quadmath_snprintf(text, sizeof text, "%.20Qg", p);
  if (isinfq(q->df)) strcpy(df, "inf");
  else snprintf(df, sizeof df, "%.10g", (double)q->df);
  printf("%s,%s,%.10g,%s\n", what, df, (double)q->x, text);
  fflush(stdout);
}

static void ranges(void) {
  static const int groups[] = {2, 3, 5, 10, 30, 100};
  static const double x[] = {1.5, 3.5, 6, 20};
  puts("groups,df,q,upper");
  for (int g = 0; g < 6; g++)
    for (int d = 0; d < DFS; d++) {
      question q = {.k = groups[g], .df = dfs[d] < 0 ? HUGE_VALQ : (quad)dfs[d]};
      char what[16];
      q.x = x[(g + d) % 4];
      snprintf(what, sizeof what, "%d", q.k);
      print(what, &q, answer(&q));
    }
}

static void take(const char *text, question *q) {
  while (*text) {
    char *end;
    double value = strtod(text, &end);
    long n = *end == 'x' ? strtol(end + 1, &end, 10) : 1;
    while (n-- > 0) q->lambda[q->n++] = value;
    text = end + strspn(end, " ");
  }
  qsort(q->lambda, (size_t)q->n, sizeof *q->lambda, by_size);
}

static void largest(void) {
  static const char *const sets[] = {
      "0.6", "0.5x3", "0.7071067811865476x5", "0.5x10", "0.2 0.5 0.9", "0 0.99",
      "1 0.3", "0.9995x4", "0.9999999x3", "0.7x100", "0.0x20"};
  static const double x[] = {1, 2.5, 4.5};
  puts("lambda,df,x,upper");
  for (int s = 0; s < 11; s++)
    for (int d = 0; d < DFS; d++) {
      question q = {.df = dfs[d] < 0 ? HUGE_VALQ : (quad)dfs[d]};
      take(sets[s], &q);
      q.x = x[(s + d) % 3];
      print(sets[s], &q, answer(&q));
    }
}

int main(int argc, char **argv) {
  legendre();
  if (argc == 2 && !strcmp(argv[1], "range")) ranges();
  else if (argc == 2 && !strcmp(argv[1], "max_t")) largest();
  else return 2;
  return 0;
}
