/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text made fit for a page: nothing that moves the cursor, nothing broken
 * and, where asked, nothing beyond ASCII. */
#include <stdint.h>
#include <string.h>

#include "sheet.h"
#include "utf8.h"

/* Latin-1 letters U+00C0 to U+00FF without their accents. */
static const char latin[64][3] = {
    "A", "A", "A",  "A", "Ae", "A",  "AE", "C", "E",  "E",  "E",  "E", "I",
    "I", "I", "I",  "D", "N",  "O",  "O",  "O", "O",  "Oe", "x",  "O", "U",
    "U", "U", "Ue", "Y", "Th", "ss", "a",  "a", "a",  "a",  "ae", "a", "ae",
    "c", "e", "e",  "e", "e",  "i",  "i",  "i", "i",  "d",  "n",  "o", "o",
    "o", "o", "oe", "/", "o",  "u",  "u",  "u", "ue", "y",  "th", "y"};

/* Signs the reports and headers use. Those of the strip stay one column. */
static const struct {
  uint32_t code;
  const char *text;
} signs[] = {{0x00AB, "\""}, {0x00B0, " deg"},  {0x00B1, "+-"},  {0x00B2, "2"},
             {0x00B3, "3"},  {0x00B5, "u"},     {0x00B7, "."},   {0x00BB, "\""},
             {0x03BC, "u"},  {0x03C3, "sigma"}, {0x2009, " "},   {0x2010, "-"},
             {0x2011, "-"},  {0x2012, "-"},     {0x2013, "-"},   {0x2014, "-"},
             {0x2018, "'"},  {0x2019, "'"},     {0x201C, "\""},  {0x201D, "\""},
             {0x201E, "\""}, {0x2022, "o"},     {0x2026, "..."}, {0x202F, " "},
             {0x2032, "'"},  {0x2033, "\""},    {0x2192, "->"},  {0x2212, "-"},
             {0x2248, "~"},  {0x2264, "<="},    {0x2265, ">="},  {0x2500, "-"},
             {0x2581, "1"},  {0x2582, "2"},     {0x2583, "3"},   {0x2584, "4"},
             {0x2585, "5"},  {0x2586, "6"},     {0x2587, "7"},   {0x2588, "8"},
             {0x25C6, "#"}};

/* Kept for the wrapping; the sheet prints it as a blank. */
enum { NO_BREAK_SPACE = 0xA0 };

static const char *ascii_of(uint32_t code) {
  if (code >= 0xC0 && code <= 0xFF) return latin[code - 0xC0];
  for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
    if (signs[i].code == code) return signs[i].text;
  return code >= 0x300 && code <= 0x36F ? "" : "?"; /* combining accents */
}

/* The code of a valid sequence. */
static uint32_t code_of(const char *text, size_t bytes) {
  uint32_t code = (unsigned char)text[0];
  if (bytes > 1) code &= 0xFFU >> (bytes + 1);
  for (size_t i = 1; i < bytes; i++)
    code = code << 6 | ((unsigned char)text[i] & 0x3FU);
  return code;
}

/* Control characters, and those that turn the direction of writing. */
static bool moves_the_cursor(uint32_t code) {
  return code < 0x20 || (code >= 0x7F && code < 0xA0) ||
         (code >= 0x200B && code <= 0x200F) ||
         (code >= 0x2028 && code <= 0x202E) ||
         (code >= 0x2066 && code <= 0x2069) || code == 0xFEFF;
}

/* Bytes that stay as they are in any case. */
static size_t plain_run(const char *text) {
  size_t n = 0;
  while (text[n] >= ' ' && text[n] <= '~') n++;
  return n;
}

void scwi_sheet_dress(scwi_text *out, const char *text, bool ascii) {
  size_t run = plain_run(text), left = strlen(text + run), bytes;
  scwi_text_append(out, text, run);
  for (const char *at = text + run; left; at += bytes, left -= bytes) {
    bool cut = false;
    bytes = scwi_utf8_sequence(at, left, &cut);
    uint32_t code = bytes ? code_of(at, bytes) : '?';
    if (bytes == 0) {
      scwi_text_add(out, "?");
      bytes = 1;
    } else if (moves_the_cursor(code)) {
      scwi_text_add(out, " ");
    } else if (code >= 0x80 && ascii && code != NO_BREAK_SPACE) {
      scwi_text_add(out, ascii_of(code));
    } else {
      scwi_text_append(out, at, bytes);
    }
  }
}
