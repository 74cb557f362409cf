/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "take_line.h"

#include <string.h>
#include <strings.h>

#include "number.h"

const char cli_take_help[] =
    "A reading: 87.4, or the spot and the reading: 3 87.4 (a decimal comma will "
    "do, and 87.4* marks it). undo REASON takes the last reading back, undo 5 "
    "REASON reading 5. again 87.6 REASON reads the last spot once more, again 3 "
    "87.6 REASON spot 3; both are kept. mark REASON puts a star on the last "
    "reading. note TEXT keeps a remark. stop ends.";

/* Blanks, and what instruments put between numbers. */
static const char blanks[] = " \t\r;";

/* Cuts the first word off; null when there is none. */
static char *cut_word(char **rest) {
  char *word = *rest + strspn(*rest, blanks);
  if (*word == '\0') {
    return NULL;
  }
  char *end = word + strcspn(word, blanks);
  *rest = end;
  if (*end != '\0') {
    *end = '\0';
    *rest = end + 1;
  }
  return word;
}

/* Without blanks at both ends; the blanks inside are the tester's. */
static char *trimmed(char *text) {
  text += strspn(text, " \t\r");
  size_t n = strlen(text);
  while (n > 0 && strchr(" \t\r", text[n - 1]) != NULL) {
    text[--n] = '\0';
  }
  for (char *c = text; *c != '\0'; c++) {
    if (*c == '\t') {
      *c = ' ';
    }
  }
  return text;
}

static bool looks_like_number(const char *word) {
  word += strspn(word, "+-(");
  return (*word >= '0' && *word <= '9') ||
         ((*word == '.' || *word == ',') && word[1] >= '0' && word[1] <= '9');
}

/* A number in front of a reason names a reading. */
static void read_order(char *rest, cli_take_line *out) {
  char *after = rest;
  size_t digits = strspn(rest + strspn(rest, " \t"), "0123456789");
  char *word = rest + strspn(rest, " \t");
  bool alone = word[digits] == '\0' || strchr(" \t\r", word[digits]) != NULL;
  if (digits > 0 && alone) {
    word = cut_word(&after);
    if (cli_read_count(word, &out->order) == NULL) {
      out->reason = trimmed(after);
      return;
    }
  }
  out->reason = trimmed(rest);
}

static void read_again(char *rest, cli_take_line *out) {
  out->reading = cut_word(&rest);
  char *second = rest + strspn(rest, blanks);
  if (out->reading != NULL && looks_like_number(second)) {
    out->spot = out->reading;
    out->reading = cut_word(&rest);
  }
  out->reason = trimmed(rest);
  if (out->reading == NULL) {
    out->verb = CLI_TAKE_UNCLEAR;
  }
}

static void read_reading(char *first, char *rest, const char *unit,
                         cli_take_line *out) {
  char *word[3] = {first, cut_word(&rest), NULL};
  word[2] = word[1] != NULL ? cut_word(&rest) : NULL;
  size_t n = word[2] != NULL ? 3 : word[1] != NULL ? 2 : 1;
  if (n > 1 && unit != NULL && *unit != '\0' &&
      strcasecmp(word[n - 1], unit) == 0) {
    n--;
  }
  if (n == 3 || cut_word(&rest) != NULL) {
    out->verb = CLI_TAKE_UNCLEAR;
    return;
  }
  out->spot = n == 2 ? word[0] : NULL;
  out->reading = word[n - 1];
  size_t length = out->spot != NULL ? strlen(out->spot) : 0;
  if (length > 1 && out->spot[length - 1] == ',') { /* "3, 87.4" */
    out->spot[length - 1] = '\0';
  }
}

cli_take_line cli_read_take_line(char *line, const char *unit) {
  static const struct {
    const char *word;
    cli_take_verb verb;
  } words[] = {{"again", CLI_TAKE_AGAIN}, {"undo", CLI_TAKE_UNDO},
               {"mark", CLI_TAKE_MARK},   {"note", CLI_TAKE_NOTE},
               {"stop", CLI_TAKE_STOP},   {"help", CLI_TAKE_HELP}};
  cli_take_line out = {.verb = CLI_TAKE_READING};
  char *rest = line, *first = cut_word(&rest);
  if (first == NULL) {
    out.verb = CLI_TAKE_NOTHING;
    return out;
  }
  for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
    if (strcasecmp(first, words[i].word) == 0) {
      out.verb = words[i].verb;
    }
  }
  switch (out.verb) {
    case CLI_TAKE_READING: read_reading(first, rest, unit, &out); break;
    case CLI_TAKE_AGAIN: read_again(rest, &out); break;
    case CLI_TAKE_UNDO:
    case CLI_TAKE_MARK: read_order(rest, &out); break;
    default: out.reason = trimmed(rest); break;
  }
  return out;
}
