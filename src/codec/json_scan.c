/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Escapes are never shorter than what they stand for, so a text is decoded
 * over its own source. */
#include "json_scan.h"

#include <string.h>

#include "decimal.h"
#include "utf8.h"

void scwi_json_pass(scwi_json_scan *scan, size_t bytes) {
  scan->at += bytes;
  scan->place.column++;
}

void scwi_json_pass_space(scwi_json_scan *scan) {
  for (;;) {
    char c = scwi_json_peek(scan);
    if (c == ' ' || c == '\t') {
      scwi_json_pass(scan, 1);
    } else if (c == '\n' || c == '\r') {
      bool both = c == '\r' && scan->end - scan->at > 1 && scan->at[1] == '\n';
      scan->at += both ? 2 : 1;
      scan->place = (scwi_json_place){scan->place.line + 1, 1};
    } else {
      return;
    }
  }
}

static scw_status refuse_at(scwi_json_scan *scan, scwi_json_place place,
                            const char *words) {
  return scwi_fail_at(scan->context, SCW_BAD_INPUT, scan->name, place.line,
                      place.column, "%s", words);
}

static scw_status refuse(scwi_json_scan *scan, const char *words) {
  return refuse_at(scan, scan->place, words);
}

/* Length of the character at the present place; 0 when it is not UTF-8. */
static size_t character(const scwi_json_scan *scan) {
  bool cut;
  return scwi_utf8_sequence(scan->at, (size_t)(scan->end - scan->at), &cut);
}

scw_status scwi_json_unexpected(scwi_json_scan *scan, const char *expected) {
  scwi_json_place place = scan->place;
  if (scan->at == scan->end)
    return scwi_fail_at(scan->context, SCW_BAD_INPUT, scan->name, place.line,
                        place.column, "the file ends where %s is expected",
                        expected);
  size_t length = character(scan);
  unsigned code = (unsigned char)*scan->at;
  if (length == 0 || code < ' ' || code == 0x7F)
    return scwi_fail_at(scan->context, SCW_BAD_INPUT, scan->name, place.line,
                        place.column,
                        "a byte of value %u stands where %s is expected; save "
                        "the file as plain UTF-8 text",
                        code, expected);
  return scwi_fail_at(scan->context, SCW_BAD_INPUT, scan->name, place.line,
                      place.column, "'%.*s' stands where %s is expected",
                      (int)length, scan->at, expected);
}

/* Four hexadecimal digits after \u; -1 when they are none. */
static long hexadecimal(const scwi_json_scan *scan, size_t from) {
  long code = 0;
  if ((size_t)(scan->end - scan->at) < from + 4) return -1;
  for (size_t i = 0; i < 4; i++) {
    static const char digits[] = "0123456789abcdefABCDEF";
    const char *digit = strchr(digits, scan->at[from + i]);
    if (!digit || !*digit) return -1;
    long value = digit - digits;
    code = 16 * code + (value < 16 ? value : value - 6);
  }
  return code;
}

static bool is_high_half(long code) { return code >= 0xD800 && code < 0xDC00; }
static bool is_low_half(long code) { return code >= 0xDC00 && code < 0xE000; }

/* At a backslash and u. */
static scw_status scan_code(scwi_json_scan *scan, char **to) {
  long code = hexadecimal(scan, 2);
  size_t length = 6;
  if (code < 0)
    return refuse(scan, "\\u needs four hexadecimal digits, as in \\u00e9");
  if (code == 0)
    return refuse(scan, "\\u0000 is a zero character, which no text here may "
                        "hold; take it out");
  if (is_high_half(code)) {
    bool more = scan->end - scan->at >= 12 && scan->at[6] == '\\' &&
                scan->at[7] == 'u';
    long low = more ? hexadecimal(scan, 8) : -1;
    if (is_low_half(low)) {
      code = 0x10000 + ((code - 0xD800) << 10) + (low - 0xDC00);
      length = 12;
    }
  }
  if (is_high_half(code) || is_low_half(code))
    return refuse(scan, "half of a \\u pair stands alone; write the character "
                        "itself, or both halves");
  *to += scwi_utf8_write((uint32_t)code, *to);
  scan->at += length;
  scan->place.column += length;
  return SCW_OK;
}

