/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "family.h"

#include <stdlib.h>

#include "figure.h"
#include "memory.h"
#include "multiplicity.h"

static scw_status adjust_p(scw_context *context, scw_change_result *out) {
  double *p = NULL;
  scw_status status = SCWI_ALLOCATE(context, out->n_changes, &p);
  if (status) return status;
  for (size_t i = 0; i < out->n_changes; i++) {
    scw_figure own = out->changes[i].change.p;
    p[i] = scwi_present(own) ? own.value : 1;
  }
  status = scwi_holm(context, p, out->n_changes);
  for (size_t i = 0; i < out->n_changes && !status; i++) {
    scw_figure own = out->changes[i].change.p;
    out->changes[i].family_p =
        scwi_present(own) ? scwi_figure(p[i]) : scwi_missing(own.state);
  }
  free(p);
  return status;
}

scw_status scwi_family_adjust(scw_context *context, scw_change_result *out,
                              scwi_notes *notes) {
  if (out->n_changes < 2) return SCW_OK;
  scw_status status = adjust_p(context, out);
  if (status) return status;
  return scwi_note(context, notes, "family",
                   "%zu products were asked about at once. Verdicts are read "
                   "from the family intervals (Bonferroni), which hold for all "
                   "%zu together; Holm's p, which does too, can be a little "
                   "sharper than its interval.",
                   out->n_changes, out->n_changes);
}
