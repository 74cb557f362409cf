/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The keeping file of live taking: an ordinary reading table that is only ever
 * added to. One text goes out for each thing that happened, and the whole file
 * comes back as the list of them.
 *
 *   order[,panel][,product][,session][,geometry][,operator][,meter]
 *     [,spot][,x (mm),y (mm)],reading (GU),replaces,takes back,note
 *
 * Remarks are comment lines: "# note: ...". */
#ifndef SCWI_KEPT_H
#define SCWI_KEPT_H

#include "arena.h"
#include "text.h"

/* Columns that hold the same in every row, in this order. */
typedef enum scwi_kept_fixed {
  SCWI_KEPT_PANEL,
  SCWI_KEPT_PRODUCT,
  SCWI_KEPT_SESSION,
  SCWI_KEPT_GEOMETRY,
  SCWI_KEPT_OPERATOR,
  SCWI_KEPT_METER,
  SCWI_KEPT_FIXED
} scwi_kept_fixed;

extern const char *const scwi_kept_heads[SCWI_KEPT_FIXED];

typedef struct scwi_kept_form {
  const char *quantity, *unit;        /* unit "" when not said */
  const char *length_unit;            /* of x and y; null as "" */
  const char *fixed[SCWI_KEPT_FIXED]; /* null: no such column */
  bool spots, places;
} scwi_kept_form;

/* A reading; one read again (`replaces`); one given anew with a mark
 * (`takes_back` its own number); or a reading taken back (no `reading`).
 * Numbers are order numbers, 0: none; texts may be null. */
typedef struct scwi_kept_row {
  size_t order, replaces, takes_back;
  const char *spot, *reading, *note;
  double x, y; /* NaN: not said */
  size_t line; /* when read */
} scwi_kept_row;

/* The lines they are written as, appended to `out`. */
scw_status scwi_kept_head(scw_context *context, const scwi_kept_form *form,
                          scwi_text *out);
scw_status scwi_kept_line(scw_context *context, const scwi_kept_form *form,
                          const scwi_kept_row *row, scwi_text *out);
void scwi_kept_note(const char *note, scwi_text *out);

/* Can a text stand in such a file: valid UTF-8 of one line, without control
 * characters? */
bool scwi_kept_fits(const char *text);

typedef struct scwi_kept_file {
  scwi_arena texts;
  scwi_kept_form form;
  bool headed;   /* false: nothing but remarks yet */
  scwi_kept_row *row;
  size_t n, capacity;
  size_t whole;  /* bytes in whole lines */
  size_t lines;  /* how many of those */
} scwi_kept_file;

/* Takes a whole file apart. What stands behind the last line end was cut off
 * while it was written and is not read. SCW_BAD_INPUT for a text that is not of
 * this form. Free with scwi_kept_free, also after a failure. */
scw_status scwi_kept_read(scw_context *context, const char *name,
                          const char *bytes, size_t size, scwi_kept_file *out);
void scwi_kept_free(scwi_kept_file *file);

#endif
