/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parts of the report on a panel. */
#ifndef SCWI_TEXT_PANEL_H
#define SCWI_TEXT_PANEL_H

#include "scatterwise/panel.h"
#include "text_parts.h"

/* "48 spots", "1 session", "operators by spots". */
void scwi_word_level(scwi_text *text, const scw_panel_component *component,
                     bool counted);

/* Two significant digits of a figure and its unit: "0.31 GU". */
void scwi_word_short(scwi_text *text, double value, const char *unit);

/* Operators, precision limits and which operator does not fit. */
void scwi_sheet_operators(scwi_sheet *sheet, const scw_panel_part *part,
                          const char *unit);

/* Gradient, edge, neighbours and the map. */
void scwi_sheet_place(scwi_sheet *sheet, const scw_panel_part *part,
                      const char *unit);

/* The pool of sets. */
void scwi_sheet_pool(scwi_sheet *sheet, const scw_panel_result *result);

#endif
