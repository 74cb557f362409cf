/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "rule.h"

#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "text.h"
#include "texts.h"

static const size_t rule_texts[] = {
    offsetof(scw_rule, name), offsetof(scw_rule, about),
    offsetof(scw_rule, reading), offsetof(scw_rule, unit),
    offsetof(scw_rule, baseline)};
static const size_t score_texts[] = {offsetof(scw_score_rule, name),
                                     offsetof(scw_score_rule, about)};
#define COUNT(array) (sizeof(array) / sizeof(array)[0])

scw_status scwi_rule_append(scw_context *context, scw_bench *bench,
                            const scw_rule *rule) {
  size_t capacity = bench->n_rules;
  scw_rung *rung;
  scw_status status = SCWI_RESERVE(context, bench->n_rules + 1, &bench->rule,
                                   &capacity);
  if (!status) status = SCWI_ALLOCATE(context, rule->n_rungs, &rung);
  if (status) return status;
  for (size_t i = 0; i < rule->n_rungs; i++) rung[i] = rule->rung[i];
  scw_rule *copy = &bench->rule[bench->n_rules];
  *copy = *rule;
  copy->rung = rung;
  status = scwi_texts_own(context, copy, rule_texts, COUNT(rule_texts));
  if (status)
    free(rung);
  else
    bench->n_rules++;
  return status;
}

scw_status scwi_score_append(scw_context *context, scw_bench *bench,
                             const scw_score_rule *score) {
  size_t capacity = bench->n_scores;
  scw_score_part *part;
  scw_status status = SCWI_RESERVE(context, bench->n_scores + 1, &bench->score,
                                   &capacity);
  if (!status) status = SCWI_ALLOCATE(context, score->n_parts, &part);
  if (status) return status;
  for (size_t i = 0; i < score->n_parts; i++) part[i] = score->part[i];
  scw_score_rule *copy = &bench->score[bench->n_scores];
  *copy = *score;
  copy->part = part;
  status = scwi_texts_own(context, copy, score_texts, COUNT(score_texts));
  if (status)
    free(part);
  else
    bench->n_scores++;
  return status;
}

void scwi_rules_free(scw_bench *bench) {
  for (size_t i = 0; i < bench->n_rules; i++) {
    scwi_texts_free(&bench->rule[i], rule_texts, COUNT(rule_texts));
    free((void *)bench->rule[i].rung);
  }
  for (size_t i = 0; i < bench->n_scores; i++) {
    scwi_texts_free(&bench->score[i], score_texts, COUNT(score_texts));
    free((void *)bench->score[i].part);
  }
  free(bench->rule);
  free(bench->score);
}

/* The one called `name`, or the only one of n; n for none. */
static size_t find(const char *const *names, size_t n, const char *name) {
  size_t i = 0;
  if (!name || !*name) return n == 1 ? 0 : n;
  while (i < n && strcmp(names[i], name)) i++;
  return i;
}

static scw_status not_found(scw_context *context, const scw_bench *bench,
                            const char *what, const char *const *names,
                            size_t n, const char *name) {
  scwi_text words = {0};
  if (!n)
    scwi_text_format(&words, "holds no %ss; describe them under \"%ss\"", what,
                     what);
  else if (name && *name)
    scwi_text_format(&words, "no %s is called %s; it has ", what, name);
  else
    scwi_text_format(&words, "holds several %ss, choose one of ", what);
  for (size_t i = 0; i < n; i++)
    scwi_text_format(&words, "%s%s", i ? ", " : "", names[i]);
  scw_status status = scwi_text_status(context, &words);
  if (!status)
    status = scwi_fail_at(context, SCW_BAD_INPUT,
                          bench->name ? bench->name : "the bench", 0, 0, "%s",
                          words.data);
  scwi_text_free(&words);
  return status;
}

static scw_status find_named(scw_context *context, const scw_bench *bench,
                             const char *what, const void *items, size_t n,
                             size_t size, const char *name, size_t *out) {
  const char **names;
  scw_status status = SCWI_ALLOCATE(context, n, &names);
  if (status) return status;
  for (size_t i = 0; i < n; i++) /* the name is the first member of both */
    names[i] = *(const char *const *)(const void *)((const char *)items +
                                                    i * size);
  *out = find(names, n, name);
  if (*out == n) status = not_found(context, bench, what, names, n, name);
  free((void *)names);
  return status;
}

scw_status scw_bench_find_rule(scw_context *context, const scw_bench *bench,
                               const char *name, const scw_rule **out) {
  size_t found;
  *out = NULL;
  scw_status status = find_named(context, bench, "rule", bench->rule,
                                 bench->n_rules, sizeof *bench->rule, name,
                                 &found);
  if (!status) *out = &bench->rule[found];
  return status;
}

scw_status scw_bench_find_score(scw_context *context, const scw_bench *bench,
                                const char *name, const scw_score_rule **out) {
  size_t found;
  *out = NULL;
  scw_status status = find_named(context, bench, "score", bench->score,
                                 bench->n_scores, sizeof *bench->score, name,
                                 &found);
  if (!status) *out = &bench->score[found];
  return status;
}
