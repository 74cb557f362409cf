/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Deviates and stream numbers for their judge: a line of names and counts, then
 * the numbers themselves, eight bytes each. Drawn in blocks of 1000, as many as
 * named, so that block borders are part of what is judged. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "deviates.h"

enum { BLOCK = 1000, BLOCKS = 1000 };

static void put(const void *from, size_t n) { fwrite(from, 8, n, stdout); }

static void streams(void) {
  static const uint64_t at[][3] = {
      {0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {UINT64_MAX, 7, 123456789}};
  for (size_t i = 0; i < sizeof at / sizeof *at; i++) {
    uint64_t bits[10];
    scwi_stream_at stream = scwi_stream_start(at[i][0], at[i][1], at[i][2]);
    scwi_stream_bits(&stream, bits, 10);
    put(at[i], 3);
    put(bits, 10);
  }
}

static void deviates(const scwi_ziggurat *z, const char *name, double df) {
  double x[BLOCK];
  for (uint64_t b = 0; b < BLOCKS; b++) {
    scwi_stream_at stream = scwi_stream_start(20260314, 5, b);
    if (!strcmp(name, "symmetric"))
      scwi_symmetric_deviates(&stream, x, BLOCK);
    else if (!strcmp(name, "normal"))
      scwi_normal_deviates(z, &stream, x, BLOCK);
    else if (!strcmp(name, "arcsine"))
      scwi_arcsine_deviates(&stream, x, BLOCK);
    else
      scwi_t_factors(z, &stream, df, x, BLOCK);
    put(x, BLOCK);
  }
}

int main(int argc, char **argv) {
  scwi_ziggurat z;
  scwi_ziggurat_make(&z);
  if (argc == 2 && !strcmp(argv[1], "streams"))
    streams();
  else if (argc == 2 && !strcmp(argv[1], "ziggurat"))
    put(z.edge, SCWI_ZIGGURAT + 1), put(z.density, SCWI_ZIGGURAT + 1);
  else if (argc == 3)
    deviates(&z, argv[1], strtod(argv[2], NULL));
  else
    return 2;
  return fflush(stdout) ? 1 : 0;
}
