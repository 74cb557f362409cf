/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Flat JSON objects without a tree. */
#include <string.h>

#include "json_out.h"
#include "json_text.h"
#include "number_text.h"

/* A comma unless the object has just begun, the key and a colon. */
static void put_key(scwi_text *to, const char *key) {
  bool first = to->length && to->data[to->length - 1] == '{';
  if (!first) scwi_text_append(to, ",", 1);
  scwi_text_append(to, "\"", 1);
  scwi_text_add(to, key);
  scwi_text_append(to, "\":", 2);
}

void scwi_json_flat_open(scwi_json_flat *to) {
  scwi_text_append(&to->text, "{", 1);
}

void scwi_json_flat_close(scwi_json_flat *to) {
  scwi_text *missing = &to->missing;
  if (missing->length) {
    put_key(&to->text, SCWI_JSON_MISSING);
    scwi_text_append(&to->text, missing->data, missing->length);
    scwi_text_append(&to->text, "}", 1);
  }
  if (missing->failed) to->text.failed = true;
  scwi_text_clear(missing);
  scwi_text_append(&to->text, "}", 1);
}

/* Is it printable ASCII with nothing to escape? */
static bool is_plain(const char *text) {
  while (*text >= ' ' && *text <= '~' && *text != '"' && *text != '\\') text++;
  return *text == 0;
}

void scwi_json_flat_text(scwi_json_flat *to, const char *key,
                         const char *text) {
  put_key(&to->text, key);
  if (!text) {
    scwi_text_append(&to->text, "null", 4);
  } else if (is_plain(text)) {
    scwi_text_append(&to->text, "\"", 1);
    scwi_text_add(&to->text, text);
    scwi_text_append(&to->text, "\"", 1);
  } else {
    scwi_json_quote(&to->text, text);
  }
}

void scwi_json_flat_whole(scwi_json_flat *to, const char *key,
                          unsigned long long value) {
  char number[SCWI_NUMBER_SIZE];
  put_key(&to->text, key);
  scwi_text_add(&to->text, scwi_whole_text(value, number));
}

static void put_number(scwi_json_flat *to, const char *key, double value) {
  char number[SCWI_NUMBER_SIZE];
  put_key(&to->text, key);
  scwi_text_add(&to->text, scwi_number_text(value, number));
}

void scwi_json_flat_figure(scwi_json_flat *to, const char *key,
                           scw_figure figure) {
  if (figure.state == SCW_PRESENT) {
    put_number(to, key, figure.value);
    return;
  }
  scwi_json_flat_text(to, key, NULL);
  if (to->missing.length == 0) scwi_text_append(&to->missing, "{", 1);
  put_key(&to->missing, key);
  scwi_text_append(&to->missing, "\"", 1);
  scwi_text_add(&to->missing, scw_presence_code(figure.state));
  scwi_text_append(&to->missing, "\"", 1);
}

void scwi_json_flat_interval(scwi_json_flat *to, const char *key,
                             scw_interval interval) {
  scw_presence state = interval.state;
  scwi_text outer = to->missing;
  to->missing = (scwi_text){0};
  put_key(&to->text, key);
  scwi_json_flat_open(to);
  put_number(to, "level", interval.level);
  scwi_json_flat_figure(to, "low", (scw_figure){interval.low, state});
  scwi_json_flat_figure(to, "high", (scw_figure){interval.high, state});
  scwi_json_flat_close(to);
  scwi_text_free(&to->missing);
  to->missing = outer;
}

void scwi_json_flat_free(scwi_json_flat *flat) {
  scwi_text_free(&flat->text);
  scwi_text_free(&flat->missing);
}
