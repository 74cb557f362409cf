/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "separator.h"

#include <string.h>

#include "text.h"

static const char candidates[] = {'\t', ';', ','};
enum { CANDIDATES = 3, COMMA = 2, MOST_COUNTED = 255 };

/* What the words of the sample say. */
typedef struct wording {
  bool list;          /* every word is a number or a missing mark */
  bool other_commas;  /* a comma that can only separate */
  bool ending_commas; /* a comma at the end of a word, or thousands */
  const char *first_decimal;
} wording;

/* What the sample holds. */
typedef struct survey {
  size_t lines;
  size_t holding[CANDIDATES];                   /* lines with it */
  size_t repeated[CANDIDATES][MOST_COUNTED + 1]; /* lines with it n times */
  bool several;         /* some line has two words */
  size_t decimal_lines; /* lines with a word such as 87,4 */
  bool numbered;        /* those count from 1 (or 0): 1,87 2,88 3,86 */
  long last_number;
  wording words;
} survey;

/* One line being looked at. */
typedef struct line {
  size_t counts[CANDIDATES];
  size_t words, decimals;
  const char *decimal; /* the last word such as 87,4 */
} line;

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

/* Length of the no-break space (U+00A0, U+2007, U+202F) at `text`, or 0. */
static size_t no_break_space(const char *text, size_t size) {
  if (size >= 2 && memcmp(text, "\xC2\xA0", 2) == 0) return 2;
  if (size >= 3 && memcmp(text, "\xE2\x80\x87", 3) == 0) return 3;
  if (size >= 3 && memcmp(text, "\xE2\x80\xAF", 3) == 0) return 3;
  return 0;
}

/* Bytes of digits; no-break spaces between digits group thousands. */
static size_t digits_at(const char *text, size_t size) {
  size_t n = 0;
  while (n < size && is_digit(text[n])) {
    size_t space = no_break_space(text + n + 1, size - n - 1);
    bool groups = n + 1 + space < size && is_digit(text[n + 1 + space]);
    n += 1 + (groups ? space : 0);
  }
  return n;
}

static bool one_of(char c, const char *set) {
  return c != 0 && strchr(set, c) != NULL;
}

typedef enum word_kind {
  NO_NUMBER,
  PLAIN_NUMBER,   /* 87 or 87.4 */
  DECIMAL_COMMA,  /* 87,4 */
  GROUPED         /* 1,234.5 or 1.234,5: perhaps thousands */
} word_kind;

static bool may_lead(char c) {
  return one_of(c, "+-(<>~=") || (unsigned char)c >= 0x80;
}

static bool may_trail(char c) {
  char lower = (char)(c | 0x20);
  return one_of(c, "*)%?") || (unsigned char)c >= 0x80 ||
         (lower >= 'a' && lower <= 'z');
}

/* Takes off the signs before a number and the marks and the unit after it;
 * bytes beyond ASCII belong to the minus sign, the degree and the like. */
static size_t trim_marks(const char **word, size_t n) {
  while (n && may_lead(**word)) ++*word, n--;
  while (n && may_trail((*word)[n - 1])) n--;
  return n;
}

static bool is_exponent(const char *text, size_t n) {
  if (n < 2 || !one_of(text[0], "eE")) return false;
  size_t mark = one_of(text[1], "+-") ? 2 : 1;
  return n > mark && digits_at(text + mark, n - mark) == n - mark;
}

/* The rest of a number after its whole digits and its first mark. */
static word_kind after_mark(const char *text, size_t n, size_t whole,
                            char mark) {
  size_t decimals = digits_at(text, n);
  bool grouped = decimals == 3 && whole >= 1 && whole <= 3;
  if (decimals == n || is_exponent(text + decimals, n - decimals)) {
    if (mark == '.') return whole || decimals ? PLAIN_NUMBER : NO_NUMBER;
    return whole && decimals ? DECIMAL_COMMA : NO_NUMBER;
  }
  char other = mark == '.' ? ',' : '.';
  if (!grouped || text[decimals] != other) return NO_NUMBER;
  size_t last = digits_at(text + decimals + 1, n - decimals - 1);
  return last && decimals + 1 + last == n ? GROUPED : NO_NUMBER;
}

