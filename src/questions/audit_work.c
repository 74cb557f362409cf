/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What re-measuring would settle most cheaply. */
#include <stdlib.h>

#include "audit_inside.h"
#include "figure.h"
#include "memory.h"

/* Beyond so many undecided claims nobody reads a list. */
enum { LOOKED_AT = 2000 };

static int cheapest_first(const void *left, const void *right) {
  const scw_audit_work *a = left, *b = right;
  double x = a->settle.more.value, y = b->settle.more.value;
  if (x != y) return x < y ? -1 : 1;
  return (a->claim > b->claim) - (a->claim < b->claim);
}

scw_status scwi_audit_work(scw_context *context, scw_audit *audit) {
  size_t capacity = 0, looked_at = 0;
  scw_status status = SCW_OK;
  for (size_t i = 0; i < audit->n && !status && looked_at < LOOKED_AT; i++) {
    scw_claim claim;
    if (scw_audit_verdict(audit, i) != SCW_CLAIM_WITHIN) continue;
    looked_at++;
    status = scw_audit_claim(context, audit, i, &claim);
    if (status) break;
    if (scwi_present(claim.settle.more)) {
      status = SCWI_RESERVE(context, audit->n_work + 1, &audit->work, &capacity);
      if (!status)
        audit->work[audit->n_work++] = (scw_audit_work){i, claim.settle};
    }
    scw_claim_free(&claim);
  }
  if (audit->n_work)
    qsort(audit->work, audit->n_work, sizeof *audit->work, cheapest_first);
  return status;
}
