/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "heading.h"

#include <string.h>

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

static bool all_digits(scwi_span s) {
  for (size_t i = 0; i < s.length; i++)
    if (!is_digit(s.text[i])) return false;
  return s.length > 0;
}

/* An angle at word i, "60°" or "60 degrees": the words it takes, 0 if none. */
static size_t angle_at(const scwi_phrase *phrase, size_t i, scwi_span *angle) {
  scwi_span s = phrase->word[i].span;
  *angle = scwi_angle_of(s, true);
  if (angle->length) return 1;
  if (!all_digits(s) || s.length > 2 || i + 1 == phrase->n) return 0;
  scwi_span sign = phrase->word[i + 1].span;
  char joined[16] = "60";
  if (sign.length > 8) return 0;
  memcpy(joined + 2, sign.text, sign.length);
  if (!scwi_angle_of((scwi_span){joined, sign.length + 2}, true).length)
    return 0;
  *angle = s;
  return 2;
}

/* Unit and angle out of what stands in brackets: "GU 60°", "g". A word that
 * is neither is the unit when `any`, else nothing is taken. */
static bool take_inside(scwi_span inside, bool any, scwi_heading *out) {
  scwi_phrase phrase;
  scwi_span unit = {NULL, 0}, angle = {NULL, 0}, found;
  scwi_words_of(inside.text, inside.length, &phrase);
  if (phrase.cut) return false;
  for (size_t i = 0; i < phrase.n;) {
    size_t taken = angle_at(&phrase, i, &found);
    if (taken) {
      angle = found;
      i += taken;
      continue;
    }
    found = phrase.word[i++].span;
    if (unit.length || (!any && !scwi_is_unit(found))) return false;
    unit = found;
  }
  if (unit.length) out->unit = unit;
  if (angle.length) out->angle = angle;
  return true;
}

static bool labels_follow(scw_role role) {
  return role != SCW_ROLE_X && role != SCW_ROLE_Y && role != SCW_ROLE_ORDER &&
         role != SCW_ROLE_STATE && role != SCW_ROLE_GEOMETRY;
}

/* Is the word behind this one a label, as in "panel N"? */
static bool takes_label(const scwi_word *word) {
  return word->meaning == SCWI_MEANS_ROLE && labels_follow(word->role);
}

/* Takes words that are an angle or a unit off the end of the name. A unit
 * behind a role word is a label: panel N is the panel N. */
static void take_tail(scwi_heading *out) {
  scwi_phrase phrase;
  scwi_words_of(out->name.text, out->name.length, &phrase);
  if (phrase.cut) return;
  while (phrase.n > 1) {
    scwi_span last = phrase.word[phrase.n - 1].span, angle;
    size_t taken = 0;
    for (size_t back = 1; back <= 2 && back < phrase.n; back++)
      if (angle_at(&phrase, phrase.n - back, &angle) == back) taken = back;
    if (taken) {
      if (taken == 2) angle = phrase.word[phrase.n - 2].span;
      out->angle = taken == 2 ? angle : scwi_angle_of(last, true);
    } else if (!out->unit.length && scwi_is_unit(last) &&
               !takes_label(phrase.word + phrase.n - 2)) {
      out->unit = last;
      taken = 1;
    } else {
      return;
    }
    phrase.n -= taken;
    scwi_span end = phrase.word[phrase.n - 1].span;
    out->name.length = (size_t)(end.text + end.length - out->name.text);
  }
}

/* Words that name a row number: "spot no" is the spot. */
static bool is_number_word(const scwi_word *word) {
  return word->meaning == SCWI_MEANS_OTHER &&
         (!strcmp(word->key, "no") || !strcmp(word->key, "nr") ||
          !strcmp(word->key, "number") || !strcmp(word->key, "id") ||
          !strcmp(word->key, "#"));
}

/* What the words of one heading add up to. */
typedef struct tally {
  size_t roles, readings, sides, summaries, others, angles, unknown;
  bool both_sides;
  size_t last_unknown;
  bool scattered; /* the unknown words are not neighbours */
} tally;

