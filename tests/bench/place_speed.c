/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Processor time of everything about place, by the number of places:
 * place_speed. A grid with waves, so that the correlation model has something
 * to find. The least of several rounds. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "draw.h"
#include "place.h"

enum { MOST = 10000 };

static double seconds(scw_context *context, const scw_place_spot *spots,
                      size_t n) {
  static scw_place place;
  scwi_place_options options = {0.95, 0.1, 0};
  double least = INFINITY;
  int times = n < 50 ? 1000 : 1; /* the clock is coarse */
  for (int round = 0; round < 5; round++) {
    clock_t start = clock();
    for (int k = 0; k < times; k++)
      if (scwi_place(context, spots, n, &options, &place) != SCW_OK) exit(1);
    double used = (double)(clock() - start) / CLOCKS_PER_SEC / times;
    least = fmin(least, used);
  }
  return least;
}

int main(void) {
  static const size_t columns[] = {5, 6, 10, 10, 20, 20, 25, 40, 100};
  static const size_t rows[] = {2, 5, 6, 10, 10, 15, 40, 100, 100};
  static scw_place_spot spots[MOST];
  draw random = {20260420};
  scw_context *context;
  if (scw_context_new(&context) != SCW_OK) return 1;
  printf("places,seconds\n");
  for (size_t k = 0; k < sizeof rows / sizeof *rows; k++) {
    size_t n = columns[k] * rows[k];
    for (size_t i = 0; i < n; i++) {
      double x = (double)(i % columns[k]) / (double)columns[k];
      double y = (double)(i / columns[k]) / (double)rows[k];
      spots[i] = (scw_place_spot){
          x, y, 84 + sin(9 * x) + cos(7 * y) + draw_normal(&random)};
    }
    printf("%zu,%.6f\n", n, seconds(context, spots, n));
    fflush(stdout);
  }
  scw_context_free(context);
  return 0;
}