static word_kind kind_of(const char *word, size_t n) {
  n = trim_marks(&word, n);
  size_t whole = digits_at(word, n);
  if (whole == n || is_exponent(word + whole, n - whole))
    return whole ? PLAIN_NUMBER : NO_NUMBER;
  if (!one_of(word[whole], ".,")) return NO_NUMBER;
  word_kind kind = after_mark(word + whole + 1, n - whole - 1, whole,
                              word[whole]);
  return kind == GROUPED && word[0] == '0' ? NO_NUMBER : kind;
}

static bool is_missing_mark(const char *word, size_t n) {
  static const char *const marks[] = {"-", "--", ".", "NA", "n/a", "NaN"};
  for (size_t i = 0; i < sizeof marks / sizeof *marks; i++)
    if (strlen(marks[i]) == n && scwi_same_letters(marks[i], word, n))
      return true;
  return false;
}

static void take_word(survey *s, line *l, const char *word, size_t n) {
  if (n == 0) return;
  l->words++;
  if (!memchr(word, ',', n)) {
    if (kind_of(word, n) == NO_NUMBER && !is_missing_mark(word, n))
      s->words.list = false;
    return;
  }
  if (word[n - 1] == ',') {
    s->words.ending_commas = true;
    s->words.list = false;
    n--;
    if (!memchr(word, ',', n)) return;
  }
  word_kind kind = kind_of(word, n);
  if (kind == NO_NUMBER) {
    s->words.other_commas = true;
    s->words.list = false;
    return;
  }
  if (kind == GROUPED) s->words.ending_commas = true;
  if (!s->words.first_decimal)
    s->words.first_decimal = memchr(word, ',', n);
  l->decimals++;
  l->decimal = word;
}

static void take_numbering(survey *s, const line *l) {
  long number = 0;
  const char *digit = l->decimal;
  for (; is_digit(*digit) && number < 100000000; digit++)
    number = number * 10 + (*digit - '0');
  bool follows = s->decimal_lines == 0 ? number <= 1
                                       : number == s->last_number + 1;
  if (l->decimals > 1 || l->words > 1 || *digit != ',' || !follows)
    s->numbered = false;
  s->last_number = number;
  s->decimal_lines++;
}

static void take_counts(survey *s, const line *l) {
  if (l->decimals) take_numbering(s, l);
  if (l->words > 1) s->several = true;
  for (size_t c = 0; c < CANDIDATES; c++) {
    size_t n = l->counts[c] < MOST_COUNTED ? l->counts[c] : MOST_COUNTED;
    s->holding[c] += n > 0;
    s->repeated[c][n]++;
  }
}

/* The end of the quoted text that starts at `at`: behind the closing quote,
 * or `end`. */
static const char *skip_quoted(const char *at, const char *end) {
  for (at++; at < end; at++) {
    if (*at != '"') continue;
    if (at + 1 == end || at[1] != '"') return at + 1;
    at++;
  }
  return end;
}

static bool is_blank_char(char c) { return c == ' ' || c == '\t'; }

/* A word is closed by a blank, tab, semicolon, quote or the line's end, and by
 * a no-break space that does not group digits. */
static bool ends_word(const char *at, const char *word, const char *end) {
  size_t space = no_break_space(at, (size_t)(end - at));
  if (space == 0) return is_blank_char(*at) || *at == ';';
  bool groups = at > word && is_digit(at[-1]) && at + space < end &&
                is_digit(at[space]);
  return !groups;
}

/* Looks at the line at `at`; returns its end, or null when the sample ends
 * first and the line is to be left out. */
static const char *take_line(survey *s, const char *at, const char *end,
                             bool whole) {
  line l = {{0}, 0, 0, NULL};
  const char *word = at;
  bool opens = true, quoted = false; /* opens: a quote here starts a cell */
  wording kept = s->words;
  for (; at < end && *at != '\n' && *at != '\r'; at++) {
    if (opens && *at == '"') {
      quoted = true;
      bool after_comma = memchr(word, ',', (size_t)(at - word)) != NULL;
      word = at = skip_quoted(at, end);
      bool before_comma = at < end && *at == ',';
      if (after_comma || before_comma) s->words.other_commas = true;
      if (at == end || *at == '\n' || *at == '\r') break;
    }
    for (size_t c = 0; c < CANDIDATES; c++) l.counts[c] += *at == candidates[c];
    opens = *at == '\t' || *at == ';' || *at == ',' || (opens && *at == ' ');
    if (!ends_word(at, word, end)) continue;
    take_word(s, &l, word, (size_t)(at - word));
    size_t space = no_break_space(at, (size_t)(end - at));
    word = at + (space ? space : 1);
  }
  if (at == end && !whole) return s->words = kept, NULL;
  take_word(s, &l, word, (size_t)(at - word));
  if (quoted) s->words.list = false;
  s->lines++;
  take_counts(s, &l);
  return at;
}

