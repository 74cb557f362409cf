/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "panel_places.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "decimal.h"
#include "memory.h"

static int letter_at(char c) {
  return c >= 'A' && c <= 'Z'   ? c - 'A' + 1
         : c >= 'a' && c <= 'z' ? c - 'a' + 1
                                : 0;
}

/* The number of leading letters, at most two: more are a word. */
static size_t letters_of(const char *text, size_t length, double *number) {
  size_t n = 0;
  *number = 0;
  while (n < length && letter_at(text[n])) {
    *number = *number * 26 + letter_at(text[n]);
    n++;
  }
  return n <= 2 ? n : 0;
}

double scwi_grid_number(const char *text, size_t length, bool *letters) {
  double number;
  scwi_decimal decimal;
  if (length && letters_of(text, length, &number) == length) {
    *letters = true;
    return number;
  }
  return length && scwi_decimal_read(text, length, '.', &decimal) ==
                       SCWI_DECIMAL_OK
             ? decimal.value
             : NAN;
}

/* A1: row A, column 1. */
static bool read_spot(const char *text, double *row, double *column) {
  size_t length = strlen(text), n = letters_of(text, length, row);
  *column = 0;
  if (n == 0 || n == length || length - n > 3) return false;
  for (size_t i = n; i < length; i++) {
    if (text[i] < '0' || text[i] > '9') return false;
    *column = *column * 10 + (text[i] - '0');
  }
  return *column > 0;
}

static const scw_reading *reading_at(const scw_table *table,
                                     const scwi_panel_parts *parts, size_t i) {
  return &scw_table_readings(table)[parts->index[i]];
}

/* A file that says x only has its spots on one line. */
static bool take_xy(const scw_table *table, scwi_panel_parts *parts) {
  bool any_x = false, any_y = false;
  for (size_t i = 0; i < parts->n_readings; i++) {
    parts->along[i] = reading_at(table, parts, i)->x;
    parts->across[i] = reading_at(table, parts, i)->y;
    any_x = any_x || isfinite(parts->along[i]);
    any_y = any_y || isfinite(parts->across[i]);
  }
  for (size_t i = 0; i < parts->n_readings && any_x != any_y; i++) {
    if (!any_x) parts->along[i] = 0;
    if (!any_y) parts->across[i] = 0;
  }
  return any_x || any_y;
}

static double number_at(const scw_table *table, int32_t label, bool *letters) {
  const char *text = scw_table_label(table, label);
  return scwi_grid_number(text, strlen(text), letters);
}

static bool take_grid(const scw_table *table, scwi_panel_parts *parts) {
  bool any = false;
  for (size_t i = 0; i < parts->n_readings; i++) {
    const scw_reading *reading = reading_at(table, parts, i);
    parts->across[i] =
        number_at(table, reading->grid_row, &parts->letter_rows);
    parts->along[i] =
        number_at(table, reading->grid_column, &parts->letter_columns);
    any = any || (isfinite(parts->along[i]) && isfinite(parts->across[i]));
  }
  return any;
}

enum { MOST_ROWS = 702, MOST_COLUMNS = 999 }; /* ZZ; three digits */

/* Spots by their labels: how many, in how many rows and columns. */
typedef struct spot_grid {
  bool row[MOST_ROWS + 1], column[MOST_COLUMNS + 1];
  size_t rows, columns, spots;
} spot_grid;

static void add_spot(spot_grid *grid, size_t row, size_t column) {
  grid->spots++;
  grid->rows += !grid->row[row];
  grid->columns += !grid->column[column];
  grid->row[row] = grid->column[column] = true;
}

/* False when a spot is no letter and number. */
static bool look_at_spots(const scw_table *table,
                          const scwi_panel_parts *parts, bool *seen,
                          spot_grid *grid) {
  for (size_t i = 0; i < parts->n_readings; i++) {
    int32_t label = reading_at(table, parts, i)->spot;
    double row, column;
    if (label == SCW_NO_LABEL) return false;
    if (seen[label]) continue;
    if (!read_spot(scw_table_label(table, label), &row, &column)) return false;
    seen[label] = true;
    add_spot(grid, (size_t)row, (size_t)column);
  }
  return true;
}

