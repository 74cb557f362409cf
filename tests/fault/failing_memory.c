/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "failing_memory.h"

#include <errno.h>
#include <stdatomic.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* glibc's own allocator under its other names. */
void *__libc_malloc(size_t size);
void *__libc_realloc(void *old, size_t size);
void *__libc_memalign(size_t alignment, size_t size);
void __libc_free(void *block);

/* A block taken while counting carries a mark in front, so that giving back
 * older blocks is not mistaken for it. */
typedef struct front {
  uint64_t mark;
  uint64_t size;
} front;
static const uint64_t counted_mark = 0x636f756e74656421U;
static const uint64_t other_mark = 0x6e6f742063616c6cU;

static atomic_bool counting;
static atomic_long failing_request, requests, live;
static atomic_bool failed;

void failing_memory_start(long failing) {
  atomic_store(&failing_request, failing);
  atomic_store(&requests, 0);
  atomic_store(&live, 0);
  atomic_store(&failed, false);
  atomic_store(&counting, true);
}

failing_memory_account failing_memory_stop(void) {
  atomic_store(&counting, false);
  return (failing_memory_account){atomic_load(&requests), atomic_load(&live),
                                  atomic_load(&failed)};
}

/* Whether this request is the one that fails. */
static bool fails(void) {
  if (!atomic_load(&counting)) return false;
  if (atomic_fetch_add(&requests, 1) + 1 != atomic_load(&failing_request))
    return false;
  atomic_store(&failed, true);
  errno = ENOMEM;
  return true;
}

static void *take(size_t size) {
  if (size > PTRDIFF_MAX - sizeof(front)) {
    errno = ENOMEM;
    return NULL;
  }
  front *block = __libc_malloc(sizeof(front) + size);
  if (!block) return NULL;
  bool counted = atomic_load(&counting);
  if (counted) atomic_fetch_add(&live, 1);
  *block = (front){counted ? counted_mark : other_mark, size};
  return block + 1;
}

void *malloc(size_t size) { return fails() ? NULL : take(size); }

void *calloc(size_t n, size_t size) {
  if (size && n > (PTRDIFF_MAX - sizeof(front)) / size) {
    errno = ENOMEM;
    return NULL;
  }
  void *block = malloc(n * size);
  if (block) memset(block, 0, n * size);
  return block;
}

void free(void *block) {
  if (!block) return;
  front *mine = (front *)block - 1;
  if (mine->mark == counted_mark) atomic_fetch_sub(&live, 1);
  mine->mark = 0;
  __libc_free(mine);
}

/* Always moves, so that a pointer kept across growing shows. */
void *realloc(void *old, size_t size) {
  void *block = malloc(size);
  if (!block || !old) return block;
  size_t had = ((front *)old - 1)->size;
  memcpy(block, old, had < size ? had : size);
  free(old);
  return block;
}

/* Aligned blocks would not start behind a front; nothing here asks for them
 * except the loader, which may have plain room. */
void *aligned_alloc(size_t alignment, size_t size) {
  return alignment <= sizeof(front) ? malloc(size) : NULL;
}

int posix_memalign(void **out, size_t alignment, size_t size) {
  *out = aligned_alloc(alignment, size);
  return *out ? 0 : ENOMEM;
}
