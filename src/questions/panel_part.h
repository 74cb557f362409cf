/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The scatter of one part, taken apart. */
#ifndef SCWI_PANEL_PART_H
#define SCWI_PANEL_PART_H

#include "nested.h"
#include "panel_parts.h"
#include "panel_units.h"

/* What all parts share. */
typedef struct scwi_panel_frame {
  const scw_table *table;
  const scwi_table_facts *facts;
  const scw_settings *settings;
  const scwi_panel_parts *parts;
  const char *length_unit;
  scwi_limits_memo *memo;
  bool alone; /* one part only */
} scwi_panel_frame;

/* Fills `out`; its label is taken from the parts. */
scw_status scwi_panel_part(scw_context *context, const scwi_panel_frame *frame,
                           size_t part, scw_panel_part *out);
void scwi_panel_part_free(scw_panel_part *part);

/* Steps of it, each in a file of its own. */

scwi_sample scwi_panel_sample(const scwi_panel_frame *frame,
                              const scwi_panel_readings *readings);

/* Operators: who they are, and the analysis that their readings carry. Sets
 * by, design, crossed and precision; `operator_of` gets the number of each
 * reading's operator, from 0. */
scw_status scwi_panel_operators(scw_context *context,
                                const scwi_panel_frame *frame,
                                const scwi_panel_readings *readings,
                                const scwi_panel_units *units,
                                uint32_t *operator_of, scw_panel_part *out);

/* Did every operator read spots of his own? */
bool scwi_panel_own_spots(const scwi_panel_units *units,
                          const uint32_t *operator_of);

/* Place, for a part of one panel. */
scw_status scwi_panel_place(scw_context *context, const scwi_panel_frame *frame,
                            const scwi_panel_readings *readings,
                            const scwi_panel_units *units,
                            scw_panel_part *out);

/* What twice as many of each level would buy, and how many repeats are worth
 * their while. */
void scwi_panel_worth(scw_panel_part *part);

#endif