/* Every spot a letter and a number, and together half of a grid or more with
 * several rows and columns: S1, S2, S3 are just names. */
static scw_status look_for_grid(scw_context *context, const scw_table *table,
                                const scwi_panel_parts *parts, bool *found) {
  uint32_t most = 0;
  bool *seen;
  spot_grid grid = {.rows = 0};
  for (size_t i = 0; i < parts->n_readings; i++)
    if (parts->spot[i] > most) most = parts->spot[i];
  scw_status status = SCWI_ALLOCATE(context, (size_t)most + 1, &seen);
  if (status) return status;
  *found = look_at_spots(table, parts, seen, &grid) && grid.rows > 1 &&
           grid.columns > 1 && 2 * grid.spots >= grid.rows * grid.columns;
  free(seen);
  return SCW_OK;
}

static scw_status take_spots(scw_context *context, const scw_table *table,
                             scwi_panel_parts *parts, bool *found) {
  scw_status status = look_for_grid(context, table, parts, found);
  for (size_t i = 0; i < parts->n_readings && *found; i++)
    read_spot(scw_table_label(table, reading_at(table, parts, i)->spot),
              &parts->across[i], &parts->along[i]);
  if (*found) parts->letter_rows = true;
  return status;
}

/* A reading and its place, to tell places apart. */
typedef struct placed {
  double along, across;
  size_t reading;
} placed;

static int by_place(const void *left, const void *right) {
  const placed *a = left, *b = right;
  if (a->along != b->along) return a->along < b->along ? -1 : 1;
  return (a->across > b->across) - (a->across < b->across);
}

/* Spots without a name are told by where they are. */
static scw_status number_spots(scw_context *context, scwi_panel_parts *parts) {
  placed *all;
  size_t n = 0;
  uint32_t number = 0;
  scw_status status = SCWI_ALLOCATE(context, parts->n_readings, &all);
  if (status) return status;
  for (size_t i = 0; i < parts->n_readings; i++)
    if (isfinite(parts->along[i]) && isfinite(parts->across[i]))
      all[n++] = (placed){parts->along[i], parts->across[i], i};
  qsort(all, n, sizeof *all, by_place);
  for (size_t i = 0; i < n; i++) {
    number += i == 0 || by_place(&all[i - 1], &all[i]) != 0;
    parts->spot[all[i].reading] = number;
  }
  parts->spots = n > 0;
  free(all);
  return SCW_OK;
}

scw_status scwi_panel_places(scw_context *context, const scw_table *table,
                             scwi_panel_parts *parts) {
  bool found = false;
  scw_status status = SCW_OK;
  if (take_xy(table, parts)) {
    parts->positions = SCW_POSITIONS_XY;
  } else if (take_grid(table, parts)) {
    parts->positions = SCW_POSITIONS_GRID;
  } else if (parts->spots) {
    status = take_spots(context, table, parts, &found);
    if (found) parts->positions = SCW_POSITIONS_SPOTS;
  }
  if (status || parts->spots || parts->positions == SCW_POSITIONS_NONE)
    return status;
  return number_spots(context, parts);
}

scw_status scwi_length_unit(scw_context *context, const scw_table *table,
                            char **out) {
  const char *header = scw_table_input(table, 0)->role_column[SCW_ROLE_X];
  size_t length = header ? strlen(header) : 0, first = length;
  char close = length ? header[length - 1] : 0;
  char open = close == ')' ? '(' : close == ']' ? '[' : 0;
  while (open && first > 0 && header[first - 1] != open) first--;
  if (!open || first == 0) return scwi_copy_text(context, "", 0, out);
  return scwi_copy_text(context, header + first, length - 1 - first, out);
}
