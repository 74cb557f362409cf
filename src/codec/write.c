/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write.h"

#include <string.h>

#include "decimal.h"
#include "text.h"

scw_status scwi_write(scw_context *context, scw_sink sink, const char *data,
                      size_t size) {
  if (size == 0 || sink.write(sink.user, data, size) == 0) return SCW_OK;
  return scwi_fail(context, SCW_NOT_WRITTEN,
                   "output could not be written; is the disk full or the "
                   "reader gone?");
}

scw_status scwi_write_text(scw_context *context, scw_sink sink,
                           const char *text) {
  return scwi_write(context, sink, text, strlen(text));
}

/* Would a spreadsheet run it? Tab and CR are stripped by some before they
 * look, so they count as well (common practice, no source). */
static bool looks_like_formula(const char *cell, size_t length) {
  scwi_decimal number;
  if (length == 0 || !strchr("=+-@\t\r", cell[0])) return false;
  return scwi_decimal_read(cell, length, '.', &number) ==
         SCWI_DECIMAL_NOT_A_NUMBER;
}

/* `misread`: unquoted, the row would be taken for none or for a comment. */
static void add_cell(scwi_text *row, const char *cell, bool misread) {
  size_t length = strlen(cell);
  bool formula = looks_like_formula(cell, length);
  bool outer_blank = length && (cell[0] == ' ' || cell[length - 1] == ' ');
  bool quote = outer_blank || strpbrk(cell, ",\"\r\n") || misread;
  if (quote) scwi_text_add(row, "\"");
  if (formula) scwi_text_add(row, "'");
  for (const char *next; (next = strchr(cell, '"')); cell = next + 1) {
    scwi_text_append(row, cell, (size_t)(next - cell));
    scwi_text_add(row, "\"\"");
  }
  scwi_text_add(row, cell);
  if (quote) scwi_text_add(row, "\"");
}

scw_status scwi_write_row(scw_context *context, scw_sink sink,
                          const char *const *cells, size_t n) {
  scwi_text row = {0};
  for (size_t i = 0; i < n; i++) {
    const char *cell = cells[i] ? cells[i] : "";
    if (i) scwi_text_add(&row, ",");
    add_cell(&row, cell, i == 0 && (cell[0] == '#' || (n == 1 && !cell[0])));
  }
  scwi_text_add(&row, "\n");
  scw_status status = scwi_text_status(context, &row);
  if (status == SCW_OK)
    status = scwi_write(context, sink, row.data, row.length);
  scwi_text_free(&row);
  return status;
}
