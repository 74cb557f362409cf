/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the heading of one column says: its role, or that it holds readings
 * and of what; unit and geometry. */
#ifndef SCWI_HEADING_H
#define SCWI_HEADING_H

#include "arena.h"
#include "words.h"

typedef enum scwi_heading_kind {
  SCWI_HEAD_EMPTY,
  SCWI_HEAD_ROLE,
  SCWI_HEAD_READING, /* known to hold readings */
  SCWI_HEAD_SUMMARY,
  SCWI_HEAD_OTHER,   /* known not to hold readings */
  SCWI_HEAD_UNKNOWN  /* a name: readings if its cells are numbers */
} scwi_heading_kind;

typedef struct scwi_heading {
  scwi_heading_kind kind;
  scw_role role;
  scw_side side;
  scwi_span text;       /* as written, trimmed */
  scwi_span name;       /* the same without its unit */
  scwi_span unit;
  scwi_span angle;      /* digits of the geometry */
  const char *quantity; /* "gloss"; "" or null when none is named */
  scwi_span given[SCW_ROLE_COUNT]; /* labels for the readings below it:
                           "panel H7" gives the panel H7, "before 2" the
                           repeat 2; length 0: none */
  scwi_span rest;       /* words we do not know: a product's or panel's name */
  bool chosen;          /* named in the options */
  size_t line, column;
} scwi_heading;

/* `text` must outlive the heading; several unknown words that are not next
 * to each other are copied into the arena. */
scw_status scwi_heading_read(scw_context *context, scwi_arena *arena,
                             scwi_span text, scwi_heading *out);

/* Does the option's name mean this column? With or without the unit; * stands
 * for any text. */
bool scwi_heading_is(const scwi_heading *heading, scwi_span name);

/* Do two headings say different units, or angles? One that says none does
 * not. */
bool scwi_said_otherwise(scwi_span one, scwi_span other);

#endif
