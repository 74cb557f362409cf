/* SPDX-License-Identifier: GPL-3.0-or-later */
/* rules[] and scores[]: how quantities become points. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "reading.h"
#include "rule.h"

static const char *const rule_keys[] = {
    "name", "about", "kind",   "reading", "unit", "baseline", "multiplier",
    "points", "per", "offset", "low",     "high", "rungs",    "rounding"};
static const char *const rung_keys[] = {"passes", "points"};
static const char *const rounding_keys[] = {"mean", "difference", "points",
                                            "ties"};
static const char *const score_keys[] = {"name", "about",    "relative_to",
                                         "parts", "low", "high", "rounding"};
static const char *const part_keys[] = {"rule", "weight"};

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

/* Sums of weighted points of anything that is measured stay numbers. */
#define LARGEST 1e12

/* The number, or *out as it is where it is left out. */
static scw_status take_number(const scwi_fields *fields, const char *key,
                              bool required, double *out, bool *given) {
  const scwi_json_value *found;
  scw_status status =
      scwi_field(fields, key, SCWI_JSON_NUMBER, required, &found);
  bool has = !status && found;
  if (given) *given = has;
  if (!has) return status;
  *out = found->number;
  return fabs(*out) <= LARGEST
             ? SCW_OK
             : scwi_field_fails(fields, key,
                                "must be a number from -1e12 to 1e12");
}

static scw_status refuse(const scwi_fields *fields, const char *key,
                         const char *words) {
  return scwi_json_find(fields->object, key)
             ? scwi_field_fails(fields, key, words)
             : SCW_OK;
}

static scw_status take_caps(const scwi_fields *fields, double *low,
                            double *high) {
  *low = -INFINITY;
  *high = INFINITY;
  scw_status status = take_number(fields, "low", false, low, NULL);
  if (!status) status = take_number(fields, "high", false, high, NULL);
  if (!status && !(*low < *high))
    status = scwi_field_fails(fields, "low", "must be below \"high\"");
  return status;
}

static scw_status take_stage(const scwi_fields *stages, const char *key,
                             double *out) {
  bool given;
  scw_status status = take_number(stages, key, false, out, &given);
  if (!status && given && !(*out > 0))
    status = scwi_field_fails(stages, key,
                              "must be above 0, the step that is rounded to; "
                              "leave it out where nothing is rounded");
  return status;
}

/* `sums`: only points are rounded. */
static scw_status take_rounding(const scwi_fields *fields, bool sums,
                                scw_rounding *out) {
  const scwi_json_value *object;
  scwi_fields stages;
  const char *ties = "";
  *out = (scw_rounding){.ties = SCW_TIES_AWAY};
  scw_status status =
      scwi_field(fields, "rounding", SCWI_JSON_OBJECT, false, &object);
  if (status || !object) return status;
  status = scwi_fields_of(fields->context, fields->name, "the rounding", object,
                          rounding_keys + (sums ? 2 : 0),
                          COUNT(rounding_keys) - (sums ? 2 : 0), &stages);
  if (!status) status = take_stage(&stages, "mean", &out->mean);
  if (!status) status = take_stage(&stages, "difference", &out->difference);
  if (!status) status = take_stage(&stages, "points", &out->points);
  if (!status) status = scwi_field_text(&stages, "ties", true, &ties);
  while (!status && out->ties < SCW_TIES_END &&
         strcmp(ties, scw_ties_code(out->ties)))
    out->ties = (scw_ties)(out->ties + 1);
  if (!status && out->ties == SCW_TIES_END)
    status = scwi_field_fails(&stages, "ties",
                              "must be away (from zero) or even: what becomes "
                              "of a value halfway between two steps");
  return status;
}

static scw_status take_kind(const scwi_fields *fields, scw_rule_kind *out) {
  const char *word;
  scw_status status = scwi_field_text(fields, "kind", true, &word);
  *out = (scw_rule_kind)0;
  while (!status && *out < SCW_RULE_KIND_END &&
         strcmp(word, scw_rule_kind_code(*out)))
    *out = (scw_rule_kind)(*out + 1);
  if (!status && *out == SCW_RULE_KIND_END)
    status = scwi_field_fails(fields, "kind",
                              "must be difference, mean, percent, marks or "
                              "ladder");
  return status;
}

/* A number that is there and is not 0 (not above 0, for `positive`). */
static scw_status take_factor(const scwi_fields *fields, const char *key,
                              bool positive, double *out, bool *given) {
  scw_status status = take_number(fields, key, false, out, given);
  if (status || !*given || *out > 0 || (*out < 0 && !positive)) return status;
  return scwi_field_fails(fields, key,
                          positive ? "must be above 0" : "must not be 0");
}

