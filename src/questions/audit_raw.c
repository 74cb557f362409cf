/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Raw readings for claims: their products are the claims' ids. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "audit_inside.h"
#include "figure.h"
#include "memory.h"

/* What the readings of one product say, put into the record. */
static void take_change(const scw_change_report *change, scwi_record *record) {
  const scw_set_report *sides[] = {&change->before, &change->after};
  for (int side = 0; side < 2; side++) {
    const scw_summary *s = &sides[side]->summary;
    record->readings[side] = (scwi_record_side){
        s->n, s->mean.value, scwi_present(s->sd) ? s->sd.value : 0};
  }
  if (change->design != SCW_PAIRED ||
      !scwi_present(change->change.standard_uncertainty))
    return;
  record->paired = true;
  record->paired_change = change->change.estimate.value;
  record->paired_u = change->change.standard_uncertainty.value;
  record->paired_df =
      scwi_present(change->change.df) ? change->change.df.value : INFINITY;
}

/* The claim of that id, else the only one of that product; n for none. */
static size_t claim_of(const scw_audit *audit, const char *product) {
  size_t found = audit->n;
  for (size_t i = 0; i < audit->n; i++) {
    scwi_record record;
    scwi_audit_record_of(audit, i, &record);
    if (*record.id ? !strcmp(record.id, product) : false) return i;
    const char *key =
        scwi_labels_text(&audit->contexts, (int32_t)audit->kept[i].context);
    size_t length = strcspn(key, "\x1F");
    if (strlen(product) == length && !strncmp(key, product, length)) {
      if (found != audit->n && !*record.id) return audit->n;
      if (!*record.id) found = i;
    }
  }
  return found;
}

/* A context of which nothing is known but product and unit. */
static scw_status bare_context(scw_context *context, scw_audit *audit,
                               const char *product, const char *unit,
                               const char *geometry, uint32_t *out) {
  scwi_text key = {0};
  int32_t label = 0;
  for (int i = 0; i < SCWI_CONTEXT_TEXTS; i++)
    scwi_text_format(&key, "%s\x1F",
                     i == SCWI_OF_PRODUCT    ? product
                     : i == SCWI_OF_UNIT     ? unit
                     : i == SCWI_OF_GEOMETRY ? geometry
                                             : "");
  scw_status status = scwi_text_status(context, &key);
  if (!status)
    status = scwi_labels_intern(context, &audit->contexts, key.data, key.length,
                                &label);
  *out = (uint32_t)label;
  scwi_text_free(&key);
  return status;
}

static scw_status add_claim(scw_context *context, scw_audit *audit,
                            const scw_change_report *change) {
  const scw_input *input = scw_table_input(audit->options.readings, 0);
  scwi_record record = {.id = change->product};
  scw_status status =
      SCWI_RESERVE(context, audit->n + 1, &audit->kept, &audit->capacity);
  if (status) return status;
  scwi_kept *kept = &audit->kept[audit->n];
  size_t line = change->after.summary.n ? change->after.lines[0] : 0;
  *kept = (scwi_kept){NAN, NAN, audit->records.length, (uint32_t)line, 0};
  status = bare_context(context, audit, change->product, change->unit,
                        input->geometry, &kept->context);
  if (status) return status;
  take_change(change, &record);
  scwi_record_write(&audit->records, &record);
  audit->n++;
  return scwi_text_status(context, &audit->records);
}

static scw_status join(scw_context *context, scw_audit *audit,
                       const scw_change_report *change) {
  size_t i = audit->account ? claim_of(audit, change->product) : audit->n;
  scwi_record record;
  if (i == audit->n && !audit->account) return add_claim(context, audit, change);
  if (i == audit->n)
    return scwi_fail_at(context, SCW_BAD_INPUT,
                        scw_table_input(audit->options.readings, 0)->name,
                        change->after.summary.n ? change->after.lines[0] : 0, 0,
                        "readings of '%s', which is neither the id nor the "
                        "product of one claim in the archive",
                        change->product);
  scwi_audit_record_of(audit, i, &record);
  take_change(change, &record);
  /* the record grows: it is written anew, its id copied first */
  char *id;
  scw_status status =
      scwi_copy_text(context, record.id, strlen(record.id), &id);
  if (status) return status;
  record.id = id;
  audit->kept[i].at = audit->records.length;
  scwi_record_write(&audit->records, &record);
  free(id);
  return scwi_text_status(context, &audit->records);
}

scw_status scwi_audit_take_raw(scw_context *context, scw_audit *audit) {
  scw_change_result changes;
  scw_status status = scw_change(context, audit->options.readings,
                                 &audit->settings, NULL, &changes);
  if (status) return status;
  for (size_t i = 0; i < changes.n_changes && !status; i++)
    status = join(context, audit, &changes.changes[i]);
  scw_change_result_free(&changes);
  return status;
}
