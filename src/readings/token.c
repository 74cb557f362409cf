/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "token.h"

#include <string.h>

#include "text.h"

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

static bool among(scwi_span s, const char *const *words) {
  for (; *words; words++)
    if (strlen(*words) == s.length && scwi_same_letters(*words, s.text, s.length))
      return true;
  return false;
}

/* Also every error value of a spreadsheet, whatever its language: # in front
 * and ! or ? behind, and the two that end in letters. */
static bool is_missing(scwi_span s) {
  static const char *const words[] = {
      "NA",   "N/A",  "n.a.", "-",    "--",  "---", ".",    "..",
      "NaN",  "null", "none", "#N/A", "#NA", "#NV", "nil",  "missing",
      "\xE2\x80\x93", "\xE2\x80\x94", "\xE2\x88\x92", "?", NULL};
  if (among(s, words)) return true;
  char last = s.text[s.length - 1];
  if (s.length > 4 && !memcmp(s.text, "Err:", 4)) return true;
  return s.length > 3 && s.text[0] == '#' && (last == '!' || last == '?');
}

static bool is_infinite(scwi_span s) {
  static const char *const words[] = {"inf", "infinity", "\xE2\x88\x9E",
                                      "1.#INF", NULL};
  if (s.length > 1 && (s.text[0] == '-' || s.text[0] == '+'))
    s.text++, s.length--;
  return among(s, words);
}

static bool take(scwi_span *s, const char *front) {
  size_t n = strlen(front);
  if (s->length <= n || memcmp(s->text, front, n) != 0) return false;
  *s = scwi_trim(s->text + n, s->length - n);
  return true;
}

/* > or < in front, with or without =. */
static bool take_bound(scwi_span *s) {
  static const char *const signs[] = {">=", "<=", "=>", "=<", ">", "<",
                                      "\xE2\x89\xA5", "\xE2\x89\xA4"};
  for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
    if (take(s, signs[i])) return true;
  return false;
}

/* Takes stars from both ends; true when there was one. */
static bool take_stars(scwi_span *s) {
  bool any = false;
  while (take(s, "*")) any = true;
  while (s->length > 1 && s->text[s->length - 1] == '*') {
    *s = scwi_trim(s->text, s->length - 1);
    any = true;
  }
  return any;
}

/* Stars, and one pair of brackets around the number. */
static scw_mark take_marks(scwi_span *s) {
  bool star = take_stars(s);
  if (s->length < 3) return star ? SCW_MARK_STAR : SCW_MARK_NONE;
  char front = s->text[0], back = s->text[s->length - 1];
  bool bracket = (front == '(' && back == ')') || (front == '[' && back == ']');
  if (bracket) {
    *s = scwi_trim(s->text + 1, s->length - 2);
    star = take_stars(s) || star;
  }
  return star ? SCW_MARK_STAR : bracket ? SCW_MARK_BRACKET : SCW_MARK_NONE;
}

/* Bytes of a minus sign that is not ASCII's: U+2212, and the en dash that
 * word processors put in its place. */
static size_t wide_minus(const char *text, size_t length) {
  return length > 3 && (!memcmp(text, "\xE2\x88\x92", 3) ||
                        !memcmp(text, "\xE2\x80\x93", 3))
             ? 3
             : 0;
}

/* A blank or apostrophe between groups of three digits. */
static size_t group_gap(scwi_span s, size_t i, size_t digits_before) {
  size_t gap = s.text[i] == '\'' ? 1 : scwi_blank_at(s.text + i, s.length - i);
  if (gap == 0 && s.length - i > 3 && !memcmp(s.text + i, "\xE2\x80\x99", 3))
    gap = 3;
  if (gap == 0 || digits_before == 0 || s.length - i < gap + 3) return 0;
  const char *next = s.text + i + gap;
  bool three = is_digit(next[0]) && is_digit(next[1]) && is_digit(next[2]) &&
               (s.length - i == gap + 3 || !is_digit(next[3]));
  return three ? gap : 0;
}

/* The number in plain ASCII in `room`: one kind of minus, no gaps between
 * thousands. False when it holds something no number holds. */
