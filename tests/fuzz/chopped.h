/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bytes handed out in blocks, as a pipe does, and the one way a fuzzer says
 * that a promise was broken. */
#ifndef FUZZ_CHOPPED_H
#define FUZZ_CHOPPED_H

#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

typedef struct chopped {
  const uint8_t *bytes;
  size_t size, at, block; /* block 0: everything at once */
} chopped;

static inline int read_chopped(void *user, char *buffer, size_t size, size_t *got) {
  chopped *source = user;
  size_t n = source->size - source->at;
  if (source->block && n > source->block) n = source->block;
  if (n > size) n = size;
  if (n) memcpy(buffer, source->bytes + source->at, n);
  source->at += n;
  *got = n;
  return 0;
}

static inline void demand(int holds) {
  if (!holds) abort();
}

#endif
