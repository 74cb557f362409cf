/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One row of separated text, from the buffer of the row iterator. */
#include <string.h>

#include "memory.h"
#include "rows_inside.h"
#include "separator.h"

enum {
  MOST_IN_CELL = 1 << 20,
  MOST_IN_ROW = 16 << 20,
  MOST_CELLS = 100000
};

/* The row being taken apart. */
typedef struct scan {
  scw_context *context;
  scwi_rows *rows;
  const char *start, *at, *end; /* *end is a line end */
  size_t line;                  /* of the row's start, then of its end */
  size_t n;
  bool beyond_ascii, quotes;
  scw_status status;
} scan;

static outcome fail_scan(scan *s, const char *where, const char *what) {
  scwi_text_place p = {s->start, s->line, 1};
  scwi_text_place_step(&p, where);
  int length = scwi_excerpt(where, s->end);
  s->status = scwi_fail_at(s->context, SCW_BAD_INPUT, s->rows->name, p.line,
                           p.column, "%s; seen: %.*s", what, length, where);
  return FAILED;
}

static outcome fail_long_cell(scan *s, const char *cell) {
  return fail_scan(s, cell,
                   *cell == '"' ? "this quote is not closed within 1 MiB: "
                                  "close it, or take it away"
                                : "a cell of more than 1 MiB: is the "
                                  "separator right, and is this a table?");
}

/* At the end of what was read, inside `cell`: the last row, or more to come. */
static outcome at_end(scan *s, const char *cell) {
  if (s->end - cell > MOST_IN_CELL) return fail_long_cell(s, cell);
  if (s->end - s->start > MOST_IN_ROW)
    return fail_scan(s, s->start, "a row of more than 16 MiB: are the line "
                                  "ends missing?");
  return s->rows->ended_well ? DONE : NEEDS_MORE;
}

/* Length of the blank or no-break space at `at`, or 0. */
static size_t blank_at(const char *at, const char *end, char separator) {
  unsigned char c = (unsigned char)*at;
  if (c == ' ' || (c == '\t' && separator != '\t')) return 1;
  if (c == 0xC2 && end - at >= 2 && memcmp(at, "\xC2\xA0", 2) == 0) return 2;
  if (c < 0xE2 || end - at < 3) return 0;
  bool blank = memcmp(at, "\xE2\x80\x87", 3) == 0 || /* figure space */
               memcmp(at, "\xE2\x80\xAF", 3) == 0 || /* narrow no-break */
               memcmp(at, "\xEF\xBB\xBF", 3) == 0;   /* a stray BOM */
  return blank ? 3 : 0;
}

static const char *skip_blanks(const char *at, const char *end,
                               char separator) {
  for (size_t n; at < end && (n = blank_at(at, end, separator)) > 0;) at += n;
  return at;
}

/* Takes blanks off the end; a no-break space is told from its last byte on. */
static const char *trim_end(const char *start, const char *end,
                            char separator) {
  for (;;) {
    size_t n = 0;
    for (size_t length = 1; length <= 3 && n == 0; length++)
      if ((size_t)(end - start) >= length &&
          blank_at(end - length, end, separator) == length)
        n = length;
    if (n == 0) return end;
    end -= n;
  }
}

static outcome add_cell(scan *s, const char *start, const char *end,
                        bool quoted) {
  scwi_rows *rows = s->rows;
  if (end - start > MOST_IN_CELL) return fail_long_cell(s, start - quoted);
  if (s->n == MOST_CELLS)
    return fail_scan(s, start, "a row of more than 100,000 cells: write the "
                               "readings one below the other");
  if (s->n == rows->cells_capacity) {
    s->status = SCWI_RESERVE(s->context, s->n + 1, &rows->cells,
                             &rows->cells_capacity);
    if (s->status != SCW_OK) return FAILED;
  }
  size_t column = (size_t)(start - s->start) + (quoted ? 0 : 1);
  rows->cells[s->n++] = (scwi_cell){start, (size_t)(end - start), s->line,
                                    column, quoted};
  return DONE;
}

