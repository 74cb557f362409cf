/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "store.h"

#include <stdlib.h>
#include <string.h>

const char *cli_store_yes(char *text, void *field) {
  (void)text;
  *(bool *)field = true;
  return NULL;
}

const char *cli_store_text(char *text, void *field) {
  if (*text == '\0') {
    return "is empty";
  }
  *(const char **)field = text;
  return NULL;
}

const char *cli_store_each(char *text, void *field) {
  if (strcmp(text, "panel") != 0) {
    return "is not panel";
  }
  *(bool *)field = true;
  return NULL;
}

const char *cli_store_name(char *text, void *field) {
  cli_names *all = field;
  if (*text == '\0') {
    return "is empty";
  }
  const char **items = realloc(all->items, (all->n + 1) * sizeof *items);
  if (items == NULL) {
    return "does not fit into memory";
  }
  all->items = items;
  all->items[all->n++] = text;
  return NULL;
}

const char *cli_store_count(char *text, void *field) {
  return cli_read_count(text, field);
}

const char *cli_store_trials(char *text, void *field) {
  size_t n;
  if (cli_read_count(text, &n) != NULL || n < SCW_TRIALS_LEAST ||
      n > SCW_TRIALS_MOST) {
    return "is not a whole number from 1000 to 100000000";
  }
  *(size_t *)field = n;
  return NULL;
}

const char *cli_store_digits(char *text, void *field) {
  size_t n;
  if (cli_read_count(text, &n) != NULL || n > 3) {
    return "is not 1, 2 or 3";
  }
  *(int *)field = (int)n;
  return NULL;
}

const char *cli_store_threads(char *text, void *field) {
  size_t n;
  if (cli_read_count(text, &n) != NULL || n > 64) {
    return "is not a whole number from 1 to 64";
  }
  *(size_t *)field = n;
  return NULL;
}

const char *cli_store_share(char *text, void *field) {
  return cli_read_share(text, field);
}

const char *cli_store_positive(char *text, void *field) {
  cli_quantity quantity = {0};
  const char *wrong = cli_read_quantity(text, &quantity);
  if (wrong == NULL && !(quantity.value > 0.0)) {
    wrong = "is not larger than 0";
  }
  if (wrong == NULL) {
    *(cli_quantity *)field = quantity;
  }
  return wrong;
}

const char *cli_store_quantity(char *text, void *field) {
  return cli_read_quantity(text, field);
}

const char *cli_store_step(char *text, void *field) {
  cli_quantity quantity = {0};
  const char *wrong = cli_read_quantity(text, &quantity);
  if (wrong == NULL && quantity.value < 0.0) {
    wrong = "is below 0; give the display step, or 0 for continuous values";
  }
  if (wrong == NULL) {
    *(cli_quantity *)field = quantity;
  }
  return wrong;
}

const char *cli_store_not_negative(char *text, void *field) {
  cli_quantity quantity = {0};
  const char *wrong = cli_read_quantity(text, &quantity);
  if (wrong == NULL && quantity.value < 0.0) {
    wrong = "is below 0";
  }
  if (wrong == NULL) {
    *(cli_quantity *)field = quantity;
  }
  return wrong;
}

/* M | M,SD,N | M,,N, with decimal points. */
const char *cli_store_summary(char *text, void *field) {
  static const char expected[] =
      "is not MEAN,SD,N with decimal points, nor MEAN or MEAN,,N for a bare "
      "number";
  cli_given given = {.given = true};
  char *sd = strchr(text, ',');
  char *n = sd != NULL ? strchr(sd + 1, ',') : NULL;
  if ((sd != NULL && n == NULL) || (n != NULL && strchr(n + 1, ',') != NULL)) {
    return expected;
  }
  if (sd != NULL) {
    *sd++ = '\0';
    *n++ = '\0';
    given.side.has_sd = *sd != '\0';
  }
  if (cli_read_number(text, &given.side.mean) != NULL ||
      (given.side.has_sd && cli_read_number(sd, &given.side.sd) != NULL) ||
      (n != NULL && cli_read_count(n, &given.side.n) != NULL)) {
    return expected;
  }
  *(cli_given *)field = given;
  return NULL;
}

const char *cli_store_ratio(char *text, void *field) {
  cli_ratio ratio = {.given = true};
  if (strcmp(text, "best") != 0) {
    if (cli_read_number(text, &ratio.value) != NULL || !(ratio.value > 0.0)) {
      return "is not a number larger than 0, such as 2, or best";
    }
  }
  *(cli_ratio *)field = ratio;
  return NULL;
}

const char *cli_store_say(char *text, void *field) {
  if (strcmp(text, "verdict") != 0 && strcmp(text, "sentence") != 0) {
    return "is not one of verdict, sentence";
  }
  *(const char **)field = text;
  return NULL;
}

typedef struct named_mark {
  const char *name;
  char mark;
} named_mark;

static bool find_mark(const named_mark *marks, size_t n, const char *text,
                      char *out) {
  for (size_t i = 0; i < n; i++) {
    bool itself = text[0] == marks[i].mark && text[1] == '\0';
    if (itself || strcmp(text, marks[i].name) == 0) {
      *out = marks[i].mark;
      return true;
    }
  }
  return false;
}

const char *cli_store_separator(char *text, void *field) {
  static const named_mark marks[] = {
      {"comma", ','}, {"semicolon", ';'}, {"tab", '\t'}, {"space", ' '}};
  return find_mark(marks, CLI_COUNT(marks), text, field)
             ? NULL
             : "is not one of comma, semicolon, tab, space";
}

const char *cli_store_decimal_mark(char *text, void *field) {
  static const named_mark marks[] = {{"point", '.'}, {"comma", ','}};
  return find_mark(marks, CLI_COUNT(marks), text, field)
             ? NULL
             : "is not one of point, comma";
}

/* PLACE or SET:PLACE; the label may itself hold colons. */
const char *cli_store_leave_out(char *text, void *field) {
  cli_leave_outs *all = field;
  scw_leave_out item = {0};
  char *colon = strrchr(text, ':');
  if (cli_read_count(colon != NULL ? colon + 1 : text, &item.place) != NULL) {
    return "does not name a reading; give its place in the set counted from "
           "1, such as 7, or SET:7";
  }
  if (colon != NULL) {
    *colon = '\0';
    item.set = text;
  }
  scw_leave_out *items = realloc(all->items, (all->n + 1) * sizeof *items);
  if (items == NULL) {
    return "does not fit into memory";
  }
  all->items = items;
  all->items[all->n++] = item;
  return NULL;
}

/* The reason holds for all --leave-out before it that have none yet. */
const char *cli_store_because(char *text, void *field) {
  cli_leave_outs *all = field;
  if (text[strspn(text, " ")] == '\0') {
    return "is empty; say why the reading is left out";
  }
  if (all->n == 0 || all->items[all->n - 1].because != NULL) {
    return "belongs to no --leave-out; put it after one";
  }
  for (size_t i = all->n; i > 0 && all->items[i - 1].because == NULL; i--) {
    all->items[i - 1].because = text;
  }
  return NULL;
}
