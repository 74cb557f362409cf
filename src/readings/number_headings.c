/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "number_headings.h"

#include <string.h>

/* Keys as keys_of writes them: lower case without points, fillers (of, the) and
 * sides; the words of a key parted by one blank, keys by bars. */
static const struct {
  scwi_named what;
  const char *keys;
} names[] = {
    {SCWI_NAMED_N,
     "n|count|readings|n readings|no readings|nr readings|number readings|"
     "sample size"},
    {SCWI_NAMED_MEAN, "mean|average|avg|mean value"},
    {SCWI_NAMED_EFFECT, "effect|change|difference|diff"},
    {SCWI_NAMED_POINTS, "points|score"},
    {SCWI_NAMED_OK_AT, "ok at|fine at|ok"},
    {SCWI_NAMED_GONE_BY, "gone by|gone at|gone"},
    {SCWI_NAMED_CLAIM, "id|claim|claim id"},
    {SCWI_NAMED_CATEGORY, "category|class"},
    {SCWI_NAMED_DATE, "date|day"},
    {SCWI_NAMED_RULE, "rule"},
    {SCWI_NAMED_METHOD, "method|test method"},
    {SCWI_NAMED_PANEL, "panel"},
    {SCWI_NAMED_METER, "meter|gauge|instrument"},
    {SCWI_NAMED_SESSION, "session"},
    {SCWI_NAMED_SD,
     "sd|s|s d|std|stdev|stdev s|stdevs|stddev|std dev|st dev|std deviation|"
     "standard deviation|sample sd|sample standard deviation|"
     "experimental standard deviation|\xC2\xB1 sd|+- sd|+ - sd"},
    {SCWI_NAMED_SE,
     "se|s e|sem|stderr|std err|std error|standard error|se mean|"
     "std error mean|standard error mean|\xC2\xB1 se|+- se|+ - se"},
    {SCWI_NAMED_STEP, "step|display step|resolution"},
    {SCWI_NAMED_UNIT, "unit|units"},
    /* of the mean, or of readings? STDEV.P divides by n, not n - 1 */
    {SCWI_NAMED_UNSAID,
     "\xC2\xB1|+-|+ -|plus minus|error|errors|error bar|err|spread|scatter|"
     "dispersion|variation|variability|deviation|dev|sigma|\xCF\x83|u|unc|"
     "uncertainty|standard uncertainty|expanded uncertainty|tolerance|ci|"
     "confidence interval|sd mean|mean sd|standard deviation mean|stdevp|"
     "stdev p"},
    {SCWI_NAMED_RELATIVE,
     "cv|cov|rsd|cv%|%cv|% cv|rsd%|%rsd|% rsd|sd%|%sd|% sd|rel sd|"
     "relative sd|rel std dev|relative standard deviation|"
     "coefficient variation"},
    {SCWI_NAMED_VARIANCE, "variance|var|s2|sd2|s\xC2\xB2"}};

static bool among(const char *key, const char *keys) {
  size_t n = strlen(key);
  for (const char *at = keys; at && n; at = strchr(at, '|')) {
    at += *at == '|';
    if (!strncmp(at, key, n) && (at[n] == '|' || !at[n])) return true;
  }
  return false;
}

static scwi_named named(const char *key) {
  for (size_t i = 0; i < sizeof names / sizeof *names; i++)
    if (among(key, names[i].keys)) return names[i].what;
  return SCWI_NAMED_UNKNOWN;
}

/* A heading's words with and without the quantity: "mean gloss", "mean". */
typedef struct keys {
  char full[SCWI_WORDS_MOST * 24], bare[SCWI_WORDS_MOST * 24];
  scw_side side;
  const char *quantity;
  bool summary; /* a word names a summary */
  bool lost;    /* a word too long to be ours, "before 1", two sides */
} keys;

static void add_word(char *key, const char *word) {
  if (*key) strcat(key, " ");
  strcat(key, word);
}

static void take_side(keys *out, scw_side side) {
  out->lost = out->lost || (out->side != SCW_SIDE_NONE && out->side != side);
  out->side = side;
}

static void take_word(const scwi_word *word, keys *out) {
  if (word->meaning == SCWI_MEANS_FILLER) return;
  out->lost = out->lost || !word->key[0] || word->digits.length;
  out->summary = out->summary || word->meaning == SCWI_MEANS_SUMMARY;
  if (word->meaning == SCWI_MEANS_SIDE) {
    take_side(out, word->side);
    return;
  }
  add_word(out->full, word->key);
  if (word->meaning != SCWI_MEANS_READING)
    add_word(out->bare, word->key);
  else if (word->quantity[0])
    out->quantity = word->quantity;
}

