/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The keeping file read back. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "decimal.h"
#include "kept.h"
#include "memory.h"
#include "rows.h"
#include "start.h"

/* Where each column stands. */
typedef struct kept_reader {
  scw_context *context;
  const char *name;
  scwi_kept_file *file;
  size_t n, first_fixed, spot, place, reading;
} kept_reader;

typedef struct memory_source {
  const char *at;
  size_t left;
} memory_source;

static int read_memory(void *user, char *buffer, size_t size, size_t *got) {
  memory_source *m = user;
  *got = size < m->left ? size : m->left;
  memcpy(buffer, m->at, *got);
  m->at += *got;
  m->left -= *got;
  return 0;
}

static scw_status not_ours(const kept_reader *reader, size_t line) {
  return scwi_fail_at(reader->context, SCW_BAD_INPUT, reader->name, line, 0,
                      "this file was not written by take, which would write "
                      "on in it. Give the name of a file that take began, or "
                      "of a new one");
}

static bool is(const scwi_cell *cell, const char *text) {
  return cell->length == strlen(text) &&
         !memcmp(cell->text, text, cell->length);
}

static scw_status keep(const kept_reader *reader, const char *text,
                       size_t length, const char **out) {
  return scwi_arena_copy(reader->context, &reader->file->texts, text, length,
                         out);
}

/* "reading (GU)"; SCW_BAD_INPUT for anything else. */
static scw_status read_unit(kept_reader *reader, const scwi_cell *cell,
                            const char **quantity, const char **unit) {
  size_t length = cell->length;
  const char *open = length && cell->text[length - 1] == ')'
                         ? memchr(cell->text, '(', length)
                         : NULL;
  size_t word = open ? (size_t)(open - cell->text) : length;
  if (open && (word < 2 || cell->text[word - 1] != ' ')) word = 0;
  if (word == 0) return SCW_BAD_INPUT;
  scw_status status = keep(reader, cell->text, open ? word - 1 : word,
                           quantity);
  if (status) return status;
  return open ? keep(reader, open + 1, length - word - 2, unit)
              : keep(reader, "", 0, unit);
}

/* x and y in one unit, where there are these columns. */
static scw_status read_places(kept_reader *reader, const scwi_row *row,
                              size_t i) {
  scwi_kept_form *form = &reader->file->form;
  const char *x, *y, *unit;
  scw_status status =
      read_unit(reader, &row->cells[i], &x, &form->length_unit);
  if (!status && i + 1 < row->n)
    status = read_unit(reader, &row->cells[i + 1], &y, &unit);
  if (status) return status;
  form->places = i + 1 < row->n && !strcmp(x, "x") && !strcmp(y, "y") &&
                 !strcmp(form->length_unit, unit);
  if (!form->places) form->length_unit = NULL;
  return SCW_OK;
}

/* The columns must be exactly those that are written. */
static scw_status read_head(kept_reader *reader, const scwi_row *row) {
  scwi_kept_form *form = &reader->file->form;
  const scwi_cell *cell = row->cells;
  size_t i = 1;
  reader->n = row->n;
  reader->first_fixed = 1;
  bool ours = row->n >= 5 && is(cell, "order") && is(&cell[row->n - 1], "note") &&
              is(&cell[row->n - 2], "takes back") &&
              is(&cell[row->n - 3], "replaces");
  if (!ours) return not_ours(reader, row->line);
  for (int f = 0; f < SCWI_KEPT_FIXED; f++)
    if (is(&cell[i], scwi_kept_heads[f])) form->fixed[f] = "", i++;
  reader->spot = i;
  form->spots = is(&cell[i], "spot");
  i += form->spots;
  reader->place = i;
  scw_status status = read_places(reader, row, i);
  if (status && status != SCW_BAD_INPUT) return status;
  i += form->places ? 2 : 0;
  reader->reading = i;
  if (i + 4 != row->n) return not_ours(reader, row->line);
  reader->file->headed = true;
  if (!status)
    status = read_unit(reader, &cell[i], &form->quantity, &form->unit);
  return status == SCW_BAD_INPUT ? not_ours(reader, row->line) : status;
}

static scw_status damaged(const kept_reader *reader, size_t line) {
  return scwi_fail_at(reader->context, SCW_BAD_INPUT, reader->name, line, 0,
                      "this line is not as take wrote it. Put it right, or "
                      "copy the file and take the line out of the copy");
}

/* A cell as text; null when it is empty. What kept a spreadsheet from reading
 * a formula is taken off. */
static scw_status text_of(const kept_reader *reader, const scwi_cell *cell,
                          const char **out) {
  const char *text = cell->text;
  size_t length = cell->length;
  *out = NULL;
  if (length == 0) return SCW_OK;
  if (length > 1 && text[0] == '\'' && strchr("=+-@", text[1]))
    text++, length--;
  return keep(reader, text, length, out);
}

static bool whole_of(const scwi_cell *cell, size_t *out) {
  *out = 0;
  if (cell->length > 15) return false;
  for (size_t i = 0; i < cell->length; i++) {
    if (cell->text[i] < '0' || cell->text[i] > '9') return false;
    *out = *out * 10 + (size_t)(cell->text[i] - '0');
  }
  return true;
}

