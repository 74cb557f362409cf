/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a reader of an audit must be told. */
#include <string.h>

#include "audit_inside.h"
#include "figure.h"
#include "words.h"

static scw_status note_family(scw_context *context, scw_audit *audit) {
  const scw_audit_summary *s = &audit->summary;
  scwi_text text = {0};
  if (s->judged < 2) return SCW_OK;
  scwi_text_format(&text, "%zu claims are judged together. Were none of their "
                          "changes real, about ",
                   s->judged);
  scwi_say_digits(&text, s->expected_by_chance.value, 2, NULL);
  scwi_text_add(&text, " would pass on their own by chance; ");
  scwi_text_format(&text, "%zu did. \"Beyond\" is therefore what the "
                          "Benjamini-Hochberg q allows: of the claims so "
                          "called no more than ",
                   s->alone);
  scwi_say_percent(&text, 1 - audit->settings.level);
  scwi_text_add(&text, " are expected to be wrong. Holm's p, which guards "
                       "every single one of them, stands beside it.");
  return scwi_note_take(context, &audit->notes, "family", &text);
}

static size_t count(const scw_audit *audit,
                    bool (*is)(const scwi_facts *facts)) {
  size_t n = 0;
  for (size_t i = 0; i < audit->n; i++) n += is(scwi_facts_of(audit, i));
  return n;
}

static bool sessions_differ(const scwi_facts *facts) {
  return facts->sessions_differ;
}
static bool is_converted(const scwi_facts *facts) {
  return facts->convert;
}

static scw_status note_sessions(scw_context *context, scw_audit *audit) {
  size_t n = count(audit, sessions_differ);
  if (!n) return SCW_OK;
  return scwi_note(context, &audit->notes, "sessions_differ",
                   "%zu of the claims compare readings of different sessions: "
                   "what the meter or the room did between them is not in the "
                   "scatter.",
                   n);
}

static scw_status note_converted(scw_context *context, scw_audit *audit) {
  size_t n = count(audit, is_converted);
  if (!n) return SCW_OK;
  return scwi_note(context, &audit->notes, "converted",
                   "%zu claims were read by '%s' and are converted; the "
                   "conversion is taken as exact, its own uncertainty (see "
                   "bridge) is not in the intervals.",
                   n, audit->options.old_method);
}

/* Two methods in one archive and no bridge between them. */
static scw_status note_methods(scw_context *context, scw_audit *audit) {
  const char *first = NULL, *other = NULL;
  for (size_t i = 0; i < audit->n_facts; i++) {
    const char *method = audit->facts[i].text[SCWI_OF_METHOD];
    if (audit->facts[i].convert) continue;
    if (!first) first = method;
    if (strcmp(first, method)) other = method;
  }
  if (!other) return SCW_OK;
  return scwi_note(context, &audit->notes, "method_changed",
                   "The archive holds more than one test method (such as '%s' "
                   "and '%s'). Claims are never ranked across methods; run "
                   "both on the same panels (bridge) and give the conversion.",
                   first, other);
}

/* A mean is stated, and nobody says in which steps it was read. */
static bool lacks_step(const scw_audit *audit, size_t i) {
  const scwi_facts *facts = scwi_facts_of(audit, i);
  scwi_record record;
  scwi_audit_record_of(audit, i, &record);
  for (int side = 0; side < 2; side++)
    if (record.mean[side].has && !record.readings[side].n &&
        !(facts->step[side] > 0))
      return true;
  return false;
}

static scw_status note_steps(scw_context *context, scw_audit *audit) {
  size_t n = 0;
  for (size_t i = 0; i < audit->n; i++) n += lacks_step(audit, i);
  if (!n) return SCW_OK;
  return scwi_note(context, &audit->notes, "step_unknown",
                   "The display step of %zu %s is not known, so whether n "
                   "readings can have the means and SDs stated was not looked "
                   "at, and the steps are not in the intervals; add a column "
                   "step, or give --step.",
                   n, n == 1 ? "claim" : "claims");
}

static scw_status note_bank(scw_context *context, scw_audit *audit) {
  scwi_text text = {0};
  if (!audit->scatter) return SCW_OK;
  scwi_text_add(&text, "Claims without a scatter of their own are judged on "
                       "that of the bench: SD ");
  scwi_say_digits(&text, audit->scatter->sd, 3, audit->scatter->unit);
  scwi_text_format(&text, " of %s, ", audit->scatter->panel_type);
  scwi_say_digits(&text, audit->scatter->df, 3, NULL);
  scwi_text_add(&text, " degrees of freedom. It is that of single readings "
                       "over such panels today; what panels of the past were "
                       "like, nobody wrote down.");
  return scwi_note_take(context, &audit->notes, "scatter_bank", &text);
}

scw_status scwi_audit_make_notes(scw_context *context, scw_audit *audit) {
  scw_status status = note_family(context, audit);
  if (!status) status = note_bank(context, audit);
  if (!status) status = note_sessions(context, audit);
  if (!status) status = note_methods(context, audit);
  if (!status) status = note_converted(context, audit);
  if (!status) status = note_steps(context, audit);
  if (!status)
    status = scwi_note(context, &audit->notes, "one_panel",
                       "Readings of one panel describe that panel and that "
                       "application. An audit judges the figures given, not "
                       "the product and not the person.");
  return status;
}
