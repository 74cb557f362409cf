/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The readings of a table sorted into the parts a panel's scatter is looked at
 * in, with a small number for each label and a position for each reading. */
#ifndef SCWI_PANEL_PARTS_H
#define SCWI_PANEL_PARTS_H

#include "scatterwise/panel.h"
#include "table_facts.h"

/* One part. A number stands for a label: 0 for none. */
typedef struct scwi_panel_readings {
  size_t n;
  const size_t *index;     /* into the table, in its order */
  const double *x;
  const int64_t *ticks;    /* null when no common decimal exists */
  const uint32_t *panel, *session, *spot, *by;
  const double *along, *across; /* positions; NaN where not known */
} scwi_panel_readings;

typedef struct scwi_panel_parts {
  size_t n_readings;
  size_t *index;
  double *x, *along, *across;
  int64_t *ticks;
  uint32_t *panel, *session, *spot, *by;
  size_t *first;    /* of each part, and the end of the last */
  char **label;     /* of each part; owned until taken */
  size_t n;
  const char *unit_name;   /* "panel", or "set" where sets stand for panels */
  bool spots;       /* spots are named, or told by their positions */
  scw_positions positions;
  bool letter_rows, letter_columns;
  size_t tiles, again; /* readings of the tile, and taken again: not counted */
} scwi_panel_parts;

/* SCW_BAD_INPUT for pulls in two directions. */
scw_status scwi_panel_parts_of(scw_context *context, const scw_table *table,
                               const scwi_table_facts *facts, bool each,
                               scwi_panel_parts *out);
void scwi_panel_parts_free(scwi_panel_parts *parts);

scwi_panel_readings scwi_panel_part_at(const scwi_panel_parts *parts,
                                       size_t part);

#endif