static bool is_capital(char c) { return c >= 'A' && c <= 'Z'; }

bool scwi_is_error_value(const char *text, const char *end) {
  const char *at = text + (text < end && *text == '#');
  const char *word = at;
  while (at < end && (is_capital(*at) || *at == '/' || is_digit(*at))) at++;
  size_t n = (size_t)(at - word);
  bool letters = (n == 3 && !memcmp(word, "N/A", 3)) ||
                 (n == 2 && (!memcmp(word, "NV", 2) || !memcmp(word, "NA", 2)));
  if (word == text || n < 2) return false;
  if (at < end && (*at == '!' || *at == '?')) return true;
  return letters && (at == end || one_of(*at, "\t;, \r\n"));
}

/* A comment, unless a lone `#` heads the first column of the first line. */
static bool is_comment(const char *at, const char *end, bool first) {
  if (*at != '#' || scwi_is_error_value(at, end)) return false;
  bool lone = at + 1 < end && one_of(at[1], "\t;,");
  return !(first && lone);
}

static const char *line_end(const char *at, const char *end) {
  while (at < end && *at != '\n' && *at != '\r') at++;
  return at;
}

static void take_lines(survey *s, const char *at, const char *end,
                       bool whole) {
  *s = (survey){.numbered = true, .words = {.list = true}};
  while (at && at < end) {
    const char *first = at;
    while (first < end && is_blank_char(*first)) first++;
    if (first == end) return;
    if (*first == '\n' || *first == '\r')
      at = first;
    else if (is_comment(first, end, s->lines == 0))
      at = line_end(first, end);
    else
      at = take_line(s, at, end, whole);
    if (at && at < end) at++;
  }
}

/* Half of the lines hold it in the same number. */
static bool is_consistent(const survey *s, size_t candidate) {
  for (size_t n = 1; n <= MOST_COUNTED; n++)
    if (2 * s->repeated[candidate][n] >= s->lines) return s->lines > 0;
  return false;
}

static char most_held(const survey *s) {
  size_t best = 0;
  for (size_t c = 1; c < CANDIDATES; c++)
    if (s->holding[c] > s->holding[best]) best = c;
  bool enough = s->holding[best] >= 2 || 2 * s->holding[best] >= s->lines;
  return s->holding[best] && enough ? candidates[best] : 0;
}

static bool commas_are_decimal(const survey *s) {
  bool numbered = s->numbered && s->decimal_lines >= 3;
  return s->decimal_lines && !s->words.other_commas && !numbered;
}

scwi_separator scwi_separator_guess(const char *sample, size_t size,
                                    bool whole, char decimal_mark) {
  survey s;
  take_lines(&s, sample, sample + size, whole);
  if (s.lines == 0) take_lines(&s, sample, sample + size, true);
  scwi_separator found = {0, false, NULL};
  for (size_t c = 0; c < COMMA; c++)
    if (is_consistent(&s, c)) return found.separator = candidates[c], found;
  if (decimal_mark == 0 && commas_are_decimal(&s)) {
    found.decimal_commas = !s.words.ending_commas;
    if (s.words.ending_commas) found.doubt = s.words.first_decimal;
  }
  if (decimal_mark == ',' || found.decimal_commas) s.holding[COMMA] = 0;
  else if (is_consistent(&s, COMMA)) return found.separator = ',', found;
  found.separator = most_held(&s);
  if (found.separator != ',') found.doubt = NULL;
  if (found.separator) found.decimal_commas = false;
  if (!found.separator && s.words.list && s.several) found.separator = ' ';
  return found;
}
