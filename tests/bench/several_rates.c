/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How often any of several products that are all alike is shown to differ, at a
 * nominal 0.05: several_rates [SETS [SEED [THREADS]]]. Normal readings,
 * continuous, the first product the control. For shared spots each spot has a
 * level of its own, SD 5. The standard error at 10,000 sets is 0.0022. Every row
 * has its own stream: the rates do not depend on the number of threads.
 *
 * What a family of comparisons has in common is worked out once a row; the
 * first sets of each row are judged by the library's own calls as well, which
 * must say the same. */
#include <pthread.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "all_pairs.h"
#include "blocks.h"
#include "draw.h"
#include "figure.h"
#include "many_to_one.h"
#include "max_t.h"
#include "studentised_range.h"

enum { MOST_PRODUCTS = 10, MOST_PAIRS = 45, MOST = 20, CHECKED = 3 };
enum { LAYOUTS = 7, SAME_SPOTS = 5, SCATTERS = 4, SIZES = 3, GRID = 20 };

typedef enum method {
  MAX_T, DUNNETT, GAMES_HOWELL, TUKEY,
  SPOTS_CONTROL, SPOTS_PAIRS, SPOTS_DUNNETT, SPOTS_TUKEY,
  METHODS
} method;
static const char *const method_names[METHODS] = {
    "max_t",         "dunnett",     "games_howell",  "tukey_kramer",
    "spots_control", "spots_pairs", "spots_dunnett", "spots_tukey"};
static const char *const layout_names[LAYOUTS] = {
    "3 each", "4 each", "5 each", "10 each", "20 each", "3 to 20", "20 to 3"};
static const char *const scatter_names[SCATTERS] = {"alike", "first 3 times",
                                                    "last 3 times", "1 to 3"};
static const size_t sizes[SIZES] = {3, 5, 10};

/* One row of the table. */
typedef struct row {
  method how;
  size_t k, layout, scatter;
  size_t n[MOST_PRODUCTS];
  double sd[MOST_PRODUCTS];
  draw random;
  double rate;
} row;

/* Of a row: the family, or for the largest t those of equal lambdas, whose
 * tails hold that of unequal ones between them (Sidak 1968). */
typedef struct families {
  scwi_max_t equal[GRID + 1];
  scwi_max_t dunnett, found;
  scwi_studentised_range range;
  double limit; /* of shared spots */
} families;

typedef struct work {
  row *rows;
  size_t n_rows;
  long sets;
  atomic_size_t next;
} work;

static void must(scw_status status) {
  if (status) exit(1);
}

static bool of_pairs(method how) {
  return how == GAMES_HOWELL || how == TUKEY || how == SPOTS_PAIRS ||
         how == SPOTS_TUKEY;
}

static bool of_equal_sd(method how) {
  return how == DUNNETT || how == TUKEY || how == SPOTS_DUNNETT ||
         how == SPOTS_TUKEY;
}

static size_t out_of(const row *r) {
  return of_pairs(r->how) ? r->k * (r->k - 1) / 2 : r->k;
}

static size_t control_of(const row *r) { return of_pairs(r->how) ? r->k : 0; }

static scwi_entry entry_of(const double *x, size_t n) {
  scwi_moments m = scwi_moments_of(&(scwi_sample){.n = n, .x = x});
  return (scwi_entry){.estimate = m.mean,
                      .u = scwi_mean_uncertainty(m.sd, n, 0),
                      .state = SCW_PRESENT,
                      .sd = m.sd,
                      .sd_df = (double)n - 1,
                      .weight = 1 / (double)n,
                      .sides = 1};
}

static bool any_apart(const scwi_adjusted *found, size_t n) {
  for (size_t i = 0; i < n; i++)
    if (found[i].interval.state == SCW_PRESENT &&
        (found[i].interval.low > 0 || found[i].interval.high < 0))
      return true;
  return false;
}

/* By the library's call. */
static bool entries_apart(scw_context *context, const row *r,
                          const scwi_entry *entries) {
  scwi_adjusted found[MOST_PAIRS] = {{.interval = {.state = SCW_NOT_COMPUTED}}};
  bool equal = of_equal_sd(r->how);
  must(of_pairs(r->how)
           ? scwi_all_pairs(context, entries, r->k, equal, 0.95, found)
           : scwi_many_to_one(context, entries, r->k, 0, equal, 0.95, found));
  return any_apart(found, out_of(r));
}

static double tail(scw_context *context, scwi_studentised *of,
                   const scw_estimate *own, double factor) {
  double p, u = own->standard_uncertainty.value;
  must(scwi_studentised_upper(context, of,
                              factor * fabs(own->estimate.value) / u,
                              own->df.value, &p));
  return p;
}

