/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "rows.h"

#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "rows_inside.h"
#include "separator.h"
#include "text.h"

enum {
  SAMPLE = 64 * 1024, /* what the separator is guessed from */
  FIRST_ROOM = 256 * 1024
};

/* Reads until `wanted` bytes are there or the text ends. */
static scw_status fill_to(scw_context *context, scwi_rows *rows,
                          size_t wanted) {
  scw_status status = SCWI_RESERVE(context, wanted + 8, &rows->text,
                                   &rows->capacity);
  while (status == SCW_OK && !rows->ended && rows->filled < wanted) {
    size_t room = rows->capacity - rows->filled - 1;
    size_t got = scwi_text_in_read(rows->in, rows->text + rows->filled, room);
    rows->filled += got;
    rows->ended = got == 0;
    rows->ended_well = rows->ended && !scwi_text_in_faulty(rows->in);
  }
  if (status == SCW_OK) rows->text[rows->filled] = '\n';
  return status;
}

scw_status scwi_rows_fill(scw_context *context, scwi_rows *rows,
                          size_t wanted) {
  size_t kept = rows->filled - rows->at;
  memmove(rows->text, rows->text + rows->at, kept);
  rows->before += rows->at;
  rows->at = 0;
  rows->filled = kept;
  return fill_to(context, rows, wanted);
}

/* Reads until twice as much of the unfinished row is there, so that a long
 * row costs no more than its length. */
static scw_status fill_more(scw_context *context, scwi_rows *rows) {
  size_t twice = 2 * (rows->filled - rows->at);
  return scwi_rows_fill(context, rows, twice > FIRST_ROOM ? twice : FIRST_ROOM);
}

void scwi_text_place_step(scwi_text_place *p, const char *to) {
  for (; p->at < to; p->at++) {
    bool lone = *p->at == '\r' && (p->at + 1 == to || p->at[1] != '\n');
    if (*p->at == '\n' || lone) {
      p->line++;
      p->column = 1;
    } else if (((unsigned char)*p->at & 0xC0) != 0x80) {
      p->column++;
    }
  }
}

/* The place `to`, at or behind the start of the next row. */
static scwi_text_place place_of(const scwi_rows *rows, const char *to) {
  scwi_text_place p = {rows->text + rows->at, rows->line, 1};
  scwi_text_place_step(&p, to);
  return p;
}

const char *scwi_after_line(const char *at, const char *end) {
  if (at + 1 < end && at[0] == '\r' && at[1] == '\n') return at + 2;
  return at < end ? at + 1 : end;
}

int scwi_excerpt(const char *from, const char *end) {
  enum { MOST = 30 };
  const char *to = from;
  for (size_t n = 0; to < end && *to != '\n' && *to != '\r'; to++)
    if (((unsigned char)*to & 0xC0) != 0x80 && n++ == MOST) break;
  return (int)(to - from);
}

scw_status scwi_rows_next(scw_context *context, scwi_rows *rows, scwi_row *row,
                          bool *more) {
  scw_status status = SCW_OK;
  *more = false;
  for (;;) {
    outcome got = NEEDS_MORE;
    if (rows->at < rows->filled)
      got = scwi_rows_scan(context, rows, row, &status);
    if (got == DONE) *more = true;
    if (got != NEEDS_MORE) return status;
    if (rows->ended) break;
    status = fill_more(context, rows);
    if (status != SCW_OK) return status;
  }
  scwi_text_place p = place_of(rows, rows->text + rows->filled);
  return scwi_text_in_end(context, rows->in, p.line, p.column);
}

static bool can_separate(char c) {
  bool printable = c >= ' ' && c < 127;
  char lower = (char)(c | 0x20);
  bool word = (c >= '0' && c <= '9') || (lower >= 'a' && lower <= 'z');
  return c == '\t' || (printable && !word && !strchr("\"#.+-", c));
}

static scw_status check_arguments(scw_context *context, char separator,
                                  char decimal_mark) {
  char shown[] = {'\'', separator, '\'', 0};
  bool printable = separator > ' ' && separator < 127;
  if (separator && !can_separate(separator))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the separator %s cannot be used: choose comma, "
                     "semicolon, tab or blank",
                     printable ? shown : "given");
  if (decimal_mark && decimal_mark == separator)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the character '%c' cannot be separator and decimal mark "
                     "at once", separator);
  return SCW_OK;
}

