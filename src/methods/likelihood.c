/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Groups of readings are summed up from the bottom: a group whose children have
 * means of variances v has W = sum 1/v, the weighted mean M, and adds
 *   sum log v + log W + sum (mean - M)^2 / v
 * to -2 log L; its own mean M then has the variance (own level) + 1/W. At the
 * top this is the restricted likelihood, since log W is what the mean costs.
 * The lowest groups begin with (own level) + (readings' variance)/n. */
#include "likelihood.h"

#include <stdlib.h>

#include "memory.h"

static scw_status make_room(scw_context *context, const scwi_tree *tree,
                            scwi_likelihood *out) {
  size_t most = tree->count[tree->depth - 1];
  scw_status status = SCWI_ALLOCATE(context, most, &out->variance);
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, most, &out->mean);
  for (size_t d = 1; d <= tree->depth && status == SCW_OK; d++)
    status = SCWI_ALLOCATE(context, tree->count[d], &out->apart[d]);
  return status;
}

scw_status scwi_likelihood_of(scw_context *context, const scwi_tree *tree,
                              scwi_likelihood *out) {
  double unit = scwi_scaled_sd(&tree->centre);
  *out = (scwi_likelihood){
      tree, unit, tree->spread[tree->depth] / unit / unit, {NULL}, NULL, NULL};
  scw_status status = make_room(context, tree, out);
  if (status != SCW_OK) return status;
  for (size_t d = 0; d < tree->depth; d++)
    for (size_t g = 0; g < tree->count[d]; g++)
      for (size_t c = tree->first[d][g]; c < tree->first[d][g + 1]; c++)
        out->apart[d + 1][c] =
            scwi_mean_distance(tree, tree->mean[d + 1][c], tree->mean[d][g]) /
            unit;
  return SCW_OK;
}

void scwi_likelihood_free(scwi_likelihood *likelihood) {
  for (size_t d = 0; d < SCWI_TREE_DEPTH; d++)
    free(likelihood->apart[d]);
  free(likelihood->variance);
  free(likelihood->mean);
  *likelihood = (scwi_likelihood){0};
}

/* What the children of one group add up to; `far` is about the unweighted
 * mean. */
typedef struct sums {
  scwi_jet weight, shifted, squared, logs;
} sums;

static void add_lowest(const scwi_likelihood *l, const double *variance,
                       size_t g, sums *s) {
  size_t d = l->tree->depth;
  const size_t *first = l->tree->first[d];
  double n = (double)(first[g + 1] - first[g]), far = l->apart[d][g];
  scwi_jet v = scwi_jet_constant(variance[d - 1] + variance[d] / n);
  v.slope[d - 1] = 1;
  v.slope[d] = 1 / n;
  scwi_jet w = scwi_jet_inverse(&v), log_v = scwi_jet_log(&v);
  scwi_jet_add(&s->weight, &w, 1);
  scwi_jet_add(&s->shifted, &w, far);
  scwi_jet_add(&s->squared, &w, far * far);
  scwi_jet_add(&s->logs, &log_v, 1);
}

static void add_group(const scwi_likelihood *l, size_t d, size_t g, sums *s) {
  scwi_jet far = l->mean[g], log_v = scwi_jet_log(&l->variance[g]);
  far.value += l->apart[d][g];
  scwi_jet w = scwi_jet_inverse(&l->variance[g]);
  scwi_jet shifted = scwi_jet_product(&w, &far);
  scwi_jet squared = scwi_jet_product(&shifted, &far);
  scwi_jet_add(&s->weight, &w, 1);
  scwi_jet_add(&s->shifted, &shifted, 1);
  scwi_jet_add(&s->squared, &squared, 1);
  scwi_jet_add(&s->logs, &log_v, 1);
}

/* Group g of depth d, whose children stand in l->variance and l->mean, takes
 * its own place there: children always stand at or after their group. */
static void sum_up(const scwi_likelihood *l, const double *variance, size_t d,
                   size_t g, scwi_jet *deviance) {
  const size_t *first = l->tree->first[d];
  sums s = {0};
  for (size_t c = first[g]; c < first[g + 1]; c++)
    if (d + 1 == l->tree->depth)
      add_lowest(l, variance, c, &s);
    else
      add_group(l, d + 1, c, &s);
  scwi_jet own = scwi_jet_inverse(&s.weight), log_w = scwi_jet_log(&s.weight);
  scwi_jet mean = scwi_jet_product(&s.shifted, &own);
  scwi_jet lost = scwi_jet_product(&mean, &s.shifted);
  scwi_jet_add(deviance, &s.logs, 1);
  scwi_jet_add(deviance, &log_w, 1);
  scwi_jet_add(deviance, &s.squared, 1);
  scwi_jet_add(deviance, &lost, -1);
  if (d > 0) {
    own.value += variance[d - 1];
    own.slope[d - 1] += 1;
  }
  l->variance[g] = own;
  l->mean[g] = mean;
}

scwi_likelihood_at scwi_likelihood_here(const scwi_likelihood *likelihood,
                                        const double *variance) {
  const scwi_tree *tree = likelihood->tree;
  size_t lowest = tree->depth;
  scwi_likelihood_at here = {.mean = 0};
  scwi_jet rest = scwi_jet_constant(variance[lowest]);
  rest.slope[lowest] = 1;
  scwi_jet inverse = scwi_jet_inverse(&rest), log_rest = scwi_jet_log(&rest);
  scwi_jet_add(&here.deviance, &inverse, likelihood->within);
  scwi_jet_add(&here.deviance, &log_rest,
               (double)(tree->n - tree->count[lowest]));
  for (size_t d = lowest; d-- > 0;)
    for (size_t g = 0; g < tree->count[d]; g++)
      sum_up(likelihood, variance, d, g, &here.deviance);
  here.mean_variance = likelihood->variance[0];
  here.mean = likelihood->mean[0].value;
  return here;
}