/* "multiplier", or "points" for every "per". */
static scw_status take_slope(const scwi_fields *fields, scw_rule *out) {
  bool multiplier, points, per;
  double factor = 1;
  out->points = out->per = 1;
  scw_status status =
      take_factor(fields, "multiplier", false, &factor, &multiplier);
  if (!status)
    status = take_factor(fields, "points", false, &out->points, &points);
  if (!status) status = take_factor(fields, "per", true, &out->per, &per);
  if (status) return status;
  if (multiplier && (points || per))
    return scwi_field_fails(fields, "multiplier",
                            "says the same as \"points\" and \"per\"; give "
                            "one of them");
  if (points != per)
    return scwi_field_fails(fields, points ? "points" : "per",
                            "needs the other one: so many \"points\" for "
                            "every so much, \"per\"");
  if (!multiplier && !points && out->kind != SCW_RULE_MARKS)
    return scwi_field_fails(fields, "name",
                            "is of a rule that does not say what one unit is "
                            "worth; give \"multiplier\", or \"points\" and "
                            "\"per\"");
  if (multiplier) out->points = factor;
  return SCW_OK;
}

static scw_status take_rung(const scwi_fields *fields, const scw_rung *below,
                            scw_rung *out) {
  scw_status status = take_number(fields, "passes", true, &out->passes, NULL);
  if (!status) status = take_number(fields, "points", true, &out->points, NULL);
  if (status) return status;
  if (!(out->passes > (below ? below->passes : 0)))
    return scwi_field_fails(fields, "passes",
                            "must rise from rung to rung, from above 0");
  return below && out->points < below->points
             ? scwi_field_fails(fields, "points",
                                "must not fall from rung to rung")
             : SCW_OK;
}

static scw_status take_rungs(const scwi_fields *fields, scw_rung **made,
                             scw_rule *out) {
  const scwi_json_value *list;
  scw_status status = scwi_field(fields, "rungs", SCWI_JSON_ARRAY, true, &list);
  if (status) return status;
  if (list->n < 1 || list->n > SCWI_BENCH_RUNGS)
    return scwi_field_fails(fields, "rungs", "must be 1 to 1000");
  status = SCWI_ALLOCATE(fields->context, list->n, made);
  size_t n = 0;
  for (const scwi_json_value *v = list->first; v && !status; v = v->next, n++) {
    scwi_fields rung;
    status = scwi_fields_of(fields->context, fields->name, "a rung", v,
                            rung_keys, COUNT(rung_keys), &rung);
    if (!status)
      status = take_rung(&rung, n ? *made + n - 1 : NULL, *made + n);
  }
  out->rung = *made;
  out->n_rungs = n;
  return status;
}

/* What belongs to ladders only, and what not to them. */
static scw_status refuse_strangers(const scwi_fields *fields,
                                   scw_rule_kind kind) {
  static const char *const not_ladder[] = {"multiplier", "points", "per",
                                           "rounding"};
  scw_status status = SCW_OK;
  if (kind != SCW_RULE_LADDER)
    status = refuse(fields, "rungs", "belong to a ladder");
  for (size_t i = 0; i < COUNT(not_ladder) && kind == SCW_RULE_LADDER && !status;
       i++)
    status = refuse(fields, not_ladder[i],
                    "has no meaning for a ladder, whose rungs carry the points");
  if (!status && kind != SCW_RULE_DIFFERENCE && kind != SCW_RULE_PERCENT)
    status = refuse(fields, "baseline",
                    "belongs to a difference or a percent, which have a side "
                    "before");
  return status;
}

static scw_status take_texts(const scwi_fields *fields, scw_rule *out) {
  scw_status status = scwi_field_text(fields, "about", false, &out->about);
  if (!status) status = scwi_field_text(fields, "reading", true, &out->reading);
  if (!status) status = scwi_field_text(fields, "unit", false, &out->unit);
  if (!status)
    status = scwi_field_text(fields, "baseline", false, &out->baseline);
  return status;
}

static scw_status take_rule(const scwi_fields *fields, scw_bench *bench) {
  scw_rule rule = {.line = fields->object->place.line};
  scw_rung *rungs = NULL;
  scw_status status = scwi_field_text(fields, "name", true, &rule.name);
  for (size_t i = 0; i < bench->n_rules && !status; i++)
    if (!strcmp(bench->rule[i].name, rule.name))
      status = scwi_field_fails(fields, "name", "is that of an earlier rule");
  if (!status) status = take_kind(fields, &rule.kind);
  if (!status) status = refuse_strangers(fields, rule.kind);
  if (!status) status = take_texts(fields, &rule);
  if (!status && rule.kind != SCW_RULE_LADDER)
    status = take_slope(fields, &rule);
  if (!status && rule.kind == SCW_RULE_LADDER)
    status = take_rungs(fields, &rungs, &rule);
  if (!status) status = take_number(fields, "offset", false, &rule.offset, NULL);
  if (!status) status = take_caps(fields, &rule.low, &rule.high);
  if (!status) status = take_rounding(fields, false, &rule.rounding);
  if (!status) status = scwi_rule_append(fields->context, bench, &rule);
  free(rungs);
  return status;
}