static const char *scan_plain(scan *s, const char *at) {
  const unsigned char *meaning = s->rows->meaning;
  for (;; at++) {
    while (meaning[(unsigned char)*at] == SCWI_PLAIN) at++;
    if (meaning[(unsigned char)*at] != SCWI_BEYOND_ASCII) return at;
    s->beyond_ascii = true;
  }
}

static outcome take_plain(scan *s, const char *start) {
  const char *end = scan_plain(s, start);
  s->at = end;
  outcome finished = end == s->end ? at_end(s, start) : DONE;
  if (finished != DONE) return finished;
  char last = end > start ? end[-1] : 'x';
  bool trim = last == ' ' || last == '\t' || (unsigned char)last >= 0x80;
  if (trim) end = trim_end(start, end, s->rows->facts.separator);
  return add_cell(s, start, end, false);
}

/* The closing quote of the cell opened at `quote`, or `end`. */
static const char *closing_quote(const char *quote, const char *end) {
  for (const char *at = quote + 1;;) {
    at = memchr(at, '"', (size_t)(end - at));
    if (!at) return end;
    if (at + 1 == end || at[1] != '"') return at;
    at += 2;
  }
}

static outcome fail_unclosed(scan *s, const char *quote) {
  return fail_scan(s, quote, "the quote opened here is never closed: close it, "
                             "or put the cell in quotes and double this one");
}

/* What follows a closing quote: blanks, then a separator or the line's end. */
static outcome after_quote(scan *s, const char *quote, const char *end) {
  char separator = s->rows->facts.separator;
  s->at = skip_blanks(end + 1, s->end, separator);
  if (s->at == s->end) return at_end(s, quote);
  unsigned char next = s->rows->meaning[(unsigned char)*s->at];
  bool separated = separator == ' ' && s->at > end + 1;
  bool ends = next == SCWI_ENDS_CELL || next == SCWI_ENDS_LINE;
  if (ends || separated) return DONE;
  return fail_scan(s, s->at, "text after a closing quote, where a separator or "
                             "the line's end was expected: double the quotes "
                             "that belong to the text");
}

static outcome take_quoted(scan *s, const char *quote) {
  const char *end = closing_quote(quote, s->end);
  /* a quote at the end of what was read may be the first of two */
  bool open = end == s->end || (end + 1 == s->end && !s->rows->ended);
  if (open) {
    outcome finished = at_end(s, quote);
    return finished == DONE ? fail_unclosed(s, quote) : finished;
  }
  s->quotes = true;
  outcome added = add_cell(s, quote + 1, end, true);
  return added == DONE ? after_quote(s, quote, end) : added;
}

/* Skips the blanks before a cell, noting those beyond ASCII. */
static const char *cell_start(scan *s) {
  const char *start = skip_blanks(s->at, s->end, s->rows->facts.separator);
  for (const char *at = s->at; at < start; at++)
    if ((unsigned char)*at >= 0x80) s->beyond_ascii = true;
  return start;
}

/* The cells up to the line's end. */
static outcome take_cells(scan *s) {
  const unsigned char *meaning = s->rows->meaning;
  bool blanks_separate = s->rows->facts.separator == ' ';
  for (;;) {
    const char *start = cell_start(s);
    if (blanks_separate && meaning[(unsigned char)*start] == SCWI_ENDS_LINE) {
      s->at = start;
      return start == s->end ? at_end(s, start) : DONE;
    }
    bool quoted = *start == '"' && start < s->end;
    outcome got = quoted ? take_quoted(s, start) : take_plain(s, start);
    if (got != DONE) return got;
    if (meaning[(unsigned char)*s->at] == SCWI_ENDS_LINE) return DONE;
    if (!blanks_separate) s->at++;
  }
}

