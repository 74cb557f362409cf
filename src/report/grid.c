/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "grid.h"

#include <string.h>

#include "number_text.h"

enum { LONGEST_LABEL = 26, SHORTEST_REMARK = 18 };

void scwi_grid_cell(scwi_grid *grid, const char *text) {
  const char *cell = text ? text : "";
  scwi_text_append(&grid->cells, cell, strlen(cell) + 1);
  grid->n_cells++;
}

void scwi_grid_fixed(scwi_grid *grid, double value, int decimals) {
  char number[SCWI_NUMBER_SIZE];
  scwi_grid_cell(grid, scwi_fixed_text(value, decimals, number));
}

void scwi_grid_whole(scwi_grid *grid, unsigned long long value) {
  char number[SCWI_NUMBER_SIZE];
  scwi_grid_cell(grid, scwi_whole_text(value, number));
}

void scwi_grid_blanks(scwi_grid *grid, size_t cells) {
  while (cells--)
    scwi_grid_cell(grid, NULL);
}

void scwi_grid_figure(scwi_grid *grid, scw_figure figure, int decimals) {
  if (figure.state == SCW_PRESENT)
    scwi_grid_fixed(grid, figure.value, decimals);
  else
    scwi_grid_blanks(grid, 1);
}

void scwi_grid_range(scwi_grid *grid, scw_interval interval, int decimals) {
  if (interval.state == SCW_PRESENT) {
    scwi_grid_fixed(grid, interval.low, decimals);
    scwi_grid_cell(grid, "to");
    scwi_grid_fixed(grid, interval.high, decimals);
  } else {
    scwi_grid_blanks(grid, 3);
  }
}

/* Columns up to the decimal point, and from it on. */
typedef struct extent {
  size_t before, after;
} extent;

static size_t width_of(extent e) {
  return e.before + e.after;
}

static extent extent_of(const char *cell, scwi_align align) {
  const char *point = align == SCWI_POINT ? strchr(cell, '.') : NULL;
  size_t length = point ? (size_t)(point - cell) : strlen(cell);
  extent e = {scwi_text_columns(cell, length), 0};
  if (point) e.after = scwi_text_columns(point, strlen(point));
  return e;
}

static void widen(extent *widest, extent cell) {
  if (cell.before > widest->before) widest->before = cell.before;
  if (cell.after > widest->after) widest->after = cell.after;
}

typedef struct measure {
  extent columns[SCWI_GRID_COLUMNS];
  size_t starts[SCWI_GRID_COLUMNS]; /* where each starts on the page */
  bool wraps;                       /* the last column holds remarks */
  bool fits;
} measure;

static const char *heading_of(const scwi_grid *grid, size_t column) {
  const char *heading = grid->columns[column].heading;
  return heading ? heading : "";
}

/* Where columns stand when the widest cell of each is known. An empty column
 * takes no room. A heading never reaches into the next one. */
static void place(const scwi_grid *grid, measure *m) {
  size_t at = SCWI_SHEET_INDENT, last = grid->n_columns - 1, head = 0;
  for (size_t c = 0; c <= last; c++) {
    const char *heading = heading_of(grid, c);
    bool empty = width_of(m->columns[c]) == 0;
    size_t gap = at == SCWI_SHEET_INDENT ? 0 : grid->columns[c].gap;
    m->starts[c] = at + (empty ? 0 : gap);
    if (empty) continue;
    if (*heading && m->starts[c] < head + gap) m->starts[c] = head + gap;
    if (*heading) head = m->starts[c] + strlen(heading);
    at = m->starts[c] + width_of(m->columns[c]);
  }
  m->wraps = grid->columns[last].align == SCWI_LEFT && last > 0;
  m->fits = at <= SCWI_SHEET_WIDTH ||
            (m->wraps && m->starts[last] + SHORTEST_REMARK <= SCWI_SHEET_WIDTH);
}

static measure measured(const scwi_grid *grid) {
  measure m = {.fits = true};
  const char *cell = grid->cells.data;
  for (size_t i = 0; i < grid->n_cells; i++, cell += strlen(cell) + 1) {
    size_t c = i % grid->n_columns;
    extent e = extent_of(cell, grid->columns[c].align);
    if (c > 0 || e.before <= LONGEST_LABEL) widen(&m.columns[c], e);
  }
  for (size_t c = 0; c < grid->n_columns; c++) {
    const scwi_column *column = &grid->columns[c];
    size_t heading = column->spans ? 0 : strlen(heading_of(grid, c));
    size_t least = heading > column->least ? heading : column->least;
    size_t have = width_of(m.columns[c]);
    if (have && least > have) m.columns[c].before += least - have;
  }
  place(grid, &m);
  return m;
}

/* A line being laid out, and the columns it takes so far. */
typedef struct layout {
  scwi_text line;
  size_t columns;
} layout;

static void pad_to(layout *out, size_t column) {
  if (out->columns >= column) return;
  scwi_text_repeat(&out->line, ' ', column - out->columns);
  out->columns = column;
}

static void put(layout *out, size_t column, const char *text, size_t columns) {
  pad_to(out, column);
  scwi_text_add(&out->line, text);
  out->columns += columns;
}

