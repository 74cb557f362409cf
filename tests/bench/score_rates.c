/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What intervals of sums and places deliver at a nominal 0.95:
 * score_rates [SETS [SEED]]. Normal readings, continuous; every product has two
 * rules, two points a unit of the first (scatter 1) and one point a unit of the
 * second (scatter 3), n readings for each. `shared`: the first rule is against a
 * baseline of n readings that all share. Alike: all true sums are equal;
 * stepped: each is one point above the last. 10,000 trials a set. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "deviates.h"
#include "standings.h"

enum { MOST = 6, READINGS = 10, TRIALS = 10000 };

static const scw_rule gloss = {.kind = SCW_RULE_DIFFERENCE, .points = 2,
                               .per = 1, .low = -INFINITY, .high = INFINITY};
static const scw_rule marks = {.kind = SCW_RULE_MARKS, .points = 1, .per = 1,
                               .low = -INFINITY, .high = INFINITY};
static const scw_score_part score_parts[] = {{0, 1}, {1, 1}};
static const scw_score_rule score = {.part = score_parts, .n_parts = 2,
                                     .low = -INFINITY, .high = INFINITY};

typedef struct row {
  bool shared, stepped;
  size_t k, n;
} row;

typedef struct counts {
  size_t covered, apart, places;
} counts;

static scwi_ziggurat ziggurat;

static scwi_measured measure(scwi_stream_at *stream, double mean, double sd,
                             size_t n) {
  double x[READINGS], sum = 0, squares = 0;
  scwi_normal_deviates(&ziggurat, stream, x, n);
  for (size_t i = 0; i < n; i++) sum += x[i];
  for (size_t i = 0; i < n; i++)
    squares += (x[i] - sum / (double)n) * (x[i] - sum / (double)n);
  double df = (double)n - 1;
  return (scwi_measured){
      mean + sd * sum / (double)n,
      {sd * sqrt(squares / df / (double)n), df}};
}

static scw_status one_set(scw_context *context, const row *r, uint64_t seed,
                          uint64_t set, counts *to) {
  scwi_measured measured[2 * MOST + 1];
  scwi_standing_part part[2 * MOST];
  scwi_standing standing[MOST];
  scwi_stream_at stream = scwi_stream_start(seed, 0, set);
  size_t n = 0;
  measured[n++] = measure(&stream, 80, 1, r->n);
  for (size_t i = 0; i < r->k; i++) {
    double more = r->stepped ? (double)i : 0;
    part[2 * i] = (scwi_standing_part){
        &gloss, 1, r->shared ? 0 : SCWI_NOT_MEASURED, (int)n, 0, 0};
    measured[n++] = measure(&stream, (r->shared ? 80 : 0) + more / 2, 1, r->n);
    part[2 * i + 1] =
        (scwi_standing_part){&marks, 1, SCWI_NOT_MEASURED, (int)n, 0, 0};
    measured[n++] = measure(&stream, 10, 3, r->n);
  }
  const scwi_standings_ask ask = {
      .measured = measured, .n_measured = n, .part = part, .products = r->k,
      .parts = 2, .score = &score, .level = 0.95, .seed = seed + 1 + set,
      .trials = TRIALS};
  scw_status status = scwi_standings(context, &ask, standing);
  if (status) return status;
  bool apart = false, held = true;
  for (size_t i = 0; i < r->k; i++) {
    double truth = 10 + (r->stepped ? (double)i : 0);
    size_t place = r->k - i;
    to->covered += standing[i].points.low <= truth &&
                   truth <= standing[i].points.high;
    apart |= standing[i].high - standing[i].low + 1 < r->k;
    held &= !r->stepped ||
            (standing[i].low <= place && place <= standing[i].high);
    scwi_standing_free(&standing[i]);
  }
  to->apart += apart;
  to->places += held;
  return SCW_OK;
}

static scw_status measure_row(scw_context *context, const row *r, size_t sets,
                              uint64_t seed) {
  counts found = {0, 0, 0};
  scw_status status = SCW_OK;
  for (size_t s = 0; s < sets && !status; s++)
    status = one_set(context, r, seed, s, &found);
  double all = (double)sets;
  printf("%s,%s,%zu,%zu,%.4f,", r->shared ? "shared" : "own",
         r->stepped ? "stepped" : "alike", r->k, r->n,
         (double)found.covered / all / (double)r->k);
  printf("%.4f,", (double)found.apart / all);
  if (r->stepped) printf("%.4f", (double)found.places / all);
  printf("\n");
  fflush(stdout);
  return status;
}

int main(int argc, char **argv) {
  static const size_t sizes[] = {3, 5, 10}, products[] = {3, 6};
  size_t sets = argc > 1 ? strtoul(argv[1], NULL, 10) : 2000;
  uint64_t seed = argc > 2 ? strtoull(argv[2], NULL, 10) : 1;
  scw_context *context;
  scw_status status = scw_context_new(&context);
  if (status) return 1;
  scwi_ziggurat_make(&ziggurat);
  printf("baseline,truth,products,n,covered,any_apart,all_places_hold\n");
  for (size_t i = 0; i < 24 && !status; i++) {
    row r = {.shared = i / 12, .stepped = i / 6 % 2, .k = products[i / 3 % 2],
             .n = sizes[i % 3]};
    status = measure_row(context, &r, sets, seed + 1000000 * i);
  }
  scw_context_free(context);
  return status ? 1 : 0;
}
