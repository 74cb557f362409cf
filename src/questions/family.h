/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several changes judged together. */
#ifndef SCWI_FAMILY_H
#define SCWI_FAMILY_H

#include "notes.h"
#include "scatterwise/change.h"

/* Holm's p for every change of the result, and the note that names the family;
 * nothing for one change. A change without p counts as p = 1 and gets none. */
scw_status scwi_family_adjust(scw_context *context, scw_change_result *out,
                              scwi_notes *notes);
#endif
