/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings of a standard tile around the series: rows whose state is "tile". */
#ifndef SCWI_TILE_H
#define SCWI_TILE_H

#include "notes.h"
#include "scatterwise/change.h"
#include "table_facts.h"

/* True for a reading of the tile. */
bool scwi_is_tile(const scw_table *table, const scw_reading *reading);

/* Mean against the assigned value (when known), and last less first, also in
 * display steps. n = 0 when the table holds no tile readings; SCW_BAD_INPUT
 * when an assigned value was given and there are none. */
scw_status scwi_tile_of(scw_context *context, const scw_table *table,
                        const scwi_table_facts *facts,
                        const scw_change_options *options, scw_tile *out);

/* How much of the change the tile's drift could explain, in words; `change` is
 * null where the note is for several changes. Nothing without a tile. */
scw_status scwi_tile_note(scw_context *context, const scw_tile *tile,
                          const char *unit, const scw_figure *change,
                          scwi_notes *notes);
#endif
