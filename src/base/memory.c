/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "memory.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static scw_status no_memory(scw_context *context) {
  return scwi_fail(context, SCW_OUT_OF_MEMORY,
                   "memory ran out; close other programs or split the file");
}

scw_status scwi_allocate(scw_context *context, size_t count, size_t size,
                         void **out) {
  *out = calloc(count ? count : 1, size);
  return *out ? SCW_OK : no_memory(context);
}

scw_status scwi_reserve(scw_context *context, size_t needed, size_t size,
                        void **items, size_t *capacity) {
  if (needed <= *capacity) return SCW_OK;
  size_t wanted = *capacity + *capacity / 2;
  if (wanted < needed) wanted = needed;
  if (wanted < 16) wanted = 16;
  if (wanted > SIZE_MAX / size) return no_memory(context);
  void *grown = realloc(*items, wanted * size);
  if (!grown) return no_memory(context);
  *items = grown;
  *capacity = wanted;
  return SCW_OK;
}

scw_status scwi_copy_text(scw_context *context, const char *text,
                          size_t length, char **out) {
  scw_status status = SCWI_ALLOCATE(context, length + 1, out);
  if (status == SCW_OK && length) memcpy(*out, text, length);
  return status;
}
