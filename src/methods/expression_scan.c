/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "expression_scan.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "decimal.h"

enum {
  SHOWN_TEXT = 72,  /* longest expression repeated in a message */
  SHOWN_TOKEN = 24, /* bytes of a token repeated in a message */
  WORDS = 640
};

static bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
static bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}
static bool continues(char c) {
  return ((unsigned char)c & 0xC0) == 0x80;
}

/* One character of UTF-8; returns its bytes, 0 when it is not valid. */
static size_t decode(const char *text, size_t length, uint32_t *code) {
  static const uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
  unsigned char first = (unsigned char)text[0];
  size_t n = first < 0x80   ? 1
             : first < 0xC2 ? 0
             : first < 0xE0 ? 2
             : first < 0xF0 ? 3
             : first < 0xF5 ? 4
                            : 0;
  if (n == 0 || n > length) return 0;
  *code = n == 1 ? first : first & (0x7Fu >> n);
  for (size_t i = 1; i < n; i++) {
    if (!continues(text[i])) return 0;
    *code = *code << 6 | ((unsigned char)text[i] & 0x3Fu);
  }
  bool surrogate = *code >= 0xD800 && *code < 0xE000;
  return *code < least[n] || *code > 0x10FFFF || surrogate ? 0 : n;
}

/* Letters beyond ASCII: the micro sign, and all from U+00C0 on but operators,
 * general punctuation, symbols, and what is no character. */
static bool is_far_letter(uint32_t code) {
  if (code == 0xB5) return true;
  if (code < 0xC0 || code == 0xD7 || code == 0xF7) return false;
  if (code >= 0x2000 && code < 0x2C00) return false;
  if (code >= 0x3000 && code < 0x3040) return false;
  return code < 0xE000 || (code >= 0xF900 && code < 0xFE00) || code >= 0x10000;
}

static size_t letter_length(const char *text, size_t length) {
  uint32_t code;
  if (is_letter(text[0])) return 1;
  if ((unsigned char)text[0] < 0x80) return 0;
  size_t n = decode(text, length, &code);
  return n > 0 && is_far_letter(code) ? n : 0;
}

size_t scwi_name_length(const char *text, size_t length) {
  size_t at = length ? letter_length(text, length) : 0;
  if (at == 0) return 0;
  while (at < length) {
    bool plain = is_digit(text[at]) || text[at] == '_';
    size_t n = plain ? 1 : letter_length(text + at, length - at);
    if (n == 0) break;
    at += n;
  }
  return at;
}

scw_status scwi_expression_fail(scw_context *context, scw_status status,
                                const char *text, size_t length, uint32_t place,
                                const char *format, ...) {
  char words[WORDS];
  va_list arguments;
  va_start(arguments, format);
  vsnprintf(words, sizeof words, format, arguments);
  va_end(arguments);
  if (length <= SHOWN_TEXT)
    scwi_fail(context, status, "character %u of `%.*s`: %s", place, (int)length,
              text, words);
  else
    scwi_fail(context, status, "character %u of the expression: %s", place,
              words);
  context->column = place;
  return status;
}

static scw_status fail_here(const scwi_scanner *s, const char *what) {
  return scwi_expression_fail(s->context, SCW_BAD_INPUT, s->text, s->length,
                              s->place, "%s", what);
}

scw_status scwi_expected(const scwi_scanner *s, const char *what) {
  const scwi_token *t = &s->token;
  size_t shown = t->length;
  if (shown > SHOWN_TOKEN)
    for (shown = SHOWN_TOKEN; continues(t->text[shown]); shown--) {
    }
  if (t->kind == SCWI_TOKEN_END)
    return scwi_expression_fail(
        s->context, SCW_BAD_INPUT, s->text, s->length, t->place,
        "the expression ends here, where %s is expected", what);
  return scwi_expression_fail(s->context, SCW_BAD_INPUT, s->text, s->length,
                              t->place, "%s is expected here, not `%.*s%s`",
                              what, (int)shown, t->text,
                              shown < t->length ? "..." : "");
}

bool scwi_token_is(const scwi_token *token, char sign) {
  return token->kind == SCWI_TOKEN_SIGN && token->sign == sign;
}

static bool starts(const char *text, size_t length, const char *with) {
  size_t n = strlen(with);
  return n <= length && memcmp(text, with, n) == 0;
}