static bool plain_number(scwi_span s, scwi_token *out, bool *gaps) {
  size_t at = 0, i = wide_minus(s.text, s.length), digits = 0;
  if (i) out->room[at++] = '-';
  while (i < s.length) {
    if (at + 2 >= SCWI_TOKEN_ROOM) return false;
    char c = s.text[i];
    size_t gap = 0;
    if (is_digit(c)) {
      digits++;
    } else if (!strchr(".,+-eE", c) || c == 0) {
      gap = group_gap(s, i, digits);
      if (gap == 0 || digits > 3) return false;
      *gaps = true;
      digits = 0;
    } else if (!(i == 0 && (c == '-' || c == '+'))) {
      digits = 99; /* no gaps behind a mark */
    }
    if (gap == 0) out->room[at++] = c;
    i += gap ? gap : 1;
  }
  out->body = (scwi_span){out->room, at};
  return true;
}

/* Digits from `i` on; moves i behind them. */
static size_t digits_from(scwi_span s, size_t *i) {
  size_t first = *i;
  while (*i < s.length && is_digit(s.text[*i])) (*i)++;
  return *i - first;
}

static bool exponent_ends(scwi_span s, size_t i) {
  if (i == s.length) return true;
  if (s.text[i] != 'e' && s.text[i] != 'E') return false;
  i++;
  if (i < s.length && (s.text[i] == '-' || s.text[i] == '+')) i++;
  return digits_from(s, &i) > 0 && i == s.length;
}

/* Whole number with points or commas: which of them can be which? */
static bool form_of(scwi_span s, bool gaps, scwi_form *form) {
  size_t i = 0, lead, marks = 0, tail = 0, first;
  char mark = 0;
  *form = (scwi_form){0};
  if (i < s.length && (s.text[i] == '-' || s.text[i] == '+')) i++;
  first = i;
  lead = digits_from(s, &i);
  bool groups = lead >= 1 && lead <= 3 && s.text[first] != '0' && !gaps;
  while (i < s.length && (s.text[i] == '.' || s.text[i] == ',')) {
    char c = s.text[i++];
    if (mark && c != mark) { /* 1,234.5 */
      *form = (scwi_form){c, mark, false};
      return groups && tail == 3 && (digits_from(s, &i), exponent_ends(s, i));
    }
    groups = groups && (marks == 0 || tail == 3);
    mark = c;
    marks++;
    tail = digits_from(s, &i);
  }
  if (lead + tail == 0 || !exponent_ends(s, i)) return false;
  groups = groups && tail == 3 && i == s.length;
  if (marks == 1) *form = (scwi_form){mark, 0, groups};
  if (marks > 1) *form = (scwi_form){0, mark, false};
  return marks <= 1 || groups;
}

/* Digits and at most one point: most cells, told apart in one look. */
static bool is_simple(const char *text, size_t length, scwi_token *out) {
  size_t i = length > 0 && text[0] == '-', lead = i, point = 0;
  for (; i < length; i++) {
    if (is_digit(text[i])) continue;
    if (text[i] != '.' || point || i == lead) return false;
    point = i;
  }
  if (i == lead) return false;
  if (point && length - point == 4 && text[lead] != '0') return false;
  out->kind = SCWI_NUMBER;
  out->mark = SCW_MARK_NONE;
  out->form = (scwi_form){point ? '.' : 0, 0, false};
  out->body = (scwi_span){text, length};
  return true;
}

static bool is_number(scwi_span s, scwi_token *out) {
  bool gaps = false;
  return s.length > 0 && plain_number(s, out, &gaps) &&
         form_of(out->body, gaps, &out->form);
}

void scwi_token_read(const char *text, size_t length, scwi_token *out) {
  if (is_simple(text, length, out)) return;
  scwi_span s = scwi_trim(text, length);
  out->kind = SCWI_EMPTY;
  out->mark = SCW_MARK_NONE;
  if (s.length == 0) return;
  out->kind = SCWI_MISSING;
  if (is_missing(s)) return;
  out->kind = SCWI_INFINITE;
  if (is_infinite(s)) return;
  scwi_span rest = s;
  bool bound = take_bound(&rest);
  out->mark = take_marks(&rest);
  out->kind = SCWI_TEXT;
  if (is_number(rest, out)) out->kind = bound ? SCWI_CENSORED : SCWI_NUMBER;
}
