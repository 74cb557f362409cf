/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tree.h"

#include <stdlib.h>

#include "memory.h"
#include "sum.h"

typedef struct key {
  uint32_t label[SCW_LEVEL_REPEAT], reading;
} key;

static int compare(const key *a, const key *b) {
  for (size_t i = 0; i < SCW_LEVEL_REPEAT; i++)
    if (a->label[i] != b->label[i]) return a->label[i] < b->label[i] ? -1 : 1;
  return 0;
}

static int by_labels(const void *a, const void *b) {
  const key *one = a, *other = b;
  int order = compare(one, other);
  return order ? order
               : (one->reading > other->reading) -
                     (one->reading < other->reading);
}

/* Files come sorted as a rule. */
static void sort(key *keys, size_t n) {
  for (size_t i = 1; i < n; i++)
    if (compare(&keys[i - 1], &keys[i]) > 0) {
      qsort(keys, n, sizeof *keys, by_labels);
      return;
    }
}

static void fill(key *keys, const scwi_level_labels *labels, size_t n) {
  for (size_t i = 0; i < n; i++) {
    keys[i].reading = (uint32_t)i;
    for (size_t l = 0; l < SCW_LEVEL_REPEAT; l++)
      if (labels->label[l]) keys[i].label[l] = labels->label[l][i];
  }
}

/* The highest level at which two keys part; SCW_LEVEL_REPEAT: at none. */
static size_t parting(const key *a, const key *b) {
  size_t l = 0;
  while (l < SCW_LEVEL_REPEAT && a->label[l] == b->label[l])
    l++;
  return l;
}

static void count_groups(const key *keys, const scwi_level_labels *labels,
                         scwi_tree *out) {
  for (size_t l = 0; l < SCW_LEVEL_REPEAT; l++)
    out->groups[l] = labels->label[l] ? 1 : 0;
  for (size_t i = 1; i < out->n; i++)
    for (size_t l = parting(&keys[i - 1], &keys[i]); l < SCW_LEVEL_REPEAT; l++)
      if (labels->label[l]) out->groups[l]++;
  out->groups[SCW_LEVEL_REPEAT] = out->n;
}

/* Which levels can be told apart, and so the depths of the tree. */
static void choose_levels(scwi_tree *out) {
  size_t above = 1;
  out->count[0] = 1;
  for (size_t l = 0; l < SCW_LEVEL_COUNT; l++) {
    size_t groups = out->groups[l];
    out->state[l] = groups == 0       ? SCW_NOT_COMPUTED
                    : out->n == 1     ? SCW_ONE_READING
                    : groups == 1     ? SCW_ONE_OF_IT
                    : groups == above ? SCW_NOT_TOLD_APART
                                      : SCW_PRESENT;
    if (out->state[l] != SCW_PRESENT) continue;
    out->level[out->depth] = (scw_plan_level)l;
    if (groups < out->n) out->count[++out->depth] = groups;
    above = groups;
  }
}

static scw_status make_room(scw_context *context, scwi_tree *out) {
  scw_status status = SCWI_ALLOCATE(context, out->n, &out->order);
  for (size_t d = 0; d <= out->depth && status == SCW_OK; d++) {
    status = SCWI_ALLOCATE(context, out->count[d] + 1, &out->first[d]);
    if (status == SCW_OK)
      status = SCWI_ALLOCATE(context, out->count[d], &out->mean[d]);
  }
  return status;
}

/* Reading i opens a new group at each depth whose level it parts at or below;
 * `at[d]` is the group open at depth d. */
static void link_groups(const key *keys, scwi_tree *out) {
  size_t at[SCWI_TREE_DEPTH] = {0};
  for (size_t i = 0; i < out->n; i++) {
    size_t apart = i ? parting(&keys[i - 1], &keys[i]) : SCW_LEVEL_COUNT;
    out->order[i] = keys[i].reading;
    for (size_t d = 1; d <= out->depth; d++)
      if (apart <= (size_t)out->level[d - 1]) at[d]++;
    for (size_t d = 0; d <= out->depth; d++)
      out->first[d][at[d] + 1] = d < out->depth ? at[d + 1] + 1 : i + 1;
  }
}

scwi_group_mean scwi_child_mean(const scwi_tree *tree, size_t depth,
                                size_t child) {
  if (depth < tree->depth) return tree->mean[depth + 1][child];
  return (scwi_group_mean){tree->order[child], 0};
}

double scwi_mean_distance(const scwi_tree *tree, scwi_group_mean a,
                          scwi_group_mean b) {
  return scwi_distance(&tree->centre, a.reading, b.reading) +
         (a.offset - b.offset);
}

double scwi_mean_value(const scwi_tree *tree, scwi_group_mean a) {
  const scwi_centre *centre = &tree->centre;
  const scwi_sample *s = centre->sample;
  if (s->ticks)
    return scwi_tick_value(
        (double)((scwi_wide)s->n * s->ticks[a.reading]) + a.offset,
        (double)s->n, s->tick_size);
  return ldexp(ldexp(s->x[a.reading], -centre->exponent) + a.offset,
               centre->exponent);
}

static void average(scwi_tree *tree, size_t depth, size_t group) {
  size_t from = tree->first[depth][group], to = tree->first[depth][group + 1];
  scwi_group_mean start = scwi_child_mean(tree, depth, from);
  scwi_sum sum = {0};
  for (size_t c = from; c < to; c++)
    scwi_sum_add(
        &sum, scwi_mean_distance(tree, scwi_child_mean(tree, depth, c), start));
  start.offset += scwi_sum_of(sum) / (double)(to - from);
  tree->mean[depth][group] = start;
}

static void average_all(scwi_tree *tree) {
  tree->balanced = true;
  for (size_t d = tree->depth + 1; d-- > 0;) {
    const size_t *first = tree->first[d];
    scwi_sum squares = {0};
    for (size_t g = 0; g < tree->count[d]; g++) {
      average(tree, d, g);
      for (size_t c = first[g]; c < first[g + 1]; c++) {
        double distance = scwi_mean_distance(tree, scwi_child_mean(tree, d, c),
                                             tree->mean[d][g]);
        scwi_sum_add(&squares, distance * distance);
      }
      if (first[g + 1] - first[g] != first[1]) tree->balanced = false;
    }
    tree->spread[d] = scwi_sum_of(squares);
  }
}

scw_status scwi_tree_of(scw_context *context, const scwi_sample *sample,
                        const scwi_level_labels *labels, scwi_tree *out) {
  key *keys;
  *out = (scwi_tree){.centre = scwi_centre_of(sample), .n = sample->n};
  scw_status status = SCWI_ALLOCATE(context, out->n, &keys);
  if (status != SCW_OK) return status;
  fill(keys, labels, out->n);
  sort(keys, out->n);
  count_groups(keys, labels, out);
  choose_levels(out);
  status = make_room(context, out);
  if (status == SCW_OK) {
    link_groups(keys, out);
    average_all(out);
  }
  free(keys);
  return status;
}

void scwi_tree_free(scwi_tree *tree) {
  for (size_t d = 0; d < SCWI_TREE_DEPTH; d++) {
    free(tree->first[d]);
    free(tree->mean[d]);
  }
  free(tree->order);
  *tree = (scwi_tree){0};
}
