/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The forms in which one product's readings are looked at: as first taken; for
 * friction without first pulls; with readings taken again in place of those
 * they replace. */
#ifndef SCWI_ARM_FORMS_H
#define SCWI_ARM_FORMS_H

#include "arm.h"
#include "products.h"

typedef struct scwi_arm_forms {
  scwi_arm first;
  scwi_arm worn_in; /* empty without friction, or where nothing is left */
  scwi_arm again;   /* empty unless readings were taken again */
  size_t replaced;
} scwi_arm_forms;

scw_status scwi_arm_forms_of(scw_context *context, const scw_table *table,
                             const scwi_table_facts *facts,
                             const scwi_product *product, double divisor,
                             bool friction, scwi_arm_forms *out);
/* Adds `offset` to all values of all forms. */
void scwi_arm_forms_shift(scwi_arm_forms *forms, double offset);
void scwi_arm_forms_free(scwi_arm_forms *forms);

#endif
