/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a reader of one set's figures must know. */
#ifndef SCWI_SET_NOTES_H
#define SCWI_SET_NOTES_H

#include "notes.h"
#include "values.h"

scw_status scwi_set_notes(scw_context *context, const scwi_values *values,
                          const scw_settings *settings,
                          const scw_set_report *report, scwi_notes *notes);

#endif
