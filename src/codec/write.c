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
  switch (cell[0]) {
  case '=': case '+': case '-': case '@': case '\t': case '\r':
    return scwi_decimal_read(cell, length, '.', &number) ==
           SCWI_DECIMAL_NOT_A_NUMBER;
  default: return false;
  }
}

/* Length of the cell; *special when it holds what only quotes can hold. */
static size_t look_over(const char *cell, bool *special) {
  const char *at = cell;
  for (*special = *at == ' '; *at; at++)
    if (*at == ',' || *at == '"' || *at == '\r' || *at == '\n')
      *special = true;
  *special = *special || (at > cell && at[-1] == ' ');
  return (size_t)(at - cell);
}

/* `misread`: unquoted, the row would be taken for none or for a comment. */
static void add_cell(scwi_text *row, const char *cell, bool misread) {
  bool special;
  size_t length = look_over(cell, &special);
  bool quote = special || misread, formula = looks_like_formula(cell, length);
  if (quote) scwi_text_append(row, "\"", 1);
  if (formula) scwi_text_append(row, "'", 1);
  const char *end = cell + length;
  for (const char *next; special && (next = strchr(cell, '"'));
       cell = next + 1) {
    scwi_text_append(row, cell, (size_t)(next - cell));
    scwi_text_append(row, "\"\"", 2);
  }
  scwi_text_append(row, cell, (size_t)(end - cell));
  if (quote) scwi_text_append(row, "\"", 1);
}

scw_status scwi_write_row(scw_context *context, scw_sink sink,
                          const char *const *cells, size_t n) {
  scwi_text row = {0};
  for (size_t i = 0; i < n; i++) {
    const char *cell = cells[i] ? cells[i] : "";
    if (i) scwi_text_append(&row, ",", 1);
    add_cell(&row, cell, i == 0 && (cell[0] == '#' || (n == 1 && !cell[0])));
  }
  scwi_text_append(&row, "\n", 1);
  scw_status status = scwi_text_status(context, &row);
  if (status == SCW_OK)
    status = scwi_write(context, sink, row.data, row.length);
  scwi_text_free(&row);
  return status;
}
