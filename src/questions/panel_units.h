/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The readings of one part by unit: the spots of every session of every panel,
 * or what there is of these. */
#ifndef SCWI_PANEL_UNITS_H
#define SCWI_PANEL_UNITS_H

#include "panel_parts.h"

typedef struct scwi_panel_units {
  size_t *order;       /* readings of the part, sorted by unit */
  uint32_t *unit_of;   /* of each reading, from 0 */
  size_t *first;       /* of each unit in `order`, and the end of the last */
  size_t n, n_readings;
  size_t least, most;  /* readings in a unit */
  bool panels, sessions, spots, operators; /* named in this part */
  size_t n_panels, n_sessions; /* different ones; 1 where none is named.
                                  Sessions of all panels */
  const char *name;    /* of a unit: "spot", "session", "panel"; "reading"
                          where nothing is named */
} scwi_panel_units;

scw_status scwi_panel_units_of(scw_context *context,
                               const scwi_panel_readings *readings,
                               const char *unit_name, scwi_panel_units *out);
void scwi_panel_units_free(scwi_panel_units *units);

#endif
