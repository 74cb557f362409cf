/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any bytes as a JSON file: refused in words and at a place, or taken, and
 * then cJSON, which is more lenient, must take them as well and find as many
 * values. */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cjson/cJSON.h>

#include "json_in.h"

typedef struct bytes_source {
  const char *bytes;
  size_t size, at;
} bytes_source;

static int read_bytes(void *user, char *buffer, size_t size, size_t *got) {
  bytes_source *source = user;
  size_t n = source->size - source->at;
  if (n > size) n = size;
  if (n) memcpy(buffer, source->bytes + source->at, n);
  source->at += n;
  *got = n;
  return 0;
}

static void demand(int holds) {
  if (!holds) abort();
}

static size_t count_ours(const scwi_json_value *value) {
  size_t n = 1;
  for (const scwi_json_value *one = value->first; one; one = one->next)
    n += count_ours(one);
  return n;
}

static size_t count_theirs(const cJSON *value) {
  size_t n = 1;
  for (const cJSON *one = value->child; one; one = one->next)
    n += count_theirs(one);
  return n;
}

static void read_json(scw_context *context, bytes_source from) {
  scwi_json_file file;
  scw_status status = scwi_json_read(
      context, (scw_source){read_bytes, &from, "input"}, &file);
  if (status == SCW_OK) {
    /* cJSON passes over a byte order mark only before longer texts */
    bool marked = from.size >= 3 && !memcmp(from.bytes, "\xEF\xBB\xBF", 3);
    size_t start = marked ? 3 : 0;
    cJSON *judge =
        cJSON_ParseWithLength(from.bytes + start, from.size - start);
    demand(judge != NULL);
    demand(count_ours(file.root) == count_theirs(judge));
    cJSON_Delete(judge);
  } else {
    demand(status == SCW_BAD_INPUT && scw_context_line(context) > 0 &&
           scw_context_column(context) > 0);
  }
  scwi_json_file_free(&file);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  scw_context *context;
  bytes_source from = {(const char *)data, size, 0};
  if (scw_context_new(&context) != SCW_OK) return 0;
  read_json(context, from);
  scw_context_free(context);
  return 0;
}
