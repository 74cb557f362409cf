/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "map.h"

#include <math.h>

#include "number_text.h"
#include "number_words.h"
#include "wording.h"

#define NO_SPOT "\xC2\xB7" /* a middle dot */

enum { MARKS = 8, MOST_AXIS = 10, MOST_DECIMALS = 6, MOST_END = 30 };

/* How the map is laid out. */
typedef struct frame {
  const scw_place_map *map;
  const scwi_map_words *words;
  double low, high;  /* of the values */
  bool numbers;      /* values in the cells, not marks alone */
  bool marks;        /* a mark in each cell */
  size_t number;     /* columns of the widest value */
  size_t cell;       /* columns of a cell, its blanks included */
  size_t axis;       /* columns of the row names */
  int x_decimals, y_decimals;
} frame;

/* As many decimals as the positions have, or else as tell them apart. */
static int position_decimals(const double *position, size_t n) {
  double length = n > 1 ? fabs(position[n - 1] - position[0]) : 0;
  if (!(length > 0)) return scwi_decimals_for(0, position[0]) > 3 ? 3 : 0;
  int enough = scwi_decimals_for(length / (double)n, length);
  if (enough > MOST_DECIMALS) enough = MOST_DECIMALS;
  for (int decimals = 0; decimals <= enough + 2; decimals++) {
    double unit = pow(10, -decimals), off = 0;
    for (size_t i = 0; i < n; i++)
      off = fmax(off, fabs(position[i] - round(position[i] / unit) * unit));
    if (off <= 1e-6 * length) return decimals;
  }
  return enough;
}

static size_t columns_of(const scwi_sheet *sheet, const char *text) {
  scwi_text dressed = {0};
  scwi_sheet_dress(&dressed, text, sheet->options.ascii);
  size_t columns = scwi_sheet_columns(&dressed);
  scwi_text_free(&dressed);
  return columns;
}

static void put_name(scwi_text *text, const char *const *names, size_t i,
                     double position, int decimals) {
  if (names && names[i])
    scwi_text_add(text, names[i]);
  else
    scwi_put_fixed(text, position, decimals);
}

static void put_row_name(scwi_text *text, const frame *f, size_t row) {
  put_name(text, f->words->row_names, row, f->map->y[row], f->y_decimals);
}

static void put_column_name(scwi_text *text, const frame *f, size_t column) {
  put_name(text, f->words->column_names, column, f->map->x[column],
           f->x_decimals);
}

typedef void put_part(scwi_text *text, const frame *f, size_t i);

static size_t widest(const scwi_sheet *sheet, const frame *f, put_part *put,
                     size_t n) {
  size_t most = 0;
  for (size_t i = 0; i < n; i++) {
    scwi_text text = {0};
    put(&text, f, i);
    size_t columns = text.data ? columns_of(sheet, text.data) : 0;
    if (columns > most) most = columns;
    scwi_text_free(&text);
  }
  return most;
}

static void put_value(scwi_text *text, const frame *f, size_t cell) {
  if (isnan(f->map->mean[cell])) scwi_text_add(text, NO_SPOT);
  else scwi_put_fixed(text, f->map->mean[cell], f->words->decimals);
}

/* ' ', or a bar of 1 to 8 eighths. */
static void put_mark(scwi_text *text, size_t height) {
  char bar[4] = {(char)0xE2, (char)0x96, (char)(0x80 + height), 0};
  scwi_text_add(text, height ? bar : NO_SPOT);
}

/* From 1 for the lowest eighth of the values to 8; 0 where no spot lies. */
static size_t height_of(const frame *f, double value) {
  if (isnan(value)) return 0;
  if (!(f->high > f->low)) return MARKS / 2;
  double share = (value / 2 - f->low / 2) / (f->high / 2 - f->low / 2);
  return share >= 1 ? MARKS : 1 + (size_t)(share * MARKS);
}

/* Values with marks beside them where that fits, then values alone, then marks
 * alone. Marks in ASCII are digits, which would read as part of a value. */
static void choose_cells(const scwi_sheet *sheet, frame *f) {
  size_t columns = f->map->columns;
  size_t room = SCWI_SHEET_WIDTH - SCWI_SHEET_INDENT - f->axis;
  size_t name = widest(sheet, f, put_column_name, columns);
  f->number = widest(sheet, f, put_value, f->map->rows * columns);
  if (name > f->number) f->number = name;
  f->numbers = true;
  f->marks = !sheet->options.ascii && f->high > f->low;
  f->cell = f->number + 2 + (f->marks ? 2 : 0);
  if (f->cell * columns <= room) return;
  f->marks = false;
  f->cell = f->number + 2;
  if (f->cell * columns <= room) return;
  f->numbers = false;
  f->marks = true;
  f->cell = 2;
}

static frame frame_of(const scwi_sheet *sheet, const scw_place_map *map,
                      const scwi_map_words *words) {
  frame f = {.map = map, .words = words, .low = INFINITY, .high = -INFINITY};
  for (size_t i = 0; i < map->rows * map->columns; i++) {
    f.low = fmin(f.low, map->mean[i]); /* NaN is passed over */
    f.high = fmax(f.high, map->mean[i]);
  }
  f.x_decimals = position_decimals(map->x, map->columns);
  f.y_decimals = position_decimals(map->y, map->rows);
  f.axis = widest(sheet, &f, put_row_name, map->rows);
  if (f.axis > MOST_AXIS) f.axis = MOST_AXIS;
  choose_cells(sheet, &f);
  return f;
}

/* Dresses `text` and puts it so that it ends `columns` further on; what is
 * longer is cut. `text` is emptied. */
