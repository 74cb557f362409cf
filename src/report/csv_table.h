/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A CSV table whose header and rows come from the same visits: each cell is
 * named where it is filled, so the two cannot get out of step. */
#ifndef SCWI_CSV_TABLE_H
#define SCWI_CSV_TABLE_H

#include "scatterwise/figures.h"
#include "scatterwise/sink.h"
#include "text.h"

typedef struct scwi_csv {
  scw_context *context;
  scw_sink sink;
  scw_status status;
  bool header;     /* the next row holds the names */
  scwi_text cells; /* each closed by a zero */
  size_t n;
  const char *prefix; /* put before names: "before_"; null: none */
} scwi_csv;

scwi_csv scwi_csv_start(scw_context *context, scw_sink sink);

void scwi_csv_text(scwi_csv *csv, const char *name, const char *text);
void scwi_csv_whole(scwi_csv *csv, const char *name, unsigned long long value);
void scwi_csv_number(scwi_csv *csv, const char *name, double value);
void scwi_csv_bool(scwi_csv *csv, const char *name, bool value);
/* Empty when missing. */
void scwi_csv_figure(scwi_csv *csv, const char *name, scw_figure figure);
/* Two cells, low and high. */
void scwi_csv_ends(scwi_csv *csv, const char *low, const char *high,
                   scw_interval interval);
void scwi_csv_row(scwi_csv *csv); /* writes the row; the header is then past */

scw_status scwi_csv_end(scwi_csv *csv); /* frees, and tells how it went */

#endif
