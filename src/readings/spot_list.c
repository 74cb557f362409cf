/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Spots to go to, out of a template or any table with a spot column. */
#include "scatterwise/spot_list.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "decimal.h"
#include "heading.h"
#include "memory.h"
#include "page.h"
#include "start.h"
#include "token.h"

enum { NO_COLUMN = -1 };

typedef struct list_reader {
  scw_context *context;
  const char *file;
  scwi_arena *texts;
  ptrdiff_t column[SCW_ROLE_COUNT]; /* by role */
  scw_spot_list *list;
  size_t capacity;
} list_reader;


static scw_status read_heads(list_reader *reader, const scwi_row *row) {
  for (int role = 0; role < SCW_ROLE_COUNT; role++)
    reader->column[role] = NO_COLUMN;
  for (size_t i = 0; i < row->n; i++) {
    scwi_heading heading;
    scwi_span text = {row->cells[i].text, row->cells[i].length};
    scw_status status =
        scwi_heading_read(reader->context, reader->texts, text, &heading);
    if (status != SCW_OK) return status;
    if (heading.kind == SCWI_HEAD_ROLE &&
        reader->column[heading.role] == NO_COLUMN)
      reader->column[heading.role] = (ptrdiff_t)i;
    if (heading.kind == SCWI_HEAD_ROLE && heading.role == SCW_ROLE_X)
      status = scwi_arena_copy(reader->context, reader->texts,
                               heading.unit.text, heading.unit.length,
                               &reader->list->length_unit);
    if (status != SCW_OK) return status;
  }
  if (reader->column[SCW_ROLE_SPOT] != NO_COLUMN) return SCW_OK;
  return scwi_fail_at(reader->context, SCW_BAD_INPUT, reader->file, row->line,
                      0,
                      "no column is headed spot. A list of spots has a header "
                      "such as spot,x,y and one row for each reading to take");
}

/* The cell of a role; empty where the row or the table has none. */
static scwi_span cell_of(const list_reader *reader, const scwi_row *row,
                         scw_role role) {
  ptrdiff_t column = reader->column[role];
  if (column == NO_COLUMN || (size_t)column >= row->n)
    return (scwi_span){"", 0};
  const scwi_cell *cell = row->cells + column;
  return scwi_trim(cell->text, cell->length);
}

static scw_status take_text(list_reader *reader, const scwi_row *row,
                            scw_role role, const char **out) {
  scwi_span text = cell_of(reader, row, role);
  return scwi_arena_copy(reader->context, reader->texts, text.text,
                         text.length, out);
}

/* A coordinate: nothing separates thousands here. */
static scw_status take_place(list_reader *reader, const scwi_row *row,
                             scw_role role, double *out) {
  scwi_span text = cell_of(reader, row, role);
  scwi_token token;
  scwi_decimal number;
  *out = NAN;
  scwi_token_read(text.text, text.length, &token);
  if (token.kind == SCWI_EMPTY || token.kind == SCWI_MISSING) return SCW_OK;
  char mark = memchr(token.body.text, ',', token.body.length) ? ',' : '.';
  if (token.kind == SCWI_NUMBER &&
      scwi_decimal_read(token.body.text, token.body.length, mark, &number) ==
          SCWI_DECIMAL_OK) {
    *out = number.value;
    return SCW_OK;
  }
  char shown[SCWI_SHOWN_SIZE];
  return scwi_fail_at(reader->context, SCW_BAD_INPUT, reader->file, row->line,
                      row->cells[reader->column[role]].column,
                      "'%s' is not a number; %s needs one. Correct the cell or "
                      "leave it empty",
                      scwi_shown(text.text, text.length, shown),
                      scw_role_name(role));
}

static scw_status take_row(list_reader *reader, const scwi_row *row) {
  scw_spot_list *list = reader->list;
  scwi_span spot = cell_of(reader, row, SCW_ROLE_SPOT);
  scwi_span state = cell_of(reader, row, SCW_ROLE_STATE);
  if (spot.length == 0)
    return scwi_fail_at(reader->context, SCW_BAD_INPUT, reader->file,
                        row->line, 0,
                        "this row names no spot. Fill it in or take the row "
                        "out");
  scw_status status = SCWI_RESERVE(reader->context, list->n + 1, &list->place,
                                   &reader->capacity);
  if (status != SCW_OK) return status;
  scw_spot_place *place = &list->place[list->n];
  place->side = scwi_side_of(state.text, state.length);
  status = take_text(reader, row, SCW_ROLE_SPOT, &place->spot);
  if (!status) status = take_text(reader, row, SCW_ROLE_PANEL, &place->panel);
  if (!status)
    status = take_text(reader, row, SCW_ROLE_PRODUCT, &place->product);
  if (!status) status = take_place(reader, row, SCW_ROLE_X, &place->x);
  if (!status) status = take_place(reader, row, SCW_ROLE_Y, &place->y);
  if (!status) list->n++;
  return status;
}

static scw_status read_rows(list_reader *reader, scwi_rows *rows) {
  bool more = true, headed = false;
  scw_status status = SCW_OK;
  while (more && status == SCW_OK) {
    scwi_row row;
    status = scwi_rows_next(reader->context, rows, &row, &more);
    if (status || !more || scwi_row_is_blank(&row) || scwi_row_is_comment(&row))
      continue;
    status = headed ? take_row(reader, &row) : read_heads(reader, &row);
    headed = true;
  }
  if (status == SCW_OK && reader->list->n == 0)
    status = scwi_fail_at(reader->context, SCW_BAD_INPUT, reader->file, 0, 0,
                          "there are no spots in it. A list of spots has a "
                          "header such as spot,x,y and a row for each reading "
                          "to take");
  return status;
}

scw_status scw_spot_list_read(scw_context *context, scw_source source,
                              scw_spot_list *out) {
  scwi_arena *texts = NULL;
  scwi_rows *rows = NULL;
  *out = (scw_spot_list){0};
  scw_status status = SCWI_ALLOCATE(context, 1, &texts);
  if (status != SCW_OK) return status;
  out->memory = texts;
  out->length_unit = "";
  list_reader reader = {.context = context,
                        .file = source.name ? source.name : "input",
                        .texts = texts,
                        .list = out};
  status = scwi_rows_open(context, source, 0, 0, &rows);
  if (status == SCW_OK) status = read_rows(&reader, rows);
  scwi_rows_close(rows);
  if (status != SCW_OK) scw_spot_list_free(out);
  return status;
}

void scw_spot_list_free(scw_spot_list *list) {
  if (list->memory) scwi_arena_free(list->memory);
  free(list->memory);
  free(list->place);
  *list = (scw_spot_list){0};
}
