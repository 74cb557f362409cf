/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where readings were taken: x and y, rows and columns, or spots labelled A1,
 * A2 ... */
#ifndef SCWI_PANEL_PLACES_H
#define SCWI_PANEL_PLACES_H

#include "panel_parts.h"

/* Fills positions, along, across and letter_* of the parts, and numbers the
 * spots by their positions where they have no names. `parts` holds index, in
 * the order of the parts. */
scw_status scwi_panel_places(scw_context *context, const scw_table *table,
                             scwi_panel_parts *parts);

/* A row's or column's place in its order: 3 of "3" and of "C"; NaN of anything
 * else. */
double scwi_grid_number(const char *text, size_t length, bool *letters);

/* The unit in the header of the x column, "mm" of "x (mm)"; "" without one. */
scw_status scwi_length_unit(scw_context *context, const scw_table *table,
                            char **out);

#endif
