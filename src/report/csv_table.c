/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "csv_table.h"

#include <math.h>
#include <string.h>

#include "number_text.h"
#include "write.h"

enum { MOST_CELLS = 96 };

scwi_csv scwi_csv_start(scw_context *context, scw_sink sink) {
  return (scwi_csv){.context = context, .sink = sink, .header = true};
}

/* The name in the header, else the text; null is empty. */
static void add_cell(scwi_csv *csv, const char *name, const char *text) {
  if (csv->header && csv->prefix) scwi_text_add(&csv->cells, csv->prefix);
  const char *cell = csv->header ? name : text ? text : "";
  scwi_text_append(&csv->cells, cell, strlen(cell) + 1);
  csv->n++;
}

void scwi_csv_text(scwi_csv *csv, const char *name, const char *text) {
  add_cell(csv, name, text);
}

void scwi_csv_whole(scwi_csv *csv, const char *name, unsigned long long value) {
  char text[SCWI_NUMBER_SIZE];
  add_cell(csv, name, scwi_whole_text(value, text));
}

void scwi_csv_number(scwi_csv *csv, const char *name, double value) {
  char text[SCWI_NUMBER_SIZE];
  bool skip = csv->header || !isfinite(value);
  add_cell(csv, name, skip ? NULL : scwi_number_text(value, text));
}

void scwi_csv_bool(scwi_csv *csv, const char *name, bool value) {
  add_cell(csv, name, value ? "true" : "false");
}

void scwi_csv_figure(scwi_csv *csv, const char *name, scw_figure figure) {
  scwi_csv_number(csv, name, figure.state == SCW_PRESENT ? figure.value : NAN);
}

void scwi_csv_ends(scwi_csv *csv, const char *low, const char *high,
                   scw_interval interval) {
  scwi_csv_figure(csv, low, (scw_figure){interval.low, interval.state});
  scwi_csv_figure(csv, high, (scw_figure){interval.high, interval.state});
}

void scwi_csv_row(scwi_csv *csv) {
  const char *cells[MOST_CELLS];
  size_t n = 0;
  if (csv->status == SCW_OK)
    csv->status = scwi_text_status(csv->context, &csv->cells);
  if (csv->status == SCW_OK) {
    const char *cell = csv->cells.data;
    for (; n < csv->n && n < MOST_CELLS; cell += strlen(cell) + 1)
      cells[n++] = cell;
    csv->status = scwi_write_row(csv->context, csv->sink, cells, n);
  }
  scwi_text_clear(&csv->cells);
  csv->n = 0;
  csv->header = false;
}

scw_status scwi_csv_end(scwi_csv *csv) {
  scwi_text_free(&csv->cells);
  return csv->status;
}
