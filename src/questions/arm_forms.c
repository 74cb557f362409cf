/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "arm_forms.h"

#include <stdlib.h>

#include "memory.h"
#include "read_again.h"

/* What every form is made from. */
typedef struct arm_maker {
  scw_context *context;
  const scw_table *table;
  const scwi_table_facts *facts;
  double divisor;
} arm_maker;

static scw_status make(const arm_maker *m, const size_t *before,
                       size_t n_before, const size_t *after, size_t n_after,
                       scwi_arm *out) {
  return scwi_arm_of(m->context, m->table, m->facts, before, n_before, after,
                     n_after, m->divisor, out);
}

/* The readings of a side without first pulls: where spots (or directions of a
 * spot) hold repeats, the first pull of each; else the side's very first. */
static scw_status without_first(scw_context *context, const scw_table *table,
                                const size_t *index, size_t n, size_t **out,
                                size_t *kept) {
  const scw_reading *readings = scw_table_readings(table);
  bool *first = NULL;
  size_t repeats = 0;
  *kept = 0;
  scw_status status = SCWI_ALLOCATE(context, n, out);
  if (!status) status = SCWI_ALLOCATE(context, n, &first);
  for (size_t i = 0; i < n && !status; i++) {
    const scw_reading *mine = &readings[index[i]];
    first[i] = true;
    for (size_t j = 0; j < i && first[i]; j++)
      first[i] = readings[index[j]].spot != mine->spot ||
                 readings[index[j]].panel != mine->panel ||
                 readings[index[j]].direction != mine->direction;
    repeats += !first[i];
  }
  for (size_t i = 0; i < n && !status; i++)
    if (repeats ? !first[i] : i > 0) (*out)[(*kept)++] = index[i];
  free(first);
  return status;
}

static scw_status make_worn_in(const arm_maker *m,
                               const scwi_read_again *before,
                               const scwi_read_again *after, scwi_arm *out) {
  size_t *b = NULL, *a = NULL, n_b = 0, n_a = 0;
  scw_status status = without_first(m->context, m->table, before->first,
                                    before->n_first, &b, &n_b);
  if (!status)
    status = without_first(m->context, m->table, after->first, after->n_first,
                           &a, &n_a);
  bool left = n_a && (n_b || before->n_first == 0);
  if (!status && left) status = make(m, b, n_b, a, n_a, out);
  free(b);
  free(a);
  return status;
}

static scw_status make_forms(const arm_maker *m, const scwi_read_again *before,
                             const scwi_read_again *after, bool friction,
                             scwi_arm_forms *out) {
  scw_status status = make(m, before->first, before->n_first, after->first,
                           after->n_first, &out->first);
  out->replaced = before->replaced + after->replaced;
  if (!status && out->replaced)
    status = make(m, before->again, before->n_again, after->again,
                  after->n_again, &out->again);
  if (!status && friction)
    status = make_worn_in(m, before, after, &out->worn_in);
  return status;
}

scw_status scwi_arm_forms_of(scw_context *context, const scw_table *table,
                             const scwi_table_facts *facts,
                             const scwi_product *product, double divisor,
                             bool friction, scwi_arm_forms *out) {
  arm_maker m = {context, table, facts, divisor};
  scwi_read_again before = {0}, after = {0};
  *out = (scwi_arm_forms){0};
  scw_status status = scwi_read_again_of(context, table, product->before,
                                         product->n_before, &before);
  if (!status)
    status = scwi_read_again_of(context, table, product->after,
                                product->n_after, &after);
  if (!status) status = make_forms(&m, &before, &after, friction, out);
  scwi_read_again_free(&before);
  scwi_read_again_free(&after);
  if (status) scwi_arm_forms_free(out);
  return status;
}

void scwi_arm_forms_shift(scwi_arm_forms *forms, double offset) {
  scwi_arm_shift(&forms->first, offset);
  scwi_arm_shift(&forms->worn_in, offset);
  scwi_arm_shift(&forms->again, offset);
}

void scwi_arm_forms_free(scwi_arm_forms *forms) {
  scwi_arm_free(&forms->first);
  scwi_arm_free(&forms->worn_in);
  scwi_arm_free(&forms->again);
  *forms = (scwi_arm_forms){0};
}
