/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "blanks.h"

#include <string.h>

static bool starts(const char *text, size_t length, const char *with) {
  size_t n = strlen(with);
  return length >= n && !memcmp(text, with, n);
}

size_t scwi_blank_at(const char *text, size_t length) {
  static const char *const wide[] = {
      "\xC2\xA0",     "\xE2\x80\xAF", "\xE2\x80\x89",
      "\xE2\x80\x87", "\xE2\x80\x8B", "\xEF\xBB\xBF"};
  if (length == 0) return 0;
  if (text[0] == ' ' || (text[0] >= '\t' && text[0] <= '\r')) return 1;
  if ((unsigned char)text[0] < 0xC2) return 0;
  for (size_t i = 0; i < sizeof wide / sizeof *wide; i++)
    if (starts(text, length, wide[i])) return strlen(wide[i]);
  return 0;
}

/* Bytes of the blank that ends at text + length; 0 when it is none. */
static size_t blank_before(const char *text, size_t length) {
  for (size_t n = 1; n <= 3 && n <= length; n++)
    if (scwi_blank_at(text + length - n, n) == n) return n;
  return 0;
}

scwi_span scwi_trim(const char *text, size_t length) {
  size_t n;
  while ((n = scwi_blank_at(text, length)) > 0) text += n, length -= n;
  while ((n = blank_before(text, length)) > 0) length -= n;
  return (scwi_span){text, length};
}

scwi_span scwi_uncommented(const char *text, size_t length) {
  for (size_t i = 1; i < length; i++)
    if (text[i] == '#' && blank_before(text, i)) return scwi_trim(text, i);
  return (scwi_span){text, length};
}

const char *scwi_shown(const char *text, size_t length,
                       char out[SCWI_SHOWN_SIZE]) {
  enum { MOST = 40 };
  size_t at = 0, i = 0;
  while (i < length && at < MOST) {
    size_t blank = scwi_blank_at(text + i, length - i);
    unsigned char c = (unsigned char)text[i];
    out[at++] = blank ? ' ' : (char)(c < 0x20 || c == 0x7F ? '?' : c);
    i += blank ? blank : 1;
  }
  if (i < length) { /* cut between characters, not inside one */
    while (at > 0 && ((unsigned char)text[i] & 0xC0U) == 0x80U) i--, at--;
    memcpy(out + at, "...", 3);
    at += 3;
  }
  out[at] = 0;
  return out;
}

size_t scwi_cut(scwi_span text, size_t most) {
  if (text.length <= most) return text.length;
  while (most && ((unsigned char)text.text[most] & 0xC0U) == 0x80U) most--;
  return most;
}
