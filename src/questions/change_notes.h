/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a reader of one change must know beside its sentence. */
#ifndef SCWI_CHANGE_NOTES_H
#define SCWI_CHANGE_NOTES_H

#include "change_report.h"

scw_status scwi_change_notes(scw_context *context, const scwi_change_case *one,
                             const scw_change_report *report,
                             scwi_notes *notes);
#endif
