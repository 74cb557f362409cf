/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "json_out.h"

#include <stdio.h>
#include <string.h>

#include <cjson/cJSON.h>

#include "json_text.h"
#include "number_text.h"
#include "text.h"
#include "utf8.h"
#include "write.h"

/* A scwi_json is a cJSON object or array under another name. cJSON does not
 * use valueint of these two, which leaves room to remember a failure. */
static cJSON *item_of(scwi_json *value) { return (cJSON *)value; }

static void mark_failed(scwi_json *value) {
  if (value) item_of(value)->valueint = 1;
}

scwi_json *scwi_json_object(void) { return (scwi_json *)cJSON_CreateObject(); }
scwi_json *scwi_json_array(void) { return (scwi_json *)cJSON_CreateArray(); }
void scwi_json_free(scwi_json *value) { cJSON_Delete(item_of(value)); }

/* Adds an item of any kind; it is freed where it cannot be added. */
static void add_item(scwi_json *to, const char *key, cJSON *item) {
  bool added = false;
  if (to && item)
    added = key ? cJSON_AddItemToObject(item_of(to), key, item)
                : cJSON_AddItemToArray(item_of(to), item);
  if (added) return;
  cJSON_Delete(item);
  mark_failed(to);
}

void scwi_json_add(scwi_json *to, const char *key, scwi_json *child) {
  add_item(to, key, item_of(child));
}

/* cJSON passes bytes through, so what is not UTF-8 becomes U+FFFD here. */
static cJSON *make_text(const char *text) {
  scwi_text good = {0};
  scwi_text_append(&good, "", 0);
  for (size_t left = strlen(text); left;) {
    bool cut;
    size_t length = scwi_ascii_run(text, left);
    if (length == 0) length = scwi_utf8_sequence(text, left, &cut);
    if (length)
      scwi_text_append(&good, text, length);
    else
      scwi_text_append(&good, "\xEF\xBF\xBD", 3);
    if (length == 0) length = 1;
    text += length;
    left -= length;
  }
  cJSON *item = good.failed ? NULL : cJSON_CreateString(good.data);
  scwi_text_free(&good);
  return item;
}

void scwi_json_quote(scwi_text *to, const char *text) {
  cJSON *item = make_text(text);
  char *quoted = item ? cJSON_PrintUnformatted(item) : NULL;
  if (quoted)
    scwi_text_add(to, quoted);
  else
    to->failed = true;
  cJSON_free(quoted);
  cJSON_Delete(item);
}

void scwi_json_text(scwi_json *to, const char *key, const char *text) {
  add_item(to, key, text ? make_text(text) : cJSON_CreateNull());
}

void scwi_json_number(scwi_json *to, const char *key, double value) {
  char text[SCWI_NUMBER_SIZE];
  add_item(to, key, cJSON_CreateRaw(scwi_number_text(value, text)));
}

void scwi_json_whole(scwi_json *to, const char *key,
                     unsigned long long value) {
  char text[24];
  snprintf(text, sizeof text, "%llu", value);
  add_item(to, key, cJSON_CreateRaw(text));
}

void scwi_json_bool(scwi_json *to, const char *key, bool value) {
  add_item(to, key, cJSON_CreateBool(value));
}

void scwi_json_null(scwi_json *to, const char *key) {
  add_item(to, key, cJSON_CreateNull());
}

/* null under `key`, and the reason in to's "missing" object. */
static void add_missing(scwi_json *to, const char *key, scw_presence why) {
  scwi_json_null(to, key);
  if (!to) return;
  cJSON *missing =
      cJSON_GetObjectItemCaseSensitive(item_of(to), SCWI_JSON_MISSING);
  if (!missing) {
    missing = cJSON_CreateObject();
    cJSON *made = missing;
    add_item(to, SCWI_JSON_MISSING, made);
    if (!made || item_of(to)->valueint) return;
  }
  scwi_json_text((scwi_json *)missing, key, scw_presence_code(why));
}

void scwi_json_figure(scwi_json *to, const char *key, scw_figure figure) {
  if (figure.state == SCW_PRESENT)
    scwi_json_number(to, key, figure.value);
  else
    add_missing(to, key, figure.state);
}

void scwi_json_interval(scwi_json *to, const char *key,
                        scw_interval interval) {
  scwi_json *object = scwi_json_object();
  scwi_json_number(object, "level", interval.level);
  scwi_json_figure(object, "low", (scw_figure){interval.low, interval.state});
  scwi_json_figure(object, "high", (scw_figure){interval.high, interval.state});
  scwi_json_add(to, key, object);
}

/* Puts every "missing" object last; false when anything below had failed. */
static bool settle(cJSON *item) {
  cJSON *missing = NULL;
  bool good = !(cJSON_IsObject(item) || cJSON_IsArray(item)) ||
              item->valueint == 0;
  for (cJSON *child = item->child; child; child = child->next) {
    good = settle(child) && good;
    bool named = child->string && strcmp(child->string, SCWI_JSON_MISSING) == 0;
    if (named && child->next && cJSON_IsObject(child)) missing = child;
  }
  if (!missing) return good;
  cJSON_DetachItemViaPointer(item, missing);
  if (cJSON_AddItemToObject(item, SCWI_JSON_MISSING, missing)) return good;
  cJSON_Delete(missing);
  return false;
}

scw_status scwi_json_write(scw_context *context, scwi_json *value,
                           scw_sink sink) {
  bool good = value && settle(item_of(value));
  char *text = good ? cJSON_PrintUnformatted(item_of(value)) : NULL;
  scwi_json_free(value);
  if (!text)
    return scwi_fail(context, SCW_OUT_OF_MEMORY,
                     "memory ran out writing JSON");
  scw_status status = scwi_write_text(context, sink, text);
  cJSON_free(text);
  return status;
}
