/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Made-up panels for the tests of place. */
#ifndef PLACE_PANEL_H
#define PLACE_PANEL_H

#include <math.h>
#include <string.h>

#include "place.h"

enum { PANEL_MOST = 400 };

typedef struct panel {
  size_t n;
  scw_place_spot spot[PANEL_MOST];
} panel;

/* Without a pattern that place could show. */
static inline double noise(size_t i) {
  double wide = sin(12.9898 * (double)(i + 1)) * 43758.5453;
  return 2 * (wide - floor(wide)) - 1;
}

/* columns x rows, 10 apart in x and 8 in y, about 84 with noise of +-1. */
static inline panel grid_panel(size_t columns, size_t rows) {
  panel p = {.n = columns * rows};
  for (size_t i = 0; i < p.n; i++)
    p.spot[i] = (scw_place_spot){10 * (double)(i % columns),
                                 8 * (double)(i / columns), 84 + noise(i)};
  return p;
}

/* Spots anywhere on 100 x 60. */
static inline panel scattered_panel(size_t n) {
  panel p = {.n = n};
  for (size_t i = 0; i < n; i++)
    p.spot[i] = (scw_place_spot){50 + 50 * noise(3 * i + 7),
                                 30 + 30 * noise(5 * i + 11), 84 + noise(i)};
  return p;
}

/* Neighbours resemble each other: waves a few spots long. */
static inline void make_waves(panel *p, double height, double length) {
  for (size_t i = 0; i < p->n; i++)
    p->spot[i].mean += height * (sin(p->spot[i].x / length) +
                                 cos(p->spot[i].y / length + 1));
}

static inline scw_place place_of(scw_context *context, const panel *p) {
  scw_place place;
  scwi_place_options options = {0.95, 0, 0};
  assert_int_equal(scwi_place(context, p->spot, p->n, &options, &place),
                   SCW_OK);
  return place;
}

#endif
