/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Source: MT19937, M. Matsumoto & T. Nishimura, ACM TOMACS 8 (1998), with the
 * seeding of 2002, by GSL. It takes 32 bits of seed: the upper half of a
 * longer one is folded in, and 0 means 4357. */
#include "random.h"

#include <stdint.h>
#include <stdlib.h>

#include <gsl/gsl_rng.h>

#include "context.h"
#include "memory.h"

struct scwi_random {
  gsl_rng *stream;
};

scw_status scwi_random_new(scw_context *context, unsigned long long seed,
                           scwi_random **out) {
  scw_status status = SCWI_ALLOCATE(context, 1, out);
  if (status) return status;
  (*out)->stream = gsl_rng_alloc(gsl_rng_mt19937);
  if (!(*out)->stream) {
    scwi_random_free(*out);
    *out = NULL;
    return scwi_fail(context, SCW_OUT_OF_MEMORY,
                     "memory ran out for a stream of random numbers");
  }
  uint64_t folded = (uint64_t)seed ^ ((uint64_t)seed >> 32) * 2654435761U;
  gsl_rng_set((*out)->stream, (unsigned long)(folded & 0xffffffffU));
  return SCW_OK;
}

void scwi_random_free(scwi_random *random) {
  if (!random) return;
  gsl_rng_free(random->stream);
  free(random);
}

static uint64_t draw(scwi_random *random, int bits) {
  uint64_t value = gsl_rng_get(random->stream);
  return bits == 32 ? value
                    : value << 32 | (uint64_t)gsl_rng_get(random->stream);
}

/* Draws that would favour the small remainders are thrown away. */
size_t scwi_random_below(scwi_random *random, size_t limit) {
  if (limit < 2) return 0;
  uint64_t wide = limit;
  int bits = wide - 1 <= 0xffffffffU ? 32 : 64;
  uint64_t largest = bits == 32 ? 0xffffffffU : UINT64_MAX;
  uint64_t unfair = (largest % wide + 1) % wide, value;
  do value = draw(random, bits);
  while (value > largest - unfair);
  return (size_t)(value % wide);
}
