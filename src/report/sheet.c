/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheet.h"

#include <string.h>

void scwi_sheet_free(scwi_sheet *sheet) {
  scwi_text_free(&sheet->text);
  scwi_text_free(&sheet->scratch);
}

size_t scwi_sheet_columns(const scwi_text *text) {
  return text->length ? scwi_text_columns(text->data, text->length) : 0;
}

void scwi_sheet_gap(scwi_sheet *sheet) {
  const scwi_text *text = &sheet->text;
  if (text->length == 0) return;
  if (text->length > 1 && memcmp(text->data + text->length - 2, "\n\n", 2) == 0)
    return;
  scwi_text_add(&sheet->text, "\n");
}

/* All that is printed passes here: ties become blanks. */
static void print(scwi_sheet *sheet, const char *text, size_t length) {
  static const char tie[] = SCWI_TIE;
  for (size_t at = 0, start = 0; at < length; start = at) {
    while (at < length && text[at] != tie[0])
      at++;
    bool tied = at + 1 < length && text[at + 1] == tie[1];
    if (at < length && !tied) at++;
    scwi_text_append(&sheet->text, text + start, at - start);
    if (!tied) continue;
    scwi_text_add(&sheet->text, " ");
    at += 2;
  }
}

/* The end of the word that starts at `at`. */
static size_t word_end(const char *text, size_t at) {
  return at + strcspn(text + at, " ");
}

static size_t skip_blanks(const char *text, size_t at) {
  return at + strspn(text + at, " ");
}

static bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/* A number and the short word after it stay together: "95 %", "84.6 GU". */
static size_t piece_end(const char *text, size_t at) {
  size_t end = word_end(text, at);
  while (end > at && is_digit(text[end - 1])) {
    size_t next = skip_blanks(text, end), stop = word_end(text, next);
    bool short_word = scwi_text_columns(text + next, stop - next) <= 2;
    if (next == stop || (!short_word && text[next] != '%')) break;
    end = stop;
  }
  return end;
}

/* Bytes of at most `columns` columns. */
static size_t bytes_of_columns(const char *text, size_t length,
                               size_t columns) {
  size_t end = 0;
  while (end < length) {
    size_t next = end + 1;
    while (next < length && ((unsigned char)text[next] & 0xC0U) == 0x80U)
      next++;
    if (scwi_text_columns(text, next) > columns) break;
    end = next;
  }
  return end > 0 ? end : length;
}

/* The end of the line that starts at `at`: as many pieces as fit. */
static size_t line_end(const char *text, size_t at, size_t width) {
  size_t end = at;
  for (size_t next = at; text[next]; next = skip_blanks(text, end)) {
    size_t stop = piece_end(text, next);
    if (scwi_text_columns(text + at, stop - at) > width) break;
    end = stop;
  }
  if (end > at) return end;
  return at + bytes_of_columns(text + at, word_end(text, at) - at, width);
}

void scwi_sheet_wrap(scwi_sheet *sheet, const char *dressed, size_t column) {
  size_t at = skip_blanks(dressed, 0);
  while (dressed[at]) {
    size_t end = line_end(dressed, at, SCWI_SHEET_WIDTH - column);
    print(sheet, dressed + at, end - at);
    scwi_text_add(&sheet->text, "\n");
    at = skip_blanks(dressed, end);
    if (dressed[at]) scwi_text_repeat(&sheet->text, ' ', column);
  }
}

/* Dresses `text`; false when there is nothing to print. */
static bool fit_to_print(scwi_sheet *sheet, const char *text, scwi_text *out) {
  if (!text || !*text) return false;
  scwi_sheet_dress(out, text, sheet->options.ascii);
  if (out->failed) sheet->text.failed = true;
  return !out->failed && out->length > strspn(out->data, " ");
}

void scwi_sheet_answer(scwi_sheet *sheet, const char *text) {
  scwi_text line = {0};
  if (fit_to_print(sheet, text, &line)) {
    if (sheet->options.colour) scwi_text_add(&sheet->text, "\033[1m");
    scwi_sheet_wrap(sheet, line.data, 0);
    if (sheet->options.colour) scwi_text_add(&sheet->text, "\033[0m");
  }
  scwi_text_free(&line);
}

void scwi_sheet_hanging(scwi_sheet *sheet, const char *lead, size_t hang,
                        const char *text) {
  scwi_text line = {0}, label = {0};
  scwi_sheet_dress(&label, lead, sheet->options.ascii);
  if (fit_to_print(sheet, text, &line)) {
    size_t column = SCWI_SHEET_INDENT + hang;
    scwi_text_repeat(&sheet->text, ' ', SCWI_SHEET_INDENT);
    print(sheet, label.data, label.length);
    size_t used = scwi_sheet_columns(&label);
    if (used < hang || used == 0) {
      scwi_text_repeat(&sheet->text, ' ', hang - used);
    } else { /* a long label stands on its own line */
      scwi_text_add(&sheet->text, "\n");
      scwi_text_repeat(&sheet->text, ' ', column);
    }
    scwi_sheet_wrap(sheet, line.data, column);
  }
  if (label.failed) sheet->text.failed = true;
  scwi_text_free(&line);
  scwi_text_free(&label);
}

void scwi_sheet_labelled(scwi_sheet *sheet, const char *label,
                         const char *text) {
  scwi_sheet_hanging(sheet, label, SCWI_LABEL_WIDTH, text);
}

void scwi_sheet_clear_scratch(scwi_sheet *sheet) {
  if (sheet->scratch.failed) sheet->text.failed = true;
  scwi_text_clear(&sheet->scratch);
}

void scwi_sheet_labelled_scratch(scwi_sheet *sheet, const char *label) {
  if (sheet->scratch.failed)
    sheet->text.failed = true;
  else if (sheet->scratch.length)
    scwi_sheet_labelled(sheet, label, sheet->scratch.data);
  scwi_text_clear(&sheet->scratch);
}

void scwi_sheet_note(scwi_sheet *sheet, const char *text) {
  scwi_sheet_hanging(sheet, "-", 2, text);
}

void scwi_sheet_line(scwi_sheet *sheet, const scwi_text *line) {
  size_t length = line->length;
  if (line->failed) sheet->text.failed = true;
  while (length > 0 && line->data[length - 1] == ' ')
    length--;
  print(sheet, line->data, length);
  scwi_text_add(&sheet->text, "\n");
}

void scwi_sheet_start_line(scwi_sheet *sheet, const scwi_text *line) {
  if (line->failed) sheet->text.failed = true;
  print(sheet, line->data, line->length);
}