static void take_digits(scwi_heading *out, const scwi_word *word) {
  if (word->meaning == SCWI_MEANS_ROLE && labels_follow(word->role))
    out->given[word->role] = word->digits;
  else
    out->given[SCW_ROLE_REPEAT] = word->digits;
}

static void add_unknown(scwi_heading *out, const scwi_word *word, size_t i,
                        tally *t) {
  if (t->unknown++ == 0) {
    out->rest = word->span;
  } else {
    t->scattered = t->scattered || t->last_unknown + 1 != i;
    out->rest.length =
        (size_t)(word->span.text + word->span.length - out->rest.text);
  }
  t->last_unknown = i;
}

/* The label behind a role word, as in "panel H7"; the words taken. */
static size_t take_label(const scwi_phrase *phrase, size_t i,
                         scwi_heading *out) {
  const scwi_word *word = phrase->word + i, *next = word + 1;
  if (i + 1 < phrase->n && is_number_word(next)) {
    if (i + 2 == phrase->n) return 1;
    next++;
  }
  if (next >= phrase->word + phrase->n || !takes_label(word)) return 0;
  bool letter = next->span.length == 1 && next->meaning == SCWI_MEANS_SUMMARY;
  if (next->meaning != SCWI_MEANS_NOTHING && !letter) return 0;
  out->given[word->role] = next->span;
  return (size_t)(next - word);
}

/* A grid's rows and columns are named by these words alone: "row 3" counts
 * lines of a file, "column 3" is a name. */
static bool is_part_of_name(const scwi_phrase *phrase, const scwi_word *word) {
  bool grid = word->meaning == SCWI_MEANS_ROLE &&
              (word->role == SCW_ROLE_ROW || word->role == SCW_ROLE_COLUMN);
  bool alone = phrase->n == 1 ||
               (phrase->n == 2 && is_number_word(phrase->word + 1));
  return grid && (!alone || word->digits.length > 0);
}

static void take_word(const scwi_phrase *phrase, size_t *i, scwi_heading *out,
                      tally *t) {
  const scwi_word *word = phrase->word + *i;
  scwi_span angle;
  size_t taken;
  if (is_part_of_name(phrase, word)) {
    if (word->role == SCW_ROLE_ROW && !word->digits.length)
      t->others++;
    else
      add_unknown(out, word, *i, t);
    return;
  }
  if (word->digits.length) take_digits(out, word);
  switch (word->meaning) {
    case SCWI_MEANS_ROLE:
      if (t->sides && !word->digits.length && *i + 1 == phrase->n)
        break; /* "before treatment" */
      if (!word->digits.length) *i += take_label(phrase, *i, out);
      if (t->roles++ == 0 || word->role == SCW_ROLE_X || word->role == SCW_ROLE_Y)
        out->role = word->role; /* "position x" */
      break;
    case SCWI_MEANS_READING:
      t->readings++;
      if (!out->quantity || !out->quantity[0]) out->quantity = word->quantity;
      break;
    case SCWI_MEANS_SIDE:
      t->both_sides = t->both_sides || (t->sides && out->side != word->side);
      t->sides++;
      out->side = word->side;
      break;
    case SCWI_MEANS_SUMMARY: t->summaries++; break;
    case SCWI_MEANS_OTHER: t->others++; break;
    case SCWI_MEANS_FILLER: break;
    case SCWI_MEANS_NOTHING:
      taken = angle_at(phrase, *i, &angle);
      if (taken)
        t->angles++, out->angle = angle, *i += taken - 1;
      else if (all_digits(word->span) && *i > 0)
        out->given[SCW_ROLE_REPEAT] = word->span;
      else
        add_unknown(out, word, *i, t);
  }
}

static bool any_given(const scwi_heading *out) {
  for (int role = 0; role < SCW_ROLE_COUNT; role++)
    if (out->given[role].length) return true;
  return false;
}