static scw_status find_rule(const scwi_fields *fields, const scw_bench *bench,
                            const scw_score_part *part, size_t n, size_t *out) {
  const char *name;
  scw_status status = scwi_field_text(fields, "rule", true, &name);
  if (status) return status;
  *out = 0;
  while (*out < bench->n_rules && strcmp(bench->rule[*out].name, name)) ++*out;
  if (*out == bench->n_rules)
    return scwi_field_fails(fields, "rule",
                            "must be the name of one of the file's rules");
  for (size_t i = 0; i < n; i++)
    if (part[i].rule == *out)
      return scwi_field_fails(fields, "rule", "stands in this score twice");
  return SCW_OK;
}

static scw_status take_parts(const scwi_fields *fields, const scw_bench *bench,
                             scw_score_part **made, size_t *n) {
  const scwi_json_value *list;
  scw_status status = scwi_field(fields, "parts", SCWI_JSON_ARRAY, true, &list);
  *n = 0;
  if (status) return status;
  if (list->n < 1 || list->n > SCWI_BENCH_RULES)
    return scwi_field_fails(fields, "parts", "must be 1 to 200");
  status = SCWI_ALLOCATE(fields->context, list->n, made);
  for (const scwi_json_value *v = list->first; v && !status; v = v->next) {
    scwi_fields part;
    bool given;
    scw_score_part *to = *made + *n;
    to->weight = 1;
    status = scwi_fields_of(fields->context, fields->name, "a part", v,
                            part_keys, COUNT(part_keys), &part);
    if (!status) status = find_rule(&part, bench, *made, *n, &to->rule);
    if (!status) status = take_factor(&part, "weight", false, &to->weight, &given);
    ++*n;
  }
  return status;
}

static scw_status take_category(const scwi_fields *fields, bool *out) {
  const char *word;
  scw_status status = scwi_field_text(fields, "relative_to", false, &word);
  *out = *word;
  return status || !*word || !strcmp(word, "category")
             ? status
             : scwi_field_fails(fields, "relative_to",
                                "must be category, or be left out");
}

static scw_status take_score(const scwi_fields *fields, scw_bench *bench) {
  scw_score_rule score = {.line = fields->object->place.line};
  scw_score_part *parts = NULL;
  scw_status status = scwi_field_text(fields, "name", true, &score.name);
  for (size_t i = 0; i < bench->n_scores && !status; i++)
    if (!strcmp(bench->score[i].name, score.name))
      status = scwi_field_fails(fields, "name", "is that of an earlier score");
  if (!status) status = scwi_field_text(fields, "about", false, &score.about);
  if (!status) status = take_category(fields, &score.within_category);
  if (!status) status = take_parts(fields, bench, &parts, &score.n_parts);
  if (!status) status = take_caps(fields, &score.low, &score.high);
  if (!status) status = take_rounding(fields, true, &score.rounding);
  score.part = parts;
  if (!status) status = scwi_score_append(fields->context, bench, &score);
  free(parts);
  return status;
}

typedef scw_status (*take_one)(const scwi_fields *fields, scw_bench *bench);

static scw_status take_list(const scwi_fields *file, const char *key,
                            const char *what, const char *const *keys, size_t n,
                            take_one take, scw_bench *out) {
  const scwi_json_value *list;
  scw_status status = scwi_field(file, key, SCWI_JSON_ARRAY, false, &list);
  if (status || !list) return status;
  if (list->n > SCWI_BENCH_RULES)
    return scwi_field_fails(file, key, "must be 200 at the most");
  for (const scwi_json_value *v = list->first; v && !status; v = v->next) {
    scwi_fields fields;
    status = scwi_fields_of(file->context, file->name, what, v, keys, n,
                            &fields);
    if (!status) status = take(&fields, out);
  }
  return status;
}

scw_status scwi_read_rules(const scwi_fields *file, scw_bench *out) {
  scw_status status = take_list(file, "rules", "a rule", rule_keys,
                                COUNT(rule_keys), take_rule, out);
  return status ? status
                : take_list(file, "scores", "a score", score_keys,
                            COUNT(score_keys), take_score, out);
}
