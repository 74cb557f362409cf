/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Memory with checked sizes. Free with free(). */
#ifndef SCWI_MEMORY_H
#define SCWI_MEMORY_H

#include "context.h"

/* Zeroed room for `count` items of `size` bytes (count 0 gives room for one).
 * *out is null on failure. Use: scwi_allocate(ctx, n, sizeof *p, &p) through
 * the SCWI_ALLOCATE macro, which takes the size from the pointer. */
scw_status scwi_allocate(scw_context *context, size_t count, size_t size,
                         void **out);
#define SCWI_ALLOCATE(context, count, pointer)                                 \
  scwi_allocate((context), (count), sizeof **(pointer), (void **)(pointer))

/* Makes *items hold at least `needed` items, growing by halves; the old items
 * stay. On failure nothing changes. */
scw_status scwi_reserve(scw_context *context, size_t needed, size_t size,
                        void **items, size_t *capacity);
#define SCWI_RESERVE(context, needed, pointer, capacity)                       \
  scwi_reserve((context), (needed), sizeof **(pointer), (void **)(pointer),    \
               (capacity))

/* A copy of `length` bytes of text with a closing zero. */
scw_status scwi_copy_text(scw_context *context, const char *text,
                          size_t length, char **out);

#endif
