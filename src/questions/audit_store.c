/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "audit_inside.h"
#include "display_step.h"
#include "memory.h"
#include "moments.h"
#include "number_text.h"

typedef struct taker {
  scw_audit *audit;
  scwi_text context, id; /* of the row; their room is kept */
  scwi_text last;        /* the context before, which the next mostly is */
  int32_t last_label;
  bool last_bare;        /* it says nothing at all */
} taker;

/* Texts of a context are parted by this. */
#define PARTING "\x1F"

static scw_status add_text(scw_context *context, const scwi_claim_row *row,
                           scwi_span text, scwi_text *to) {
  for (size_t i = 0; i < text.length; i++)
    if ((unsigned char)text.text[i] < ' ' && text.text[i] != '\t')
      return scwi_claim_fail(context, row, NULL,
                             "a cell of this row holds a control character; "
                             "take it out");
  scwi_text_append(to, text.text, text.length);
  scwi_text_add(to, PARTING);
  return SCW_OK;
}

static void add_step(const scwi_printed *step, scwi_text *to) {
  char number[SCWI_NUMBER_SIZE];
  if (step->has) scwi_text_add(to, scwi_number_text(step->value, number));
  scwi_text_add(to, PARTING);
}

/* In the order of scwi_context_text. */
static scw_status context_of(scw_context *context, const scwi_claim_row *row,
                             scwi_text *to) {
  const scwi_span texts[] = {row->product, row->category, row->date, row->rule,
                             row->method, row->geometry, row->unit,
                             row->panel[0], row->panel[1], row->meter[0],
                             row->meter[1], row->session[0], row->session[1]};
  scw_status status = SCW_OK;
  scwi_text_clear(to);
  for (size_t i = 0; i < sizeof texts / sizeof *texts && !status; i++)
    status = add_text(context, row, texts[i], to);
  add_step(&row->step[0], to);
  add_step(&row->step[1], to);
  return status ? status : scwi_text_status(context, to);
}

/* Does the row say nothing of panel, meter, date ...? */
static bool is_bare(const scwi_claim_row *row) {
  size_t said = row->product.length + row->category.length + row->date.length +
                row->rule.length + row->method.length + row->geometry.length +
                row->unit.length;
  for (int side = 0; side < 2; side++)
    said += row->panel[side].length + row->meter[side].length +
            row->session[side].length + row->step[side].has;
  return said == 0;
}

static scw_status intern(scw_context *context, taker *t, uint32_t *out) {
  if (t->last.length != t->context.length ||
      memcmp(t->last.data, t->context.data, t->context.length) != 0) {
    scw_status status =
        scwi_labels_intern(context, &t->audit->contexts, t->context.data,
                           t->context.length, &t->last_label);
    scwi_text_clear(&t->last);
    scwi_text_append(&t->last, t->context.data, t->context.length);
    if (!status) status = scwi_text_status(context, &t->last);
    if (status) return status;
  }
  *out = (uint32_t)t->last_label;
  return SCW_OK;
}

static scw_stated stated(const scwi_printed *cell) {
  return (scw_stated){cell->has, cell->has ? cell->value : 0, cell->digits};
}

static scw_status take_scatter(scw_context *context, const scwi_claim_row *row,
                               scwi_record *out) {
  for (int side = 0; side < 2; side++) {
    const scwi_printed *sd = &row->sd[side], *se = &row->se[side];
    if (sd->has && se->has)
      return scwi_claim_fail(context, row, se,
                             "both an SD and a standard error; give one");
    out->standard_error = out->standard_error || se->has;
    out->scatter[side] = stated(se->has ? se : sd);
  }
  for (int side = 0; side < 2; side++)
    if (out->standard_error && row->sd[side].has)
      return scwi_claim_fail(context, row, &row->sd[side],
                             "an SD on one side and a standard error on the "
                             "other; give the same on both");
  return SCW_OK;
}

/* 10^-digits, for the digits that readings have. */
static double tick_of(int digits) {
  static const double ticks[] = {1, 0.1, 0.01, 0.001, 1e-4, 1e-5, 1e-6};
  return digits >= 0 && digits < 7 ? ticks[digits] : pow(10, -digits);
}

static void take_readings(const scwi_claim_row *row, scwi_record *out) {
  for (int side = 0; side < 2; side++) {
    const scwi_claim_readings *r = &row->readings[side];
    if (!r->n) continue;
    scwi_moments m = scwi_moments_of_sums(r->n, r->sum, r->spread,
                                          tick_of(r->digits));
    out->readings[side] = (scwi_record_side){m.n, m.mean, m.sd};
  }
}

static scw_status keep(scw_context *context, taker *t, size_t line,
                       const scwi_record *record) {
  scw_audit *audit = t->audit;
  scw_status status =
      SCWI_RESERVE(context, audit->n + 1, &audit->kept, &audit->capacity);
  if (status) return status;
  if (line > UINT32_MAX || audit->n >= UINT32_MAX)
    return scwi_fail(context, SCW_BAD_INPUT,
                     "more than 4294967295 lines; split the archive");
  scwi_kept *kept = &audit->kept[audit->n];
  *kept = (scwi_kept){NAN, NAN, audit->records.length, (uint32_t)line, 0};
  status = intern(context, t, &kept->context);
  if (status) return status;
  scwi_record_write(&audit->records, record);
  audit->n++;
  return scwi_text_status(context, &audit->records);
}

static scw_status take_row(void *user, scw_context *context,
                           const scwi_claim_row *row) {
  taker *t = user;
  scwi_record record = {.change = stated(&row->change),
                        .points = stated(&row->points)};
  for (int side = 0; side < 2; side++) {
    record.mean[side] = stated(&row->mean[side]);
    record.n[side] = row->n[side].has ? (size_t)row->n[side].value : 0;
  }
  scwi_text_clear(&t->id);
  scw_status status = add_text(context, row, row->id, &t->id);
  if (!status) status = scwi_text_status(context, &t->id);
  if (status) return status;
  t->id.data[t->id.length - 1] = 0; /* the parting */
  record.id = t->id.data;
  status = take_scatter(context, row, &record);
  take_readings(row, &record);
  bool bare = is_bare(row);
  if (!status && !(bare && t->last_bare))
    status = context_of(context, row, &t->context);
  t->last_bare = bare;
  return status ? status : keep(context, t, row->line, &record);
}

static scw_step step_of(const scw_audit *audit, const scwi_tick_scale *scale) {
  if (audit->settings.step.origin == SCW_STEP_GIVEN)
    return audit->settings.step;
  return scale->n ? scwi_display_step_of(scale->n, scale->different,
                                         scale->divisor, scale->digits)
                  : (scw_step){0, SCW_STEP_NOT_KNOWN};
}

scw_status scwi_audit_store(scw_context *context,
                            const scw_table_options *table, scw_source source,
                            scw_audit *audit) {
  taker t = {.audit = audit, .last_label = 0};
  scwi_tick_scale scale;
  const scwi_claims_ask ask = {.take = take_row, .user = &t};
  scw_status status = scwi_claims_read(context, table, source, &ask, &scale,
                                       &audit->account);
  if (!status) audit->step = step_of(audit, &scale);
  scwi_text_free(&t.context);
  scwi_text_free(&t.id);
  scwi_text_free(&t.last);
  return status;
}

void scwi_audit_record_of(const scw_audit *audit, size_t index,
                          scwi_record *out) {
  scwi_record_read(audit->records.data + audit->kept[index].at, out);
}
