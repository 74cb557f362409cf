/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The panel seen from above, in characters: each place its value, or a mark
 * from low to high where values do not fit. */
#ifndef SCWI_MAP_H
#define SCWI_MAP_H

#include "scatterwise/place.h"
#include "sheet.h"

/* Draws the map with its positions and a legend that gives the values of the
 * marks; at most 80 columns and 24 lines. `decimals` are those of the values;
 * `unit` and `length_unit` may be null. Row and column names (labels such as
 * A1) may be given in `row_names` and `column_names` (map->rows and
 * map->columns of them, lowest row first); null: positions as numbers. Nothing
 * where there is nothing to draw. */
typedef struct scwi_map_words {
  int decimals;
  const char *unit, *length_unit;
  const char *const *row_names, *const *column_names;
} scwi_map_words;

void scwi_sheet_map(scwi_sheet *sheet, const scw_place_map *map,
                    const scwi_map_words *words);

#endif