/* By the families of equal lambdas on both sides, where these agree. */
static bool largest_apart(scw_context *context, const row *r, families *f,
                          const scwi_entry *entry) {
  double lambda[MOST_PRODUCTS], low = 1, high = 0;
  bool ready = false;
  for (size_t i = 1; i < r->k; i++) {
    lambda[i - 1] = entry[0].u.u / hypot(entry[0].u.u, entry[i].u.u);
    low = fmin(low, lambda[i - 1]);
    high = fmax(high, lambda[i - 1]);
  }
  for (size_t i = 1; i < r->k; i++) {
    scw_estimate own;
    must(scwi_entry_difference(context, &entry[i], &entry[0], false, 0.95,
                               &own));
    if (own.p.value >= 0.05) continue;
    scwi_max_t *above = &f->equal[(size_t)floor(low * GRID)];
    scwi_max_t *below = &f->equal[(size_t)ceil(high * GRID)];
    if (tail(context, &below->of, &own, 1) >= 0.05) continue;
    if (tail(context, &above->of, &own, 1) < 0.05) return true;
    if (!ready) must(scwi_max_t_of(context, lambda, r->k - 1, &f->found));
    ready = true;
    if (tail(context, &f->found.of, &own, 1) < 0.05) return true;
  }
  return false;
}

static bool pairs_apart(scw_context *context, const row *r, families *f,
                        const scwi_entry *entry) {
  bool pairs = of_pairs(r->how), equal = of_equal_sd(r->how);
  for (size_t i = 1; i < r->k; i++)
    for (size_t j = 0; j < (pairs ? i : 1); j++) {
      scw_estimate own;
      must(scwi_entry_difference(context, &entry[i], &entry[j], equal, 0.95,
                                 &own));
      if (own.p.value >= 0.05) continue;
      if (tail(context, pairs ? &f->range.of : &f->dunnett.of, &own,
               pairs ? M_SQRT2 : 1) < 0.05)
        return true;
    }
  return false;
}

static bool errs_apart(scw_context *context, const row *r, families *f,
                       double x[MOST_PRODUCTS][MOST], bool check) {
  scwi_entry entries[MOST_PRODUCTS], pooled[MOST_PRODUCTS];
  for (size_t i = 0; i < r->k; i++) entries[i] = entry_of(x[i], r->n[i]);
  scwi_pool_entries(entries, r->k, pooled);
  bool apart =
      r->how == MAX_T
          ? largest_apart(context, r, f, entries)
          : pairs_apart(context, r, f,
                        of_equal_sd(r->how) ? pooled : entries);
  if (check && apart != entries_apart(context, r, entries)) exit(2);
  return apart;
}

/* Largest abs(t) of the residual SD of spots and products crossed. */
static double largest_by_spot(const row *r, double x[MOST_PRODUCTS][MOST]) {
  size_t m = r->n[0], k = r->k;
  double mean[MOST_PRODUCTS] = {0}, left = 0, low = 0, high = 0;
  for (size_t p = 0; p < k; p++)
    for (size_t s = 0; s < m; s++) mean[p] += (x[p][s] - x[0][s]) / (double)m;
  for (size_t s = 0; s < m; s++) {
    double own[MOST_PRODUCTS], middle = 0;
    for (size_t p = 0; p < k; p++) {
      own[p] = x[p][s] - x[0][s] - mean[p];
      middle += own[p] / (double)k;
    }
    for (size_t p = 0; p < k; p++)
      left += (own[p] - middle) * (own[p] - middle);
  }
  for (size_t p = 0; p < k; p++) {
    low = fmin(low, mean[p]);
    high = fmax(high, mean[p]);
  }
  double df = (double)(k - 1) * (double)(m - 1);
  double most = of_pairs(r->how) ? high - low : fmax(high, -low);
  return most / sqrt(left / df * 2 / (double)m);
}

static bool errs_by_spot(scw_context *context, const row *r,
                         const families *f, double x[MOST_PRODUCTS][MOST],
                         bool check) {
  double value[MOST_PRODUCTS * MOST];
  size_t m = r->n[0];
  scwi_adjusted found[MOST_PAIRS] = {{.interval = {.state = SCW_NOT_COMPUTED}}};
  bool equal = of_equal_sd(r->how);
  bool apart = equal && largest_by_spot(r, x) > f->limit;
  if (equal && !check) return apart;
  for (size_t i = 0; i < r->k; i++)
    for (size_t s = 0; s < m; s++) value[i * m + s] = x[i][s];
  const scwi_blocks blocks = {value, r->k, m, 0, 1};
  must(scwi_blocks_compare(context, &blocks, control_of(r), equal, 0.95,
                           found));
  bool said = any_apart(found, out_of(r));
  if (equal && said != apart) exit(2);
  return said;
}