static scwi_heading_kind kind_of(const scwi_phrase *phrase, const tally *t,
                                 bool named) {
  scwi_meaning first = phrase->word[0].meaning;
  if (phrase->n == 0) return SCWI_HEAD_EMPTY;
  if (t->both_sides) return SCWI_HEAD_ROLE; /* "before/after" */
  if (t->summaries && (t->sides || t->readings ||
                       (first == SCWI_MEANS_SUMMARY && !t->unknown)))
    return SCWI_HEAD_SUMMARY;
  if (t->sides || (t->roles && named)) return SCWI_HEAD_READING;
  if (t->roles && !t->unknown && first != SCWI_MEANS_READING)
    return SCWI_HEAD_ROLE; /* "date of reading" too */
  if (t->readings && !t->others) return SCWI_HEAD_READING;
  if (t->others) return SCWI_HEAD_OTHER;
  return t->angles && !t->unknown ? SCWI_HEAD_READING : SCWI_HEAD_UNKNOWN;
}

static void conclude(const scwi_phrase *phrase, const tally *t,
                     scwi_heading *out) {
  out->kind = kind_of(phrase, t, any_given(out));
  if (!t->both_sides || out->kind != SCWI_HEAD_ROLE) return;
  out->role = SCW_ROLE_STATE;
  out->side = SCW_SIDE_NONE;
}

/* An unknown heading is a name as a whole: "Old 2" is not the repeat 2. */
static scw_status settle_rest(scw_context *context, scwi_arena *arena,
                              const scwi_phrase *phrase, const tally *t,
                              scwi_heading *out) {
  if (out->kind == SCWI_HEAD_UNKNOWN) {
    memset(out->given, 0, sizeof out->given);
    out->rest = out->name;
    return SCW_OK;
  }
  if (out->kind != SCWI_HEAD_READING) out->rest.length = 0;
  if (!t->scattered || !out->rest.length) return SCW_OK;
  char joined[SCWI_WORDS_MOST * 64];
  size_t n = 0;
  for (size_t i = 0; i < phrase->n; i++) {
    scwi_span s = phrase->word[i].span;
    if (phrase->word[i].meaning != SCWI_MEANS_NOTHING || all_digits(s) ||
        s.length > 60)
      continue;
    if (n) joined[n++] = ' ';
    memcpy(joined + n, s.text, s.length);
    n += s.length;
  }
  out->rest.length = n;
  return scwi_arena_copy(context, arena, joined, n, &out->rest.text);
}

static scw_status interpret(scw_context *context, scwi_arena *arena,
                            scwi_heading *out) {
  scwi_phrase phrase;
  tally t = {0};
  out->side = SCW_SIDE_NONE;
  out->quantity = NULL;
  out->rest = (scwi_span){NULL, 0};
  memset(out->given, 0, sizeof out->given);
  scwi_words_of(out->name.text, out->name.length, &phrase);
  for (size_t i = 0; i < phrase.n && !phrase.cut; i++)
    take_word(&phrase, &i, out, &t);
  conclude(&phrase, &t, out);
  return settle_rest(context, arena, &phrase, &t, out);
}

scw_status scwi_heading_read(scw_context *context, scwi_arena *arena,
                             scwi_span text, scwi_heading *out) {
  text = scwi_trim(text.text, text.length);
  *out = (scwi_heading){.text = text, .name = text};
  char close = text.length ? text.text[text.length - 1] : 0;
  char open = close == ')' ? '(' : close == ']' ? '[' : 0;
  const char *at = open ? memrchr(text.text, open, text.length) : NULL;
  scwi_heading whole = *out;
  if (at && at > text.text) {
    scwi_span inside = scwi_trim(at + 1, (size_t)(text.text + text.length - at) - 2);
    out->name = scwi_trim(text.text, (size_t)(at - text.text));
    scw_status status = interpret(context, arena, out);
    if (status != SCW_OK) return status;
    bool any = open == '[' || out->kind != SCWI_HEAD_UNKNOWN;
    if (!take_inside(inside, any, out)) *out = whole; /* part of the name */
  }
  take_tail(out);
  return interpret(context, arena, out);
}

bool scwi_heading_is(const scwi_heading *heading, scwi_span name) {
  name = scwi_trim(name.text, name.length);
  return scwi_same_name(name, heading->text) ||
         (heading->name.length && scwi_same_name(name, heading->name));
}

bool scwi_said_otherwise(scwi_span one, scwi_span other) {
  return one.length && other.length &&
         (one.length != other.length ||
          memcmp(one.text, other.text, one.length) != 0);
}