/* A first line `sep=;`: returns its length without line end, or 0. */
static size_t separator_line(const scwi_rows *rows, char *separator) {
  const char *at = rows->text;
  size_t n = 0;
  while (n < rows->filled && at[n] != '\n' && at[n] != '\r') n++;
  size_t length = n;
  if (n >= 2 && at[0] == '"' && at[n - 1] == '"') at++, n -= 2;
  if (n < 5 || !scwi_same_letters(at, "sep=", 4)) return 0;
  bool spelled = n == 6 && at[4] == '\\' && at[5] == 't';
  char said = spelled ? '\t' : at[4];
  if ((n != 5 && !spelled) || !can_separate(said)) return 0;
  *separator = said;
  return length;
}

static scw_status fail_doubt(scw_context *context, const scwi_rows *rows,
                             const char *comma) {
  const char *end = rows->text + rows->filled;
  scwi_text_place p = place_of(rows, comma);
  const char *start = comma; /* quote the number from its first digit */
  while (start > rows->text && start[-1] >= '0' && start[-1] <= '9') start--;
  return scwi_fail_at(context, SCW_BAD_INPUT, rows->name, p.line, p.column,
                      "this comma may be a decimal mark or a separator; say "
                      "--separator comma or --decimal-mark comma; seen: %.*s",
                      scwi_excerpt(start, end), start);
}

static scw_status find_separator(scw_context *context, scwi_rows *rows,
                                 char separator, char decimal_mark) {
  char named = 0;
  size_t line = separator_line(rows, &named);
  if (line) {
    const char *end = rows->text + rows->filled;
    rows->at = (size_t)(scwi_after_line(rows->text + line, end) - rows->text);
    rows->line = 2;
  }
  rows->facts.separator = separator ? separator : named;
  rows->facts.separator_line = !separator && named;
  if (rows->facts.separator) return SCW_OK;
  bool whole = rows->ended_well && rows->filled <= SAMPLE;
  size_t size = rows->filled < SAMPLE ? rows->filled : SAMPLE;
  scwi_separator guess =
      scwi_separator_guess(rows->text, size, whole, decimal_mark);
  rows->facts.separator = guess.separator;
  rows->facts.decimal_commas = guess.decimal_commas;
  return guess.doubt ? fail_doubt(context, rows, guess.doubt) : SCW_OK;
}

static void set_meanings(scwi_rows *rows) {
  char separator = rows->facts.separator;
  for (size_t c = 0x80; c < 0x100; c++) rows->meaning[c] = SCWI_BEYOND_ASCII;
  rows->meaning['\n'] = rows->meaning['\r'] = SCWI_ENDS_LINE;
  if (separator) rows->meaning[(unsigned char)separator] = SCWI_ENDS_CELL;
  if (separator == ' ') rows->meaning['\t'] = SCWI_ENDS_CELL;
}

scw_status scwi_rows_open(scw_context *context, scw_source source,
                          char separator, char decimal_mark, scwi_rows **out) {
  *out = NULL;
  scw_status status = check_arguments(context, separator, decimal_mark);
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, 1, out);
  if (status != SCW_OK) return status;
  scwi_rows *rows = *out;
  rows->name = source.name;
  rows->line = 1;
  rows->heading = true;
  status = scwi_text_in_open(context, source, &rows->in);
  if (status == SCW_OK) status = fill_to(context, rows, SAMPLE);
  if (status == SCW_OK)
    status = find_separator(context, rows, separator, decimal_mark);
  if (status == SCW_OK) {
    set_meanings(rows);
  } else {
    scwi_rows_close(rows);
    *out = NULL;
  }
  return status;
}

void scwi_rows_close(scwi_rows *rows) {
  if (!rows) return;
  scwi_text_in_close(rows->in);
  free(rows->text);
  free(rows->cells);
  free(rows);
}

scwi_rows_facts scwi_rows_facts_of(const scwi_rows *rows) {
  scwi_rows_facts facts = rows->facts;
  facts.encoding = scwi_text_in_encoding(rows->in);
  facts.bytes = scwi_text_in_bytes(rows->in);
  scwi_text_in_sha256(rows->in, facts.sha256);
  return facts;
}
