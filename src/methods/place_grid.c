/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdlib.h>

#include "memory.h"
#include "place_spots.h"

/* Lines of a grid lie farther apart than this, in half sides of the panel. */
#define SAME_LINE 1e-6

static int ascending(const void *a, const void *b) {
  double p = *(const double *)a, q = *(const double *)b;
  return (p > q) - (p < q);
}

/* Middles of the lines: sorted positions, those on one line together. */
static size_t lines_of(const double *position, size_t n, double *lines) {
  size_t found = 0;
  for (size_t i = 0; i < n; i++) lines[i] = position[i];
  qsort(lines, n, sizeof *lines, ascending);
  for (size_t i = 0; i < n; i++)
    if (found == 0 || lines[i] - lines[found - 1] > SAME_LINE)
      lines[found++] = lines[i];
  return found;
}

/* The last line that does not lie above the position. */
static size_t line_of(double position, const double *lines, size_t n) {
  size_t low = 0, high = n;
  while (high - low > 1) {
    size_t middle = low + (high - low) / 2;
    if (lines[middle] <= position) low = middle;
    else high = middle;
  }
  return low;
}

scw_status scwi_place_grid_of(scw_context *context, const scwi_places *places,
                              scwi_place_grid *out) {
  size_t n = places->n;
  double *x;
  *out = (scwi_place_grid){.rows = 0};
  scw_status status = SCWI_ALLOCATE(context, 2 * n, &x);
  if (status != SCW_OK) return status;
  double *y = x + n;
  size_t columns = lines_of(places->u, n, x), rows = lines_of(places->v, n, y);
  bool grid = n > 1 && (double)columns * (double)rows <= 2 * (double)n;
  status = SCWI_ALLOCATE(context, 2 * n, &out->row);
  if (status == SCW_OK && grid) {
    out->rows = rows;
    out->columns = columns;
    out->column = out->row + n;
    for (size_t i = 0; i < n; i++) {
      out->row[i] = line_of(places->v[i], y, rows);
      out->column[i] = line_of(places->u[i], x, columns);
    }
  }
  free(x);
  return status;
}

void scwi_place_grid_free(scwi_place_grid *grid) {
  free(grid->row);
  *grid = (scwi_place_grid){.rows = 0};
}
