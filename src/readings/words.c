/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "words.h"

#include <string.h>

#include "dictionary.h"

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

static char lower(char c) {
  return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static size_t gap_at(const char *text, size_t length) {
  size_t blank = scwi_blank_at(text, length);
  if (blank) return blank;
  return length && strchr("_,;:=/", text[0]) && text[0] ? 1 : 0;
}

/* Lower case without points; "" when the word is longer than any we know. */
static void make_key(scwi_span span, char key[24]) {
  size_t at = 0;
  for (size_t i = 0; i < span.length; i++) {
    if (span.text[i] == '.') continue;
    if (at == 23) break;
    key[at++] = lower(span.text[i]);
  }
  key[at == 23 ? 0 : at] = 0;
}

static bool mean(scwi_word *word, const char *key) {
  const scwi_entry *entry = key[0] ? scwi_entry_of(key) : NULL;
  if (!entry) return false;
  word->meaning = entry->meaning;
  if (entry->meaning == SCWI_MEANS_ROLE) word->role = (scw_role)entry->detail;
  if (entry->meaning == SCWI_MEANS_SIDE) word->side = (scw_side)entry->detail;
  word->quantity = entry->quantity;
  return true;
}

/* before1, before-1, gloss#3: a known word with a number behind it. */
static void split_digits(scwi_word *word) {
  size_t end = word->span.length, first = end;
  while (first > 0 && is_digit(word->span.text[first - 1])) first--;
  size_t stem = first;
  while (stem > 0 && (word->span.text[stem - 1] == '-' ||
                      word->span.text[stem - 1] == '#'))
    stem--;
  if (first == end || stem == 0) return;
  char key[24];
  make_key((scwi_span){word->span.text, stem}, key);
  scwi_word known = *word;
  if (!mean(&known, key)) return;
  if (known.meaning != SCWI_MEANS_SIDE && known.meaning != SCWI_MEANS_READING &&
      !(known.meaning == SCWI_MEANS_ROLE && stem > 1))
    return;
  *word = known;
  word->digits = (scwi_span){word->span.text + first, end - first};
}

static void look_up(scwi_word *word) {
  make_key(word->span, word->key);
  if (!mean(word, word->key)) split_digits(word);
}

/* "std dev" is one word for us. */
static bool join_with_last(scwi_phrase *phrase, const scwi_word *next) {
  scwi_word *last = phrase->word + phrase->n - 1;
  char both[52];
  if (phrase->n == 0 || !last->key[0] || !next->key[0]) return false;
  size_t a = strlen(last->key), b = strlen(next->key);
  if (a + b + 1 > 22) return false;
  memcpy(both, last->key, a);
  both[a] = ' ';
  memcpy(both + a + 1, next->key, b + 1);
  if (!scwi_entry_of(both)) return false;
  mean(last, both);
  memcpy(last->key, both, a + b + 2);
  last->span.length =
      (size_t)(next->span.text - last->span.text) + next->span.length;
  return true;
}

void scwi_words_of(const char *text, size_t length, scwi_phrase *out) {
  size_t i = 0;
  out->n = 0;
  out->cut = false;
  while (i < length) {
    size_t gap = gap_at(text + i, length - i);
    if (gap) {
      i += gap;
      continue;
    }
    size_t first = i;
    while (i < length && !gap_at(text + i, length - i)) i++;
    scwi_word word = {.span = {text + first, i - first}};
    look_up(&word);
    if (join_with_last(out, &word)) continue;
    if (out->n == SCWI_WORDS_MOST) {
      out->cut = true;
      return;
    }
    out->word[out->n++] = word;
  }
}

scw_side scwi_side_of(const char *text, size_t length) {
  scwi_phrase phrase;
  scw_side side = SCW_SIDE_NONE;
  scwi_words_of(text, length, &phrase);
  for (size_t i = 0; i < phrase.n; i++) {
    const scwi_word *word = phrase.word + i;
    if (word->meaning == SCWI_MEANS_SIDE && side == SCW_SIDE_NONE &&
        !word->digits.length)
      side = word->side;
    else if (word->meaning != SCWI_MEANS_FILLER &&
             word->meaning != SCWI_MEANS_READING &&
             !(word->meaning == SCWI_MEANS_ROLE && i > 0))
      return SCW_SIDE_NONE;
  }
  return phrase.cut ? SCW_SIDE_NONE : side;
}

/* The letters that summary words begin with, and no digit behind the letters:
 * most labels are told apart here. */
static bool may_be_summary(const char *text, size_t length) {
  size_t n = 0;
  if (length == 0 || length > 60) return false;
  while (n < length && lower(text[n]) >= 'a' && lower(text[n]) <= 'z') n++;
  return n > 0 && strchr("amnscvrt", lower(text[0])) &&
         !(n < length && is_digit(text[n]));
}

bool scwi_is_summary(const char *text, size_t length) {
  scwi_phrase phrase;
  if (!may_be_summary(text, length)) return false;
  scwi_words_of(text, length, &phrase);
  if (phrase.n == 0 || phrase.cut) return false;
  if (phrase.word[0].meaning != SCWI_MEANS_SUMMARY) return false;
  for (size_t i = 1; i < phrase.n; i++)
    if (phrase.word[i].meaning == SCWI_MEANS_NOTHING &&
        !is_digit(phrase.word[i].span.text[0]) &&
        phrase.word[i].span.text[0] != '(' && !scwi_is_unit(phrase.word[i].span))
      return false;
  return true;
}

/* One folded character: blanks and underscores are alike. */
static size_t fold(scwi_span s, size_t i, char *c) {
  size_t blank = scwi_blank_at(s.text + i, s.length - i);
  *c = blank || s.text[i] == '_' ? ' ' : lower(s.text[i]);
  return blank ? blank : 1;
}

/* Backtracks to the last star only, so the cost is bounded by the product of
 * the lengths. */
bool scwi_same_name(scwi_span name, scwi_span other) {
  size_t i = 0, j = 0, star = SIZE_MAX, resume = 0;
  while (j < other.length) {
    char a = 0, b;
    size_t step = fold(other, j, &b), mine = 0;
    if (i < name.length) mine = fold(name, i, &a);
    if (mine && a == '*') {
      star = ++i;
      resume = j;
    } else if (mine && a == b) {
      i += mine;
      j += step;
    } else if (star != SIZE_MAX) {
      i = star;
      resume += fold(other, resume, &b);
      j = resume;
    } else {
      return false;
    }
  }
  while (i < name.length && name.text[i] == '*') i++;
  return i == name.length;
}

bool scwi_is_unit(scwi_span text) {
  static const char *const units[] = {
      "GU",  "gu",  "g",  "kg",  "mg", "gf",  "kgf", "N",   "mN", "cN",
      "kN",  "lb",  "lbf", "oz", "ozf", "%",  "um",  "mm",  "cm", "nm",
      "mil", "mils", "Pa", "kPa", "MPa", "\xC2\xB5m", "\xCE\xBCm"};
  for (size_t i = 0; i < sizeof units / sizeof *units; i++)
    if (strlen(units[i]) == text.length &&
        !memcmp(units[i], text.text, text.length))
      return true;
  return false;
}

scwi_span scwi_angle_of(scwi_span text, bool marked) {
  static const char *const signs[] = {"\xC2\xB0", "\xC2\xBA", "deg", "degree",
                                      "degrees", "-degree", "-deg"};
  size_t n = 0;
  while (n < text.length && is_digit(text.text[n])) n++;
  scwi_span angle = {text.text, n}, sign = {text.text + n, text.length - n};
  if (n == 0 || n > 2) return (scwi_span){text.text, 0};
  if (sign.length == 0 && !marked) return angle;
  for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
    if (scwi_same_name((scwi_span){signs[i], strlen(signs[i])}, sign))
      return angle;
  return (scwi_span){text.text, 0};
}