static keys keys_of(scwi_span name) {
  keys out = {.side = SCW_SIDE_NONE};
  scwi_phrase phrase;
  scwi_words_of(name.text, name.length, &phrase);
  for (size_t i = 0; i < phrase.n; i++)
    take_word(&phrase.word[i], &out);
  out.lost = out.lost || phrase.cut;
  return out;
}

static scwi_named by_key(const keys *key) {
  if (key->lost) return SCWI_NAMED_UNKNOWN;
  scwi_named what = named(key->full);
  if (what == SCWI_NAMED_UNKNOWN) what = named(key->bare);
  bool side_alone = key->side != SCW_SIDE_NONE && !key->bare[0];
  return what == SCWI_NAMED_UNKNOWN && side_alone ? SCWI_NAMED_MEAN : what;
}

/* Not one of our figures; a summary that is none stays unknown. */
static scwi_named by_kind(const scwi_heading *heading, const keys *key) {
  switch (heading->kind) {
    case SCWI_HEAD_ROLE:
      if (heading->role == SCW_ROLE_PRODUCT) return SCWI_NAMED_PRODUCT;
      if (heading->role == SCW_ROLE_STATE) return SCWI_NAMED_STATE;
      if (heading->role == SCW_ROLE_GEOMETRY) return SCWI_NAMED_GEOMETRY;
      return SCWI_NAMED_ASIDE;
    case SCWI_HEAD_OTHER:
      return key->summary ? SCWI_NAMED_UNKNOWN : SCWI_NAMED_ASIDE;
    case SCWI_HEAD_EMPTY:
      return SCWI_NAMED_ASIDE;
    default:
      return SCWI_NAMED_UNKNOWN;
  }
}

/* "before N": the number of readings, not newtons. */
static bool counts(const scwi_heading *heading) {
  return heading->unit.length == 1 && heading->unit.text[0] == 'N' &&
         heading->unit.text + 1 == heading->text.text + heading->text.length;
}

/* "sd (n-1)", "mean (average)": what stands in brackets is no unit. */
static bool is_unit(scwi_span unit) {
  static const scwi_span by_df = {"n-1", 3};
  keys key = keys_of(unit);
  return scwi_is_unit(unit) ||
         (by_key(&key) == SCWI_NAMED_UNKNOWN && !scwi_same_name(by_df, unit));
}

scwi_named_heading scwi_named_heading_of(const scwi_heading *heading) {
  scwi_named_heading out = {.text = heading->text,
                            .unit = heading->unit,
                            .angle = heading->angle,
                            .line = heading->line,
                            .column = heading->column};
  keys key = keys_of(counts(heading) ? heading->text : heading->name);
  scw_side behind = scwi_side_of(out.unit.text, out.unit.length);
  if (behind != SCW_SIDE_NONE) take_side(&key, behind); /* "sd (before)" */
  if (counts(heading) || !is_unit(out.unit)) out.unit.length = 0;
  out.what = by_key(&key);
  if (out.what == SCWI_NAMED_UNKNOWN) out.what = by_kind(heading, &key);
  out.side = out.what >= SCWI_NAMED_PANEL ? key.side : SCW_SIDE_NONE;
  out.quantity = key.quantity;
  return out;
}

const char *scwi_named_word(scwi_named what) {
  static const char *const words[SCWI_NAMED_END] = {
      [SCWI_NAMED_PRODUCT] = "product",
      [SCWI_NAMED_STATE] = "state",
      [SCWI_NAMED_GEOMETRY] = "geometry",
      [SCWI_NAMED_UNIT] = "unit",
      [SCWI_NAMED_CLAIM] = "id",
      [SCWI_NAMED_CATEGORY] = "category",
      [SCWI_NAMED_DATE] = "date",
      [SCWI_NAMED_RULE] = "rule",
      [SCWI_NAMED_METHOD] = "method",
      [SCWI_NAMED_PANEL] = "panel",
      [SCWI_NAMED_METER] = "meter",
      [SCWI_NAMED_SESSION] = "session",
      [SCWI_NAMED_POINTS] = "points",
      [SCWI_NAMED_OK_AT] = "ok at",
      [SCWI_NAMED_GONE_BY] = "gone by",
      [SCWI_NAMED_READING] = "reading",
      [SCWI_NAMED_N] = "n",
      [SCWI_NAMED_MEAN] = "mean",
      [SCWI_NAMED_SD] = "sd",
      [SCWI_NAMED_SE] = "se",
      [SCWI_NAMED_STEP] = "step",
      [SCWI_NAMED_EFFECT] = "effect"};
  return (unsigned)what < SCWI_NAMED_END && words[what] ? words[what] : "";
}
