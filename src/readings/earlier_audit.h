/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an earlier audit said, from its JSON. */
#ifndef SCWI_EARLIER_AUDIT_H
#define SCWI_EARLIER_AUDIT_H

#include "context.h"
#include "scatterwise/sink.h"

enum { SCWI_EARLIER_STATED = 8 };

/* The members of `stated`, in this order. */
extern const char *const scwi_earlier_stated_keys[SCWI_EARLIER_STATED];

typedef struct scwi_earlier_claim {
  char *id;
  char *verdict;
  double stated[SCWI_EARLIER_STATED]; /* NaN: null */
  double p;                           /* NaN: null */
  size_t faults;
} scwi_earlier_claim;

typedef struct scwi_earlier_audit {
  scwi_earlier_claim *claim;
  size_t n;
  double level;
  size_t judged;
} scwi_earlier_audit;

/* SCW_BAD_INPUT with line and column for anything but the JSON of an audit.
 * Free with scwi_earlier_audit_free, also after a failure. */
scw_status scwi_earlier_audit_read(scw_context *context, scw_source source,
                                   scwi_earlier_audit *out);
void scwi_earlier_audit_free(scwi_earlier_audit *audit);

#endif
