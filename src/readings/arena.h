/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Short texts that live and die together; their addresses never move. */
#ifndef SCWI_ARENA_H
#define SCWI_ARENA_H

#include "context.h"

typedef struct scwi_arena {
  struct scwi_chunk *chunks; /* newest first */
} scwi_arena;

/* A copy of `length` bytes with a closing zero. */
scw_status scwi_arena_copy(scw_context *context, scwi_arena *arena,
                           const char *text, size_t length, const char **out);
void scwi_arena_free(scwi_arena *arena);

#endif