/* At a backslash. */
static scw_status scan_escape(scwi_json_scan *scan, char **to) {
  static const char from[] = "\"\\/bfnrt", into[] = "\"\\/\b\f\n\r\t";
  char c = scan->end - scan->at > 1 ? scan->at[1] : 0;
  if (c == 'u') return scan_code(scan, to);
  const char *found = c ? strchr(from, c) : NULL;
  if (!found)
    return refuse(scan, "a backslash that begins no escape; write \\\\ for a "
                        "backslash itself");
  *(*to)++ = into[found - from];
  scan->at += 2;
  scan->place.column += 2;
  return SCW_OK;
}

/* Any character of a text that is neither quote nor backslash. */
static scw_status scan_plain(scwi_json_scan *scan, char **to) {
  unsigned char c = (unsigned char)*scan->at;
  size_t length = character(scan);
  if (c == '\n' || c == '\r')
    return refuse(scan, "the line ends inside a text; close the text with \", "
                        "or write \\n for a line end in it");
  if (c < ' ')
    return refuse(scan, "a control character inside a text; write it as an "
                        "escape, such as \\t for a tab");
  if (length == 0)
    return refuse(scan, "a byte that is not UTF-8; save the file as UTF-8");
  memmove(*to, scan->at, length);
  *to += length;
  scwi_json_pass(scan, length);
  return SCW_OK;
}

scw_status scwi_json_scan_text(scwi_json_scan *scan, const char **out) {
  scwi_json_place opened = scan->place;
  scw_status status = SCW_OK;
  scwi_json_pass(scan, 1);
  char *start = scan->at, *to = start;
  while (!status && scan->at < scan->end && *scan->at != '"')
    status = *scan->at == '\\' ? scan_escape(scan, &to)
                               : scan_plain(scan, &to);
  if (status) return status;
  if (scan->at == scan->end)
    return refuse_at(scan, opened, "a text begins here and is never closed; "
                                   "close it with \"");
  scwi_json_pass(scan, 1);
  *to = 0;
  *out = start;
  return SCW_OK;
}

static size_t pass_digits(scwi_json_scan *scan) {
  size_t digits = 0;
  for (; scwi_json_peek(scan) >= '0' && scwi_json_peek(scan) <= '9'; digits++)
    scwi_json_pass(scan, 1);
  return digits;
}

/* The form of a number; leaves the scan behind it. */
static scw_status check_number(scwi_json_scan *scan) {
  if (scwi_json_peek(scan) == '-') scwi_json_pass(scan, 1);
  bool zero = scwi_json_peek(scan) == '0';
  size_t digits = pass_digits(scan);
  if (digits == 0) return scwi_json_unexpected(scan, "a digit");
  if (zero && digits > 1)
    return refuse(scan, "a number begins with 0; write it without the leading "
                        "zeros");
  if (scwi_json_peek(scan) == '.') {
    scwi_json_pass(scan, 1);
    if (pass_digits(scan) == 0)
      return scwi_json_unexpected(scan, "a digit after the decimal point");
  }
  if (scwi_json_peek(scan) == 'e' || scwi_json_peek(scan) == 'E') {
    scwi_json_pass(scan, 1);
    char sign = scwi_json_peek(scan);
    if (sign == '+' || sign == '-') scwi_json_pass(scan, 1);
    if (pass_digits(scan) == 0)
      return scwi_json_unexpected(scan, "a digit of the exponent");
  }
  return SCW_OK;
}

scw_status scwi_json_scan_number(scwi_json_scan *scan, double *out,
                                 int *digits) {
  scwi_json_place place = scan->place;
  char *start = scan->at;
  scwi_decimal decimal;
  scw_status status = check_number(scan);
  if (status) return status;
  switch (scwi_decimal_read(start, (size_t)(scan->at - start), '.', &decimal)) {
  case SCWI_DECIMAL_OK:
    *out = decimal.value;
    *digits = decimal.digits;
    return SCW_OK;
  case SCWI_DECIMAL_TOO_LARGE:
    return refuse_at(scan, place, "a number too large to be held; numbers go "
                                  "up to 1.7e308");
  default: return refuse_at(scan, place, "a number that cannot be read");
  }
}