static bool is_comment(const scan *s, const char *first) {
  if (first == s->end || *first != '#') return false;
  if (scwi_is_error_value(first, s->end)) return false;
  char separator = s->rows->facts.separator;
  bool heads_column = s->rows->heading && separator && separator != ' ' &&
                      first[1] == separator;
  return !heads_column;
}

static outcome take_comment(scan *s, const char *start) {
  const char *at = start;
  while (*at != '\n' && *at != '\r') at++;
  s->at = at;
  s->beyond_ascii = true; /* perhaps; comments are few */
  outcome finished = at == s->end ? at_end(s, start) : DONE;
  if (finished != DONE) return finished;
  return add_cell(s, start, trim_end(start, at, 0), false);
}

/* Doubled quotes become one, in place: the row's text is ours by now. */
static void undouble(scwi_rows *rows, scwi_cell *cell) {
  char *text = rows->text + (cell->text - rows->text);
  char *to = memchr(text, '"', cell->length);
  if (!to) return;
  const char *end = text + cell->length;
  for (const char *from = to; from < end; from++) {
    *to++ = *from;
    if (*from == '"') from++;
  }
  cell->length = (size_t)(to - text);
}

/* Lines and columns where characters are longer than bytes or cells hold line
 * ends. */
static void place_cells(scan *s) {
  scwi_text_place p = {s->start, s->line, 1};
  for (size_t i = 0; i < s->n; i++) {
    scwi_cell *cell = &s->rows->cells[i];
    scwi_text_place_step(&p, cell->text - (cell->quoted ? 1 : 0));
    cell->line = p.line;
    cell->column = p.column;
  }
  scwi_text_place_step(&p, s->at);
  s->line = p.line;
  for (size_t i = 0; s->quotes && i < s->n; i++)
    if (s->rows->cells[i].quoted) undouble(s->rows, &s->rows->cells[i]);
}

/* The row from the cells found. */
static void make_row(scan *s, scwi_row *row) {
  scwi_rows *rows = s->rows;
  size_t line = s->line;
  if (s->beyond_ascii || s->quotes) place_cells(s);
  bool empty = s->n == 1 && rows->cells[0].length == 0 &&
               !rows->cells[0].quoted;
  *row = (scwi_row){rows->cells, empty ? 0 : s->n, line, 0};
}

/* Steps behind the row. */
static void step_behind(scan *s) {
  scwi_rows *rows = s->rows;
  rows->at = (size_t)(scwi_after_line(s->at, s->end) - rows->text);
  rows->line = s->line + 1;
  rows->facts.any_quote = rows->facts.any_quote || s->quotes;
}

/* Takes the cells; *comment tells whether the row is one. */
static outcome take_row(scan *s, bool *comment) {
  const char *first = skip_blanks(s->start, s->end,
                                  s->rows->facts.separator);
  *comment = is_comment(s, first);
  return *comment ? take_comment(s, first) : take_cells(s);
}

outcome scwi_rows_scan(scw_context *context, scwi_rows *rows, scwi_row *row,
                       scw_status *status) {
  const char *start = rows->text + rows->at;
  scan s = {.context = context, .rows = rows, .start = start, .at = start,
            .end = rows->text + rows->filled, .line = rows->line};
  bool comment;
  outcome got = take_row(&s, &comment);
  /* a CR at the end of what was read may be the first half of CRLF */
  if (got == DONE && !rows->ended && s.at + 1 >= s.end && *s.at == '\r')
    got = NEEDS_MORE;
  if (got == DONE) {
    make_row(&s, row);
    row->offset = rows->before + rows->at;
    if (row->n && !comment) rows->heading = false;
    step_behind(&s);
  }
  *status = s.status;
  return got;
}

scw_status scwi_rows_split(scw_context *context, scwi_rows *rows,
                           const char *line, size_t size, size_t number,
                           scwi_row *row) {
  scan s = {.context = context, .rows = rows, .start = line, .at = line,
            .end = line + size, .line = number};
  bool comment;
  if (take_row(&s, &comment) == DONE) make_row(&s, row);
  return s.status;
}