static void prepare(scw_context *context, const row *r, families *f) {
  double lambda[MOST_PRODUCTS];
  for (size_t g = 0; g <= GRID; g++) {
    for (size_t i = 0; i < r->k; i++) lambda[i] = (double)g / GRID;
    must(scwi_max_t_of(context, lambda, r->k - 1, &f->equal[g]));
  }
  for (size_t i = 1; i < r->k; i++)
    lambda[i - 1] =
        sqrt((double)r->n[i] / (double)(r->n[i] + r->n[0]));
  must(scwi_max_t_of(context, lambda, r->k - 1, &f->dunnett));
  must(scwi_studentised_range_of(context, r->k, &f->range));
  if (r->how < SPOTS_DUNNETT) return;
  double df = (double)(r->k - 1) * (double)(r->n[0] - 1);
  bool pairs = of_pairs(r->how);
  must(scwi_studentised_quantile_upper(
      context, pairs ? &f->range.of : &f->dunnett.of, 0.05, df, &f->limit));
  if (pairs) f->limit /= M_SQRT2;
}

static void measure(scw_context *context, row *r, long sets, families *f) {
  long wrong = 0;
  bool spots = r->how >= SPOTS_CONTROL;
  prepare(context, r, f);
  for (long s = 0; s < sets; s++) {
    double x[MOST_PRODUCTS][MOST], level[MOST];
    for (size_t i = 0; i < MOST; i++)
      level[i] = spots ? 5 * draw_normal(&r->random) : 0;
    for (size_t p = 0; p < r->k; p++)
      for (size_t i = 0; i < r->n[p]; i++)
        x[p][i] = level[i] + r->sd[p] * draw_normal(&r->random);
    wrong += spots ? errs_by_spot(context, r, f, x, s < CHECKED)
                   : errs_apart(context, r, f, x, s < CHECKED);
  }
  r->rate = (double)wrong / (double)sets;
}

static void *toil(void *argument) {
  work *w = argument;
  scw_context *context;
  families *f = malloc(sizeof *f);
  if (!f || scw_context_new(&context) != SCW_OK) exit(1);
  for (size_t i; (i = atomic_fetch_add(&w->next, 1)) < w->n_rows;) {
    measure(context, &w->rows[i], w->sets, f);
    fprintf(stderr, "%zu of %zu\n", i + 1, w->n_rows);
  }
  scw_context_free(context);
  free(f);
  return NULL;
}

static row row_of(method how, size_t k, size_t layout, size_t scatter) {
  static const size_t each[SAME_SPOTS] = {3, 4, 5, 10, 20};
  row r = {.how = how, .k = k, .layout = layout, .scatter = scatter};
  for (size_t i = 0; i < k; i++) {
    double part = (double)i / (double)(k - 1);
    r.n[i] = layout < SAME_SPOTS    ? each[layout]
             : layout == SAME_SPOTS ? (size_t)lround(3 + 17 * part)
                                    : (size_t)lround(20 - 17 * part);
    r.sd[i] = scatter == 1   ? (i == 0 ? 3 : 1)
              : scatter == 2 ? (i + 1 == k ? 3 : 1)
              : scatter == 3 ? 1 + 2 * part
                             : 1;
  }
  return r;
}

static size_t list(row *rows, unsigned long long seed) {
  size_t n = 0;
  for (method how = 0; how < METHODS; how++)
    for (size_t k = 0; k < SIZES; k++)
      for (size_t l = 0; l < LAYOUTS; l++)
        for (size_t s = 0; s < SCATTERS; s++) {
          if (how >= SPOTS_CONTROL && l >= SAME_SPOTS) continue;
          rows[n] = row_of(how, sizes[k], l, s);
          rows[n].random.state = seed + 0x9E3779B97F4A7C15ULL * (n + 1);
          n++;
        }
  return n;
}

int main(int argc, char **argv) {
  static row rows[METHODS * SIZES * LAYOUTS * SCATTERS];
  work w = {.rows = rows, .sets = argc > 1 ? strtol(argv[1], NULL, 10) : 10000};
  pthread_t threads[64];
  long n = argc > 3 ? strtol(argv[3], NULL, 10) : 2;
  if (n < 1 || n > 64) return 1;
  w.n_rows = list(rows, argc > 2 ? strtoull(argv[2], NULL, 10) : 20260411);
  for (long i = 0; i < n; i++)
    if (pthread_create(&threads[i], NULL, toil, &w)) return 1;
  for (long i = 0; i < n; i++) pthread_join(threads[i], NULL);
  printf("method,products,readings,sds,rate\n");
  for (size_t i = 0; i < w.n_rows; i++)
    printf("%s,%zu,%s,%s,%.4f\n", method_names[rows[i].how], rows[i].k,
           layout_names[rows[i].layout], scatter_names[rows[i].scatter],
           rows[i].rate);
  return 0;
}
