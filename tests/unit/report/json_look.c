/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "json_look.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const cJSON *at(const cJSON *from, const char *path) {
  char key[64];
  while (from && *path) {
    size_t length = strcspn(path, ".");
    assert_true(length < sizeof key);
    memcpy(key, path, length);
    key[length] = 0;
    path += length + (path[length] != 0);
    from = cJSON_IsArray(from) ? cJSON_GetArrayItem(from, atoi(key))
                               : cJSON_GetObjectItemCaseSensitive(from, key);
  }
  return from;
}

void check_is(const cJSON *root, const char *path, double wanted) {
  const cJSON *value = at(root, path);
  if (!cJSON_IsNumber(value)) fail_msg("%s is no number", path);
  if (value->valuedouble != wanted) fail_msg("%s differs", path);
}

void check_text(const cJSON *root, const char *path, const char *wanted) {
  const cJSON *value = at(root, path);
  if (!cJSON_IsString(value)) fail_msg("%s is no text", path);
  assert_string_equal(value->valuestring, wanted);
}

void check_null(const cJSON *root, const char *path) {
  if (!cJSON_IsNull(at(root, path))) fail_msg("%s is not null", path);
}

void check_true(const cJSON *root, const char *path, bool wanted) {
  const cJSON *value = at(root, path);
  if (!cJSON_IsBool(value)) fail_msg("%s is neither true nor false", path);
  assert_int_equal(cJSON_IsTrue(value), wanted);
}

void check_missing(const cJSON *root, const char *object, const char *key,
                   const char *code) {
  char path[128];
  const char *dot = *object ? "." : "";
  snprintf(path, sizeof path, "%s%s%s", object, dot, key);
  check_null(root, path);
  snprintf(path, sizeof path, "%s%smissing.%s", object, dot, key);
  check_text(root, path, code);
}

void check_keys(const cJSON *root, const char *path, const char *keys) {
  char key[64];
  const cJSON *object = at(root, path);
  if (!cJSON_IsObject(object)) fail_msg("%s is no object", path);
  while (*keys) {
    size_t length = strcspn(keys, " ");
    memcpy(key, keys, length);
    key[length] = 0;
    if (!cJSON_GetObjectItemCaseSensitive(object, key))
      fail_msg("%s lacks %s", path, key);
    keys += length + (keys[length] == ' ');
  }
}

cJSON *parsed(scw_status status, written *to) {
  assert_int_equal(status, SCW_OK);
  const char *end = NULL;
  cJSON *root = cJSON_ParseWithOpts(to->text.data, &end, true);
  if (!root) fail_msg("no JSON: %.60s", end);
  assert_int_equal(to->text.data[to->text.length - 1], '\n');
  scwi_text_free(&to->text);
  return root;
}
