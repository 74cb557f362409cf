/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a panel's scatter means, in words. */
#ifndef SCWI_PANEL_WORDS_H
#define SCWI_PANEL_WORDS_H

#include "notes.h"
#include "panel_part.h"

/* The sentence and the notes of a part. */
scw_status scwi_panel_words(scw_context *context, const scwi_panel_frame *frame,
                            const scwi_panel_units *units,
                            scw_panel_part *part);

scw_status scwi_panel_sentence(scw_context *context,
                               const scwi_panel_frame *frame,
                               const scwi_panel_units *units,
                               scw_panel_part *part);
scw_status scwi_panel_notes(scw_context *context,
                            const scwi_panel_frame *frame,
                            const scwi_panel_units *units,
                            const scw_panel_part *part, scwi_notes *notes);

/* The plural of a level: "spots", "operators by spots" of the interaction. */
const char *scwi_panel_plural(const char *level);

/* The level that carries most of the variance of the mean, and the one below
 * it; n_components where nothing scatters. */
size_t scwi_panel_leading(const scw_panel_part *part);

#endif
