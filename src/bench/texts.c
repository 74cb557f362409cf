/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "texts.h"

#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "utf8.h"

bool scwi_is_readable(const char *text) {
  size_t length = strlen(text);
  bool cut;
  for (size_t i = 0, n; i < length; i += n) {
    n = scwi_utf8_sequence(text + i, length - i, &cut);
    if (n == 0 || (unsigned char)text[i] < ' ' || text[i] == 0x7F) return false;
  }
  return length == 0 || (text[0] != ' ' && text[length - 1] != ' ');
}

static const char **text_at(void *item, size_t offset) {
  return (const char **)((char *)item + offset);
}

scw_status scwi_texts_own(scw_context *context, void *item,
                          const size_t *offsets, size_t n) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < n; i++) {
    const char **text = text_at(item, offsets[i]);
    const char *from = *text ? *text : "";
    char *copy = NULL;
    if (!status) status = scwi_copy_text(context, from, strlen(from), &copy);
    *text = copy;
  }
  if (status) scwi_texts_free(item, offsets, n);
  return status;
}

void scwi_texts_free(void *item, const size_t *offsets, size_t n) {
  for (size_t i = 0; i < n; i++) {
    const char **text = text_at(item, offsets[i]);
    free((void *)*text);
    *text = NULL;
  }
}
