/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "arena.h"

#include <stdlib.h>
#include <string.h>

#include "memory.h"

enum { CHUNK_SIZE = 4096 };

struct scwi_chunk {
  struct scwi_chunk *older;
  size_t used, size;
  char text[];
};

static scw_status add_chunk(scw_context *context, scwi_arena *arena,
                            size_t needed) {
  size_t size = needed > CHUNK_SIZE ? needed : CHUNK_SIZE;
  struct scwi_chunk *chunk;
  scw_status status =
      scwi_allocate(context, 1, sizeof *chunk + size, (void **)&chunk);
  if (status != SCW_OK) return status;
  chunk->older = arena->chunks;
  chunk->size = size;
  arena->chunks = chunk;
  return SCW_OK;
}

scw_status scwi_arena_copy(scw_context *context, scwi_arena *arena,
                           const char *text, size_t length, const char **out) {
  struct scwi_chunk *chunk = arena->chunks;
  *out = NULL;
  if (!chunk || chunk->size - chunk->used < length + 1) {
    scw_status status = add_chunk(context, arena, length + 1);
    if (status != SCW_OK) return status;
    chunk = arena->chunks;
  }
  char *copy = chunk->text + chunk->used;
  if (length) memcpy(copy, text, length);
  copy[length] = 0;
  chunk->used += length + 1;
  *out = copy;
  return SCW_OK;
}

void scwi_arena_free(scwi_arena *arena) {
  while (arena->chunks) {
    struct scwi_chunk *older = arena->chunks->older;
    free(arena->chunks);
    arena->chunks = older;
  }
}