static void put_right(scwi_sheet *sheet, scwi_text *line, scwi_text *text,
                      size_t columns) {
  scwi_text dressed = {0};
  scwi_sheet_dress(&dressed, text->data ? text->data : "",
                   sheet->options.ascii);
  size_t used = scwi_sheet_columns(&dressed);
  while (used > columns && dressed.length > 0) { /* whole characters */
    while (dressed.length > 0 &&
           ((unsigned char)dressed.data[dressed.length - 1] & 0xC0U) == 0x80U)
      dressed.length--;
    if (dressed.length > 0) dressed.length--;
    dressed.data[dressed.length] = 0;
    used = scwi_sheet_columns(&dressed);
  }
  scwi_text_repeat(line, ' ', columns - used);
  if (dressed.length) scwi_text_append(line, dressed.data, dressed.length);
  if (text->failed || dressed.failed) sheet->text.failed = true;
  scwi_text_free(&dressed);
  scwi_text_clear(text);
}

static void print_row(scwi_sheet *sheet, const frame *f, size_t row) {
  scwi_text line = {0}, part = {0};
  put_row_name(&part, f, row);
  put_right(sheet, &line, &part, SCWI_SHEET_INDENT + f->axis);
  for (size_t c = 0; c < f->map->columns; c++) {
    size_t cell = row * f->map->columns + c;
    if (f->numbers) {
      put_value(&part, f, cell);
      put_right(sheet, &line, &part, f->number + 2);
    }
    if (!f->marks) continue;
    size_t height = height_of(f, f->map->mean[cell]);
    if (height || !f->numbers) put_mark(&part, height);
    put_right(sheet, &line, &part, 2);
  }
  scwi_sheet_line(sheet, &line);
  scwi_text_free(&line);
  scwi_text_free(&part);
}

/* Columns for the name of an end; what is longer is cut. */
static size_t end_columns(const scwi_sheet *sheet, const scwi_text *name) {
  size_t columns = name->data ? columns_of(sheet, name->data) : 0;
  return columns < MOST_END ? columns : MOST_END;
}

/* The names of the columns below them; below marks alone those of the ends. */
static void print_columns(scwi_sheet *sheet, const frame *f) {
  scwi_text line = {0}, part = {0};
  size_t last = f->map->columns - 1;
  scwi_text_repeat(&line, ' ', SCWI_SHEET_INDENT + f->axis);
  for (size_t c = 0; f->numbers && c <= last; c++) {
    put_column_name(&part, f, c);
    put_right(sheet, &line, &part, f->number + 2);
    if (f->marks) scwi_text_repeat(&line, ' ', 2);
  }
  if (!f->numbers) {
    scwi_text_add(&line, " ");
    put_column_name(&part, f, 0);
    size_t used = end_columns(sheet, &part);
    put_right(sheet, &line, &part, used);
    put_column_name(&part, f, last);
    size_t ends = end_columns(sheet, &part);
    size_t room = f->cell * f->map->columns - 1;
    put_right(sheet, &line, &part,
              used + ends < room ? room - used : ends + 1);
  }
  scwi_sheet_line(sheet, &line);
  scwi_text_free(&line);
  scwi_text_free(&part);
}

/* What the map shows, and where up is. */
static void print_heading(scwi_sheet *sheet, const frame *f) {
  const scwi_map_words *w = f->words;
  scwi_text text = {0};
  scwi_text_add(&text, f->map->grid ? "Each place its mean"
                                    : "Each cell the mean of its spots");
  if (w->unit && *w->unit) {
    scwi_text_add(&text, " in ");
    scwi_text_add(&text, w->unit);
  }
  bool down = f->map->rows > 1 && f->map->y[1] < f->map->y[0];
  scwi_text_add(&text, down ? "; columns to the right, rows downwards"
                            : "; x to the right, y upwards");
  if (w->length_unit && *w->length_unit) {
    scwi_text_add(&text, ", in ");
    scwi_text_add(&text, w->length_unit);
  }
  scwi_sheet_hanging(sheet, "", 0, text.data);
  if (text.failed) sheet->text.failed = true;
  scwi_text_free(&text);
}

/* "1 from 82.1, 2 from 82.6, ... 8 from 85.8 to 86.3 GU". */
static void print_legend(scwi_sheet *sheet, const frame *f, bool holes) {
  scwi_text text = {0};
  double step = f->high / MARKS - f->low / MARKS;
  for (size_t k = 0; f->marks && k < MARKS; k++) {
    scwi_word_join(&text, ", ");
    put_mark(&text, k + 1);
    scwi_text_add(&text, k == 0 ? SCWI_TIE "from" SCWI_TIE : SCWI_TIE);
    scwi_put_fixed(&text, f->low + (double)k * step, f->words->decimals);
  }
  if (f->marks) {
    scwi_text_add(&text, " to ");
    scwi_word_quantity(&text, f->high, f->words->decimals, f->words->unit);
  }
  if (holes) {
    scwi_word_join(&text, "; ");
    scwi_text_add(&text, NO_SPOT SCWI_TIE "no" SCWI_TIE "spot");
  }
  if (text.length) scwi_sheet_hanging(sheet, "", 0, text.data);
  if (text.failed) sheet->text.failed = true;
  scwi_text_free(&text);
}

void scwi_sheet_map(scwi_sheet *sheet, const scw_place_map *map,
                    const scwi_map_words *words) {
  if (map->rows == 0 || map->columns == 0) return;
  frame f = frame_of(sheet, map, words);
  if (!(f.low <= f.high)) return;
  bool holes = false;
  for (size_t i = 0; i < map->rows * map->columns; i++)
    holes = holes || isnan(map->mean[i]);
  print_heading(sheet, &f);
  for (size_t row = map->rows; row-- > 0;) print_row(sheet, &f, row);
  print_columns(sheet, &f);
  print_legend(sheet, &f, holes);
}