static void next_line(scwi_sheet *sheet, layout *out) {
  if (out->line.failed) sheet->text.failed = true;
  if (out->line.length) scwi_sheet_line(sheet, &out->line);
  scwi_text_clear(&out->line);
  out->columns = 0;
}

/* Blanks between the start of the column and the cell. */
static size_t offset_of(extent cell, scwi_align align, extent widest) {
  if (align == SCWI_POINT) return widest.before - cell.before;
  return align == SCWI_RIGHT ? width_of(widest) - width_of(cell) : 0;
}

/* One row as wrapped words, where columns do not fit. */
static void print_as_words(scwi_sheet *sheet, const scwi_grid *grid,
                           const char *const *cells) {
  scwi_text row = {0};
  for (size_t c = 0; c < grid->n_columns; c++) {
    if (!*cells[c]) continue;
    if (row.length) scwi_text_add(&row, " ");
    if (c > 0 && *heading_of(grid, c)) {
      scwi_text_add(&row, heading_of(grid, c));
      scwi_text_add(&row, " ");
    }
    scwi_text_add(&row, cells[c]);
  }
  if (row.failed) sheet->text.failed = true;
  scwi_sheet_hanging(sheet, "", 0, row.data);
  scwi_text_free(&row);
}

static void put_cell(layout *out, const measure *m, size_t column,
                     scwi_align align, const char *cell) {
  extent e = extent_of(cell, align);
  put(out, m->starts[column] + offset_of(e, align, m->columns[column]), cell,
      width_of(e));
}

static void print_in_columns(scwi_sheet *sheet, const scwi_grid *grid,
                             const measure *m, const char *const *cells,
                             layout *out) {
  size_t n = grid->n_columns - (m->wraps ? 1 : 0), first = 0;
  if (extent_of(cells[0], SCWI_LEFT).before > LONGEST_LABEL) {
    scwi_sheet_hanging(sheet, "", 0, cells[0]);
    first = 1;
  }
  for (size_t c = first; c < n; c++)
    if (*cells[c]) put_cell(out, m, c, grid->columns[c].align, cells[c]);
  if (m->wraps && *cells[n]) {
    pad_to(out, m->starts[n]);
    scwi_sheet_start_line(sheet, &out->line);
    scwi_sheet_wrap(sheet, cells[n], m->starts[n]);
    scwi_text_clear(&out->line);
  }
  next_line(sheet, out);
}

/* A heading stands to the right over numbers, else at the column's start. */
static void print_headings(scwi_sheet *sheet, const scwi_grid *grid,
                           const measure *m, layout *out) {
  for (size_t c = 0; c < grid->n_columns; c++) {
    const char *heading = heading_of(grid, c);
    if (!*heading || width_of(m->columns[c]) == 0) continue;
    size_t width = width_of(m->columns[c]), own = strlen(heading);
    bool right = grid->columns[c].align != SCWI_LEFT && own < width &&
                 !grid->columns[c].spans;
    put(out, m->starts[c] + (right ? width - own : 0), heading, own);
  }
  next_line(sheet, out);
}

bool scwi_grid_fits(const scwi_grid *grid) {
  return grid->cells.failed || !grid->n_cells || measured(grid).fits;
}

static void print_rows(scwi_sheet *sheet, const scwi_grid *grid) {
  const char *row[SCWI_GRID_COLUMNS];
  layout out = {0};
  measure m = measured(grid);
  if (m.fits) print_headings(sheet, grid, &m, &out);
  const char *cell = grid->cells.data;
  for (size_t i = 0; i < grid->n_cells; i++, cell += strlen(cell) + 1) {
    row[i % grid->n_columns] = cell;
    if ((i + 1) % grid->n_columns) continue;
    if (m.fits)
      print_in_columns(sheet, grid, &m, row, &out);
    else
      print_as_words(sheet, grid, row);
  }
  scwi_text_free(&out.line);
}

/* Is every byte of the cells printed as it is? Most grids are like that. */
static bool are_plain(const scwi_text *cells) {
  bool plain = true;
  for (size_t i = 0; i < cells->length; i++) {
    char c = cells->data[i];
    plain &= (c >= ' ' && c <= '~') || c == 0;
  }
  return plain;
}

/* Widths are those of what is printed, so cells are dressed before. */
static void dress_cells(scwi_grid *grid, bool ascii) {
  scwi_text dressed = {0};
  if (are_plain(&grid->cells)) return;
  const char *cell = grid->cells.data;
  for (size_t i = 0; i < grid->n_cells; i++, cell += strlen(cell) + 1) {
    scwi_sheet_dress(&dressed, cell, ascii);
    scwi_text_append(&dressed, "", 1);
  }
  scwi_text_free(&grid->cells);
  grid->cells = dressed;
}

void scwi_sheet_grid(scwi_sheet *sheet, scwi_grid *grid) {
  if (!grid->cells.failed && grid->n_cells)
    dress_cells(grid, sheet->options.ascii);
  if (grid->cells.failed)
    sheet->text.failed = true;
  else if (grid->n_cells)
    print_rows(sheet, grid);
  scwi_text_free(&grid->cells);
  grid->n_cells = 0;
}
