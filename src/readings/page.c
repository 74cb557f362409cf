/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "page.h"

#include <stdlib.h>
#include <string.h>

#include "memory.h"

enum { MOST_TEXT = 65536, MOST_CELLS = 16384 };

typedef struct page_room {
  size_t rows, cells, text;   /* capacity */
  size_t used_cells, used_text;
} page_room;

static scw_status keep_row(scw_context *context, scwi_page *page, page_room *room,
                           const scwi_row *row) {
  size_t text = 0;
  for (size_t i = 0; i < row->n; i++) text += row->cells[i].length;
  scw_status status =
      SCWI_RESERVE(context, page->n + 1, &page->row, &room->rows);
  if (status == SCW_OK)
    status = SCWI_RESERVE(context, room->used_cells + row->n, &page->cell,
                          &room->cells);
  if (status == SCW_OK)
    status = SCWI_RESERVE(context, room->used_text + text, &page->text,
                          &room->text);
  if (status != SCW_OK) return status;
  page->row[page->n++] = *row;
  for (size_t i = 0; i < row->n; i++) {
    const scwi_cell *cell = row->cells + i;
    page->cell[room->used_cells++] = *cell;
    if (cell->length)
      memcpy(page->text + room->used_text, cell->text, cell->length);
    room->used_text += cell->length;
  }
  return SCW_OK;
}

/* The arrays have stopped moving: let rows and cells point into them. */
static void settle(scwi_page *page) {
  scwi_cell *cell = page->cell;
  const char *text = page->text;
  for (size_t r = 0; r < page->n; r++) {
    page->row[r].cells = cell;
    for (size_t i = 0; i < page->row[r].n; i++, cell++) {
      cell->text = cell->length ? text : "";
      if (cell->length) text += cell->length;
    }
  }
}

scw_status scwi_page_fill(scw_context *context, scwi_rows *rows,
                          scwi_page *out) {
  page_room room = {0};
  scw_status status = SCW_OK;
  *out = (scwi_page){0};
  while (status == SCW_OK && room.used_text < MOST_TEXT &&
         room.used_cells < MOST_CELLS && out->n < MOST_CELLS) {
    scwi_row row;
    bool more;
    status = scwi_rows_next(context, rows, &row, &more);
    out->ended = status == SCW_OK && !more;
    if (status != SCW_OK || !more) break;
    status = keep_row(context, out, &room, &row);
  }
  if (status == SCW_OK)
    settle(out);
  else
    scwi_page_free(out);
  return status;
}

void scwi_page_free(scwi_page *page) {
  free(page->row);
  free(page->cell);
  free(page->text);
  *page = (scwi_page){0};
}
