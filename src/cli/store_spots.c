/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "store_spots.h"

#include <string.h>

static void cut_blanks(char *text) {
  size_t n = strlen(text);
  while (n > 0 && text[n - 1] == ' ') {
    text[--n] = '\0';
  }
}

const char *cli_store_size(char *text, void *field) {
  static const char expected[] =
      "is not WIDTHxHEIGHT with decimal points, such as 300x200 or \"300x200 "
      "mm\"";
  cli_size size = {.given = true};
  cli_quantity height = {0};
  char *cross = strchr(text, 'x');
  if (cross == NULL) {
    return expected;
  }
  *cross = '\0';
  cut_blanks(text);
  const char *wrong = cli_read_number(text, &size.width);
  if (wrong == NULL) {
    wrong = cli_read_quantity(cross + 1 + strspn(cross + 1, " "), &height);
  }
  *cross = 'x';
  if (wrong != NULL || !(size.width > 0.0) || !(height.value > 0.0)) {
    return expected;
  }
  size.height = height.value;
  size.unit = height.unit;
  *(cli_size *)field = size;
  return NULL;
}

const char *cli_store_layout(char *text, void *field) {
  for (int kind = 0; kind < SCW_LAYOUT_END; kind++) {
    if (strcmp(text, scw_layout_code((scw_layout_kind)kind)) == 0) {
      *(scw_layout_kind *)field = (scw_layout_kind)kind;
      return NULL;
    }
  }
  return "is not one of spread, grid, random";
}

const char *cli_store_reading_order(char *text, void *field) {
  bool walk = strcmp(text, "walk") == 0;
  if (!walk && strcmp(text, "random") != 0) {
    return "is not one of random, walk";
  }
  *(scw_reading_order *)field = walk ? SCW_ORDER_WALK : SCW_ORDER_RANDOM;
  return NULL;
}