static bool place_of(const scwi_cell *cell, double *out) {
  scwi_decimal number;
  *out = NAN;
  if (cell->length == 0) return true;
  if (scwi_decimal_read(cell->text, cell->length, '.', &number) !=
      SCWI_DECIMAL_OK)
    return false;
  *out = number.value;
  return true;
}

/* What every row repeats must be the same in all of them. */
static scw_status read_fixed(const kept_reader *reader, const scwi_row *row,
                             bool *same) {
  scwi_kept_file *file = reader->file;
  size_t i = reader->first_fixed;
  scw_status status = SCW_OK;
  *same = true;
  for (int f = 0; f < SCWI_KEPT_FIXED && status == SCW_OK; f++) {
    const char *text;
    if (!file->form.fixed[f]) continue;
    status = text_of(reader, &row->cells[i++], &text);
    if (status || !text) {
      *same = false;
      break;
    }
    if (file->n == 0) file->form.fixed[f] = text;
    *same = *same && !strcmp(file->form.fixed[f], text);
  }
  return status;
}

static scw_status read_line(const kept_reader *reader, const scwi_row *row) {
  scwi_kept_file *file = reader->file;
  scwi_kept_row kept = {.x = NAN, .y = NAN, .line = row->line};
  const scwi_cell *cell = row->cells;
  const scwi_cell *tail = cell + reader->reading;
  bool good = row->n == reader->n && row->n > 0;
  if (!good) return damaged(reader, row->line);
  good = whole_of(cell, &kept.order) && whole_of(&tail[1], &kept.replaces) &&
         whole_of(&tail[2], &kept.takes_back);
  if (file->form.places)
    good = good && place_of(&cell[reader->place], &kept.x) &&
           place_of(&cell[reader->place + 1], &kept.y);
  bool same;
  scw_status status = read_fixed(reader, row, &same);
  if (!status && file->form.spots)
    status = text_of(reader, &cell[reader->spot], &kept.spot);
  if (!status) status = text_of(reader, &tail[0], &kept.reading);
  if (!status) status = text_of(reader, &tail[3], &kept.note);
  if (!status && !(good && same)) status = damaged(reader, row->line);
  if (!status)
    status = SCWI_RESERVE(reader->context, file->n + 1, &file->row,
                          &file->capacity);
  if (!status) file->row[file->n++] = kept;
  return status;
}

/* Only remarks of ours may stand above the header. */
static bool is_remark(const scwi_row *row) {
  static const char *const starts[] = {"# note: ", "# cut off: "};
  for (size_t i = 0; i < 2; i++)
    if (row->n == 1 && row->cells[0].length >= strlen(starts[i]) - 1 &&
        !memcmp(row->cells[0].text, starts[i], strlen(starts[i]) - 1))
      return true;
  return false;
}

static scw_status read_rows(kept_reader *reader, scwi_rows *rows) {
  scw_status status = SCW_OK;
  bool more = true;
  while (status == SCW_OK) {
    scwi_row row;
    status = scwi_rows_next(reader->context, rows, &row, &more);
    if (status != SCW_OK || !more) break;
    if (is_remark(&row)) continue;
    status = reader->file->headed ? read_line(reader, &row)
                                  : read_head(reader, &row);
  }
  return status;
}

/* Could these first bytes, without a line end, be the start of such a file? */
static bool may_begin(const char *bytes, size_t size) {
  static const char *const starts[] = {"order,", "# note: ", "# cut off: "};
  for (size_t i = 0; i < 3; i++) {
    size_t length = strlen(starts[i]);
    if (!memcmp(bytes, starts[i], size < length ? size : length)) return true;
  }
  return false;
}

scw_status scwi_kept_read(scw_context *context, const char *name,
                          const char *bytes, size_t size,
                          scwi_kept_file *out) {
  kept_reader reader = {.context = context, .name = name, .file = out};
  scwi_rows *rows = NULL;
  *out = (scwi_kept_file){.whole = size};
  while (out->whole && bytes[out->whole - 1] != '\n') out->whole--;
  for (size_t i = 0; i < out->whole; i++) out->lines += bytes[i] == '\n';
  if (out->whole == 0)
    return may_begin(bytes, size) ? SCW_OK : not_ours(&reader, 1);
  memory_source memory = {bytes, out->whole};
  scw_status status = scwi_rows_open(
      context, (scw_source){read_memory, &memory, name}, ',', '.', &rows);
  if (status == SCW_OK) status = read_rows(&reader, rows);
  scwi_rows_close(rows);
  if (status != SCW_OK || out->whole == size || out->headed) return status;
  return may_begin(bytes + out->whole, size - out->whole)
             ? SCW_OK
             : not_ours(&reader, out->lines + 1);
}

void scwi_kept_free(scwi_kept_file *file) {
  scwi_arena_free(&file->texts);
  free(file->row);
  *file = (scwi_kept_file){0};
}
