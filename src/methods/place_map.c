/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "place.h"

/* A whole number of cells between 1 and `most`. */
static size_t cells(double wanted, size_t most) {
  if (!(wanted > 1)) return 1;
  return wanted >= (double)most ? most : (size_t)(wanted + 0.5);
}

/* About one cell a place, as square as the panel allows. */
static void choose_cells(const scwi_places *p, scw_place_map *out) {
  double n = (double)p->n, shape = p->half_u / p->half_v;
  bool one_row = p->span == SCW_SPAN_ALONG_X;
  bool one_column = p->span == SCW_SPAN_ALONG_Y;
  out->columns = one_column ? 1
                 : one_row  ? cells(n, SCW_MAP_COLUMNS)
                            : cells(sqrt(n * shape), SCW_MAP_COLUMNS);
  out->rows = one_row      ? 1
              : one_column ? cells(n, SCW_MAP_ROWS)
                           : cells(sqrt(n / shape), SCW_MAP_ROWS);
}

static size_t cell_of(double position, double half, size_t n) {
  double place = half > 0 ? (position / half + 1) / 2 * (double)n : 0;
  size_t cell = place > 0 ? (size_t)place : 0;
  return cell < n ? cell : n - 1;
}

static double cell_middle(size_t cell, size_t n, double half) {
  return ((2 * (double)cell + 1) / (double)n - 1) * half;
}

/* Sums per cell first, with the middles of the cells. */
static void spread(const scwi_places *p, const scwi_place_grid *grid,
                   scw_place_map *map, size_t *count) {
  for (size_t i = 0; i < p->n; i++) {
    size_t row = map->grid ? grid->row[i]
                           : cell_of(p->v[i], p->half_v, map->rows);
    size_t column = map->grid ? grid->column[i]
                              : cell_of(p->u[i], p->half_u, map->columns);
    size_t cell = row * map->columns + column;
    map->mean[cell] += p->w[i];
    count[cell]++;
    if (!map->grid) continue;
    map->x[column] = p->middle_x + p->u[i] * p->length;
    map->y[row] = p->middle_y + p->v[i] * p->length;
  }
}

void scwi_place_map(const scwi_places *places, const scwi_place_grid *grid,
                    scw_place_map *out) {
  size_t count[SCW_MAP_ROWS * SCW_MAP_COLUMNS] = {0};
  *out = (scw_place_map){.grid = false};
  if (places->n < 2) return;
  out->grid = grid->rows > 0 && grid->rows <= SCW_MAP_ROWS &&
              grid->columns <= SCW_MAP_COLUMNS;
  out->rows = grid->rows;
  out->columns = grid->columns;
  if (!out->grid) choose_cells(places, out);
  for (size_t c = 0; !out->grid && c < out->columns; c++)
    out->x[c] = places->middle_x + places->length *
                cell_middle(c, out->columns, places->half_u);
  for (size_t r = 0; !out->grid && r < out->rows; r++)
    out->y[r] = places->middle_y + places->length *
                cell_middle(r, out->rows, places->half_v);
  spread(places, grid, out, count);
  for (size_t i = 0; i < out->rows * out->columns; i++)
    out->mean[i] = count[i] > 0
                       ? places->middle +
                             places->scale * (out->mean[i] / (double)count[i])
                       : NAN;
}
