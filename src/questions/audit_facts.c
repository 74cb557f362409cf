/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What holds for all claims of one panel, meter, method, rule ... */
#include <stdlib.h>
#include <string.h>

#include "audit_inside.h"
#include "calendar.h"
#include "decimal.h"
#include "memory.h"

static scw_status take_apart(scw_context *context, const char *key,
                             scwi_facts *out) {
  scw_status status = scwi_copy_text(context, key, strlen(key), &out->memory);
  char *at = out->memory;
  for (int i = 0; i < SCWI_CONTEXT_TEXTS && !status; i++) {
    char *end = strchr(at, '\x1F');
    *end = 0;
    out->text[i] = at;
    at = end + 1;
  }
  return status;
}

static bool both_differ(const scwi_facts *facts, scwi_context_text before) {
  const char *a = facts->text[before], *b = facts->text[before + 1];
  return *a && *b && strcmp(a, b);
}

static double step_of(const scw_audit *audit, const char *text) {
  scwi_decimal decimal;
  if (*text && scwi_decimal_read(text, strlen(text), '.', &decimal) ==
                   SCWI_DECIMAL_OK)
    return decimal.value;
  return audit->settings.step.origin == SCW_STEP_GIVEN
             ? audit->settings.step.size
             : 0;
}

/* The line of the first claim of that context, for messages. */
static size_t line_of(const scw_audit *audit, size_t label) {
  for (size_t i = 0; i < audit->n; i++)
    if (audit->kept[i].context == label) return audit->kept[i].line;
  return 0;
}

static scw_status find_rule(scw_context *context, const scw_audit *audit,
                            size_t label, scwi_facts *facts) {
  const scw_bench *bench = audit->options.bench;
  const char *name = facts->text[SCWI_OF_RULE];
  bool in_file = *name;
  if (!in_file) name = audit->options.rule ? audit->options.rule : "";
  if (!*name && (!bench || bench->n_rules != 1)) return SCW_OK;
  if (!bench) {
    if (in_file) return SCW_OK; /* a remark until a bench gives it meaning */
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a rule was named, but no bench file that holds it");
  }
  scw_status status = scw_bench_find_rule(context, bench, name, &facts->rule);
  if (status != SCW_BAD_INPUT || !in_file) return status;
  return scwi_fail_at(context, SCW_BAD_INPUT,
                      scw_table_input(audit->account, 0)->name,
                      line_of(audit, label), 0,
                      "the rule '%s' is none of the bench file's", name);
}

static bool said_otherwise(const char *one, const char *other) {
  return one && *one && other && *other && strcmp(one, other);
}

static scw_status find_scatter(scw_context *context, scw_audit *audit) {
  scw_scatter_wanted wanted = audit->options.scatter;
  if (!audit->options.scatter_bench) return SCW_OK;
  const scw_input *input =
      audit->account ? scw_table_input(audit->account, 0) : NULL;
  const scwi_facts *first = audit->n_facts ? &audit->facts[0] : NULL;
  if (!wanted.unit && input && *input->unit) wanted.unit = input->unit;
  if (!wanted.unit && first && *first->text[SCWI_OF_UNIT])
    wanted.unit = first->text[SCWI_OF_UNIT];
  if (!wanted.geometry && input && *input->geometry)
    wanted.geometry = input->geometry;
  if (!wanted.geometry && first && *first->text[SCWI_OF_GEOMETRY])
    wanted.geometry = first->text[SCWI_OF_GEOMETRY];
  if (!wanted.meter && first && *first->text[SCWI_OF_METER])
    wanted.meter = first->text[SCWI_OF_METER];
  scw_status status = scw_bench_find_scatter(context, audit->options.scatter_bench,
                                             &wanted, &audit->scatter);
  if (!status)
    audit->bank = (scwi_bank){audit->scatter->sd, audit->scatter->df};
  return status;
}

/* The bench's scatter is never used across units, geometries or meters. */
static bool fits_scatter(const scw_audit *audit, const scwi_facts *facts) {
  const scw_bench_scatter *s = audit->scatter;
  return s && !said_otherwise(s->unit, facts->text[SCWI_OF_UNIT]) &&
         !said_otherwise(s->geometry, facts->text[SCWI_OF_GEOMETRY]) &&
         !said_otherwise(s->meter, facts->text[SCWI_OF_METER]);
}

static scw_status fill(scw_context *context, const scw_audit *audit,
                       size_t label, scwi_facts *out) {
  scw_status status =
      take_apart(context, scwi_labels_text(&audit->contexts, (int32_t)label),
                 out);
  if (status) return status;
  const char *old = audit->options.old_method;
  out->step[0] = step_of(audit, out->text[SCWI_OF_STEP]);
  out->step[1] = step_of(audit, out->text[SCWI_OF_STEP_AFTER]);
  out->panels_differ = both_differ(out, SCWI_OF_PANEL);
  out->meters_differ = both_differ(out, SCWI_OF_METER);
  out->sessions_differ = both_differ(out, SCWI_OF_SESSION);
  out->convert = old && !strcmp(out->text[SCWI_OF_METHOD], old);
  out->has_day =
      scwi_date_read(out->text[SCWI_OF_DATE], &out->day) == SCWI_DATE_OK;
  return find_rule(context, audit, label, out);
}

static scw_status check_old_method(scw_context *context,
                                   const scw_audit *audit) {
  const char *old = audit->options.old_method;
  bool found = !old;
  for (size_t i = 0; i < audit->n_facts; i++)
    found = found || audit->facts[i].convert;
  return found ? SCW_OK
               : scwi_fail(context, SCW_BAD_ARGUMENT,
                           "no claim was read by the method '%s', for which a "
                           "conversion was given",
                           old);
}

/* A rule that was named is one of the bench, whether a claim needs it or not. */
static scw_status check_rule(scw_context *context, const scw_audit *audit) {
  const scw_audit_options *options = &audit->options;
  const scw_rule *rule;
  return options->rule && *options->rule && options->bench
             ? scw_bench_find_rule(context, options->bench, options->rule,
                                   &rule)
             : SCW_OK;
}

scw_status scwi_audit_facts(scw_context *context, scw_audit *audit) {
  audit->n_facts = audit->contexts.n;
  scw_status status = SCWI_ALLOCATE(context, audit->n_facts, &audit->facts);
  if (status) audit->n_facts = 0;
  if (!status) status = check_rule(context, audit);
  for (size_t i = 0; i < audit->n_facts && !status; i++)
    status = fill(context, audit, i, &audit->facts[i]);
  if (!status) status = check_old_method(context, audit);
  if (!status) status = find_scatter(context, audit);
  for (size_t i = 0; i < audit->n_facts && !status; i++)
    audit->facts[i].bank = fits_scatter(audit, &audit->facts[i]);
  return status;
}

void scwi_audit_facts_free(scw_audit *audit) {
  for (size_t i = 0; i < audit->n_facts; i++) free(audit->facts[i].memory);
  free(audit->facts);
}