static void skip_blanks(scwi_scanner *s) {
  while (s->at < s->length) {
    const char *text = s->text + s->at;
    size_t n = strchr(" \t\r\n", *text) && *text ? 1 : 0;
    if (starts(text, s->length - s->at, "\xC2\xA0")) n = 2; /* no-break */
    if (n == 0) return;
    s->at += n;
    s->place++;
  }
}

static size_t digits(const char *text, size_t length, size_t at) {
  while (at < length && is_digit(text[at]))
    at++;
  return at;
}

/* Bytes of the number at the start: digits with at most one point, then an
 * exponent if it has digits. */
static size_t number_length(const char *text, size_t length) {
  size_t end = digits(text, length, 0), before = end;
  if (end < length && text[end] == '.') {
    end = digits(text, length, end + 1);
    if (before == 0 && end == 1) return 0; /* a point alone */
  }
  if (end == 0 || end >= length || (text[end] | 0x20) != 'e') return end;
  size_t at = end + 1;
  if (at < length && (text[at] == '+' || text[at] == '-')) at++;
  size_t last = digits(text, length, at);
  return last > at ? last : end;
}

static scw_status take_number(scwi_scanner *s) {
  scwi_decimal decimal;
  const char *text = s->token.text;
  size_t n = s->token.length;
  bool zero = true;
  for (size_t i = 0; i < n && (text[i] | 0x20) != 'e'; i++)
    zero = zero && !(text[i] >= '1' && text[i] <= '9');
  if (scwi_decimal_read(text, n, '.', &decimal) != SCWI_DECIMAL_OK)
    return fail_here(s, "this number is too large to work with");
  if (decimal.value == 0 && !zero)
    return fail_here(s, "this number is too small to work with");
  s->token.number = decimal.value;
  return SCW_OK;
}

/* The operator written at the start, in ASCII, and its bytes; 0 for none. */
static size_t sign_length(const char *text, size_t length, char *sign) {
  static const struct {
    const char *text;
    char sign;
  } written[] = {{"\xE2\x88\x92", '-'}, /* minus */
                 {"\xC3\x97", '*'},     /* times */
                 {"\xC2\xB7", '*'},     /* middle dot */
                 {"\xC3\xB7", '/'}};    /* divided by */
  if (*text && strchr("+-*/^(),", *text)) return *sign = *text, 1;
  for (size_t i = 0; i < sizeof written / sizeof *written; i++)
    if (starts(text, length, written[i].text)) {
      *sign = written[i].sign;
      return strlen(written[i].text);
    }
  return 0;
}

static scw_status no_token(const scwi_scanner *s) {
  uint32_t code;
  char words[64];
  size_t n = decode(s->text + s->at, s->length - s->at, &code);
  if (n == 0) return fail_here(s, "this is not valid UTF-8");
  if (code < 0x20 || (code >= 0x7F && code < 0xA0))
    return fail_here(s, "a control character has no place in an expression");
  snprintf(words, sizeof words, "`%.*s` has no meaning in an expression",
           (int)n, s->text + s->at);
  return fail_here(s, words);
}

static uint32_t characters(const char *text, size_t length) {
  uint32_t n = 0;
  for (size_t i = 0; i < length; i++)
    n += !continues(text[i]);
  return n;
}

scw_status scwi_scan(scwi_scanner *s) {
  skip_blanks(s);
  const char *text = s->text + s->at;
  size_t left = s->length - s->at, n;
  scw_status status = SCW_OK;
  s->token = (scwi_token){SCWI_TOKEN_END, 0, text, 0, s->place, 0};
  if (left == 0) return SCW_OK;
  if ((n = sign_length(text, left, &s->token.sign)) > 0)
    s->token.kind = SCWI_TOKEN_SIGN;
  else if ((n = number_length(text, left)) > 0)
    s->token.kind = SCWI_TOKEN_NUMBER;
  else if ((n = scwi_name_length(text, left)) > 0)
    s->token.kind = SCWI_TOKEN_NAME;
  else
    return no_token(s);
  s->token.length = n;
  if (s->token.kind == SCWI_TOKEN_NUMBER) status = take_number(s);
  s->at += n;
  s->place += characters(text, n);
  return status;
}
