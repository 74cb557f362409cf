/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A panel drawn in characters, about twice as high as they are wide. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "spot_list.h"

enum { MOST_WIDE = 60, MOST_HIGH = 20, WIDTH = MOST_WIDE + 1 };

typedef struct map {
  char cell[MOST_HIGH][WIDTH];
  int wide, high;
} map;

static map blank_map(const scw_layout_request *request) {
  map m = {.wide = MOST_WIDE};
  double high = rint(MOST_WIDE * request->height / request->width / 2);
  if (high > MOST_HIGH) {
    m.wide = (int)fmax(8, rint(2 * MOST_HIGH * request->width /
                               request->height));
    high = MOST_HIGH;
  }
  m.high = (int)fmax(high, 3);
  for (int row = 0; row < m.high; row++)
    memset(m.cell[row], ' ', (size_t)m.wide);
  return m;
}

static int cell_of(double at, double size, int cells) {
  return (int)fmin(floor(at / size * cells), cells - 1);
}

/* The number ends where the spot is; a place already taken gets a star. */
static void mark(map *m, const scw_layout_request *request,
                 const scw_spot *spot) {
  char number[24];
  int right = cell_of(spot->x, request->width, m->wide);
  int row = m->high - 1 - cell_of(spot->y, request->height, m->high);
  int n = snprintf(number, sizeof number, "%zu", spot->number);
  int first = right - n + 1 > 0 ? right - n + 1 : 0;
  bool free = first + n <= m->wide;
  for (int i = -1; i <= n && free; i++) {
    int at = first + i;
    if (at >= 0 && at < m->wide && m->cell[row][at] != ' ' &&
        m->cell[row][at] != ':')
      free = false;
  }
  if (free)
    memcpy(&m->cell[row][first], number, (size_t)n);
  else
    m->cell[row][right] = '*';
}

static void border(scwi_sheet *sheet, const map *m) {
  scwi_text line = {0};
  scwi_text_add(&line, "  +");
  scwi_text_repeat(&line, '-', (size_t)m->wide);
  scwi_text_add(&line, "+");
  scwi_sheet_line(sheet, &line);
  scwi_text_free(&line);
}

/* The line between the halves. */
static void halve(map *m, const scw_layout_request *request) {
  bool across = request->width >= request->height;
  for (int row = 0; row < m->high && across; row++)
    m->cell[row][m->wide / 2] = ':';
  if (!across) memset(m->cell[m->high / 2], '.', (size_t)m->wide);
}

void scwi_spot_map(scwi_sheet *sheet, const scw_layout_result *list) {
  const scw_layout_request *request = &list->request;
  map m = blank_map(request);
  if (request->halves) halve(&m, request);
  for (size_t i = 0; i < list->n_spots && i < request->spots; i++)
    mark(&m, request, &list->spots[i]);
  scwi_sheet_gap(sheet);
  border(sheet, &m);
  for (int row = 0; row < m.high; row++) {
    scwi_text line = {0};
    scwi_text_add(&line, "  |");
    scwi_text_append(&line, m.cell[row], (size_t)m.wide);
    scwi_text_add(&line, "|");
    scwi_sheet_line(sheet, &line);
    scwi_text_free(&line);
  }
  border(sheet, &m);
}
