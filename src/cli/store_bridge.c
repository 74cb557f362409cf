/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "store_bridge.h"

#include <stdlib.h>
#include <string.h>

static const char no_memory[] = "does not fit into memory";

const char *cli_store_fence(char *text, void *field) {
  cli_fences *all = field;
  char *equals = strchr(text, '=');
  if (equals == NULL || equals == text ||
      equals[1 + strspn(equals + 1, " ")] == '\0') {
    return "is not DATE=REASON, such as 2026-03-14=\"new meter\"";
  }
  scw_bridge_fence *items = realloc(all->items, (all->n + 1) * sizeof *items);
  if (items == NULL) {
    return no_memory;
  }
  *equals = '\0';
  all->items = items;
  all->items[all->n++] = (scw_bridge_fence){text, equals + 1};
  return NULL;
}

/* A number, or numbers parted by a comma: no file is called that. */
static bool is_value(const char *text) {
  return text[strspn(text, "+-.,0123456789eE ")] == '\0' &&
         strpbrk(text, "0123456789") != NULL;
}

const char *cli_store_convert(char *text, void *field) {
  cli_converts *all = field;
  scw_old_result result = {.has_u = false};
  char *comma = strchr(text, ',');
  if (*text == '\0') {
    return "is empty";
  }
  if (!is_value(text)) {
    bool second = all->file != NULL;
    all->file = text;
    return second ? "is a second file of old results; put them into one" : NULL;
  }
  if (comma != NULL) {
    *comma = '\0';
    result.has_u = true;
  }
  bool wrong = cli_read_number(text, &result.value) != NULL ||
               (comma != NULL && (cli_read_number(comma + 1, &result.u) != NULL ||
                                  result.u < 0));
  if (comma != NULL) {
    *comma = ',';
  }
  if (wrong) {
    return "is not VALUE nor VALUE,U with decimal points, U a standard "
           "uncertainty of 0 or more";
  }
  scw_old_result *items = realloc(all->items, (all->n + 1) * sizeof *items);
  if (items == NULL) {
    return no_memory;
  }
  all->items = items;
  all->items[all->n++] = result;
  return NULL;
}

const char *cli_store_conversion(char *text, void *field) {
  cli_conversion *out = field;
  char *comma = strchr(text, ',');
  bool wrong = comma == NULL;
  if (!wrong) {
    *comma = '\0';
    wrong = cli_read_number(text, &out->offset) != NULL ||
            cli_read_number(comma + 1, &out->factor) != NULL ||
            out->factor == 0;
    *comma = ',';
  }
  out->given = true;
  return wrong ? "is not A,B with decimal points: new = A + B x old, B not 0"
               : NULL;
}
