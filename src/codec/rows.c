/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "rows.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "memory.h"
#include "separator.h"
#include "text_in.h"
#include "utf8.h"

enum {
  SAMPLE = 64 * 1024,       /* what the separator is guessed from */
  FIRST_ROOM = 256 * 1024,
  MOST_IN_CELL = 1 << 20,
  MOST_IN_ROW = 16 << 20,
  MOST_CELLS = 100000
};

/* What a byte means while an unquoted cell is scanned. */
enum { PLAIN = 0, ENDS_CELL, ENDS_LINE, BEYOND_ASCII };

struct scwi_rows {
  scwi_text_in *in;
  const char *name;
  char *text;               /* decoded; text[filled] is a line end */
  size_t capacity, filled;
  size_t at;                /* where the next row starts */
  size_t line;              /* of that row */
  unsigned long long before; /* decoded bytes before text[0] */
  bool ended;               /* the text has no more ... */
  bool ended_well;          /* ... and nothing was wrong with it */
  bool heading;             /* no row with cells was given yet */
  scwi_cell *cells;
  size_t cells_capacity;
  unsigned char meaning[256];
  scwi_rows_facts facts;
};

/* ---- text ---- */

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

/* Moves the unfinished row to the front and reads until twice as much of it
 * is there, so that a long row costs no more than its length. */
static scw_status fill_more(scw_context *context, scwi_rows *rows) {
  size_t kept = rows->filled - rows->at;
  memmove(rows->text, rows->text + rows->at, kept);
  rows->before += rows->at;
  rows->at = 0;
  rows->filled = kept;
  size_t wanted = 2 * kept > FIRST_ROOM ? 2 * kept : FIRST_ROOM;
  return fill_to(context, rows, wanted);
}

/* ---- places ---- */

typedef struct place {
  const char *at;
  size_t line, column;
} place;

/* Steps a place forward over the text up to `to`. */
static void step_place(place *p, const char *to) {
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

static place place_of(const scwi_rows *rows, const char *to) {
  place p = {rows->text + rows->at, rows->line, 1};
  step_place(&p, to);
  return p;
}

/* Characters of the text at `from` worth quoting in a message, in bytes. */
static int excerpt(const char *from, const char *end) {
  enum { MOST = 30 };
  const char *to = from;
  for (size_t n = 0; to < end && *to != '\n' && *to != '\r'; to++)
    if (((unsigned char)*to & 0xC0) != 0x80 && n++ == MOST) break;
  return (int)(to - from);
}

/* ---- one row ---- */

typedef enum outcome { DONE, NEEDS_MORE, FAILED } outcome;

/* The row being taken apart. */
typedef struct scan {
  scw_context *context;
  scwi_rows *rows;
  const char *start, *at, *end; /* *end is a line end */
  size_t n;
  bool beyond_ascii, quotes;
  scw_status status;
} scan;

static outcome fail_scan(scan *s, const char *where, const char *what) {
  place p = place_of(s->rows, where);
  int length = excerpt(where, s->end);
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
  rows->cells[s->n++] = (scwi_cell){start, (size_t)(end - start), rows->line,
                                    column, quoted};
  return DONE;
}

static const char *scan_plain(scan *s, const char *at) {
  const unsigned char *meaning = s->rows->meaning;
  for (;; at++) {
    while (meaning[(unsigned char)*at] == PLAIN) at++;
    if (meaning[(unsigned char)*at] != BEYOND_ASCII) return at;
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
  if (next == ENDS_CELL || next == ENDS_LINE || separated) return DONE;
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
    if (blanks_separate && meaning[(unsigned char)*start] == ENDS_LINE) {
      s->at = start;
      return start == s->end ? at_end(s, start) : DONE;
    }
    bool quoted = *start == '"' && start < s->end;
    outcome got = quoted ? take_quoted(s, start) : take_plain(s, start);
    if (got != DONE) return got;
    if (meaning[(unsigned char)*s->at] == ENDS_LINE) return DONE;
    if (!blanks_separate) s->at++;
  }
}

static bool is_comment(const scan *s, const char *first) {
  if (first == s->end || *first != '#') return false;
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
  place p = place_of(s->rows, s->start);
  for (size_t i = 0; i < s->n; i++) {
    scwi_cell *cell = &s->rows->cells[i];
    step_place(&p, cell->text - (cell->quoted ? 1 : 0));
    cell->line = p.line;
    cell->column = p.column;
  }
  step_place(&p, s->at);
  s->rows->line = p.line;
  for (size_t i = 0; s->quotes && i < s->n; i++)
    if (s->rows->cells[i].quoted) undouble(s->rows, &s->rows->cells[i]);
}

static void finish_row(scan *s, scwi_row *row) {
  scwi_rows *rows = s->rows;
  size_t line = rows->line;
  if (s->beyond_ascii || s->quotes) place_cells(s);
  bool empty = s->n == 1 && rows->cells[0].length == 0 &&
               !rows->cells[0].quoted;
  *row = (scwi_row){rows->cells, empty ? 0 : s->n, line,
                    rows->before + rows->at};
  if (s->at < s->end) s->at += *s->at == '\r' && s->at[1] == '\n' ? 2 : 1;
  rows->at = (size_t)(s->at - rows->text);
  rows->line++;
  rows->facts.any_quote = rows->facts.any_quote || s->quotes;
}

/* The row at rows->at, which is before the end of what was read. */
static outcome take_row(scw_context *context, scwi_rows *rows, scwi_row *row,
                        scw_status *status) {
  const char *start = rows->text + rows->at;
  scan s = {.context = context, .rows = rows, .start = start, .at = start,
            .end = rows->text + rows->filled, .status = SCW_OK};
  const char *first = skip_blanks(start, s.end, rows->facts.separator);
  bool comment = is_comment(&s, first);
  outcome got = comment ? take_comment(&s, first) : take_cells(&s);
  /* a CR at the end of what was read may be the first half of CRLF */
  if (got == DONE && !rows->ended && s.at + 1 >= s.end && *s.at == '\r')
    got = NEEDS_MORE;
  if (got == DONE) finish_row(&s, row);
  if (got == DONE && row->n && !comment) rows->heading = false;
  *status = s.status;
  return got;
}

scw_status scwi_rows_next(scw_context *context, scwi_rows *rows, scwi_row *row,
                          bool *more) {
  scw_status status = SCW_OK;
  *more = false;
  for (;;) {
    outcome got = NEEDS_MORE;
    if (rows->at < rows->filled) got = take_row(context, rows, row, &status);
    if (got == DONE) *more = true;
    if (got != NEEDS_MORE) return status;
    if (rows->ended) break;
    status = fill_more(context, rows);
    if (status != SCW_OK) return status;
  }
  place p = place_of(rows, rows->text + rows->filled);
  return scwi_text_in_end(context, rows->in, p.line, p.column);
}

/* ---- opening ---- */

static bool can_separate(char c) {
  bool printable = c >= ' ' && c < 127;
  bool word = (c >= '0' && c <= '9') || ((c | 0x20) >= 'a' && (c | 0x20) <= 'z');
  return c == '\t' || (printable && !word && !strchr("\"#.+-", c));
}

static scw_status check_arguments(scw_context *context, char separator,
                                  char decimal_mark) {
  if (separator && !can_separate(separator))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the separator %s cannot be used: choose comma, "
                     "semicolon, tab or blank",
                     separator == '"' ? "'\"'" : "given");
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
  if (n < 5 || strncasecmp(at, "sep=", 4) != 0) return 0;
  bool spelled = n == 6 && at[4] == '\\' && at[5] == 't';
  *separator = spelled ? '\t' : at[4];
  return (n == 5 || spelled) && can_separate(*separator) ? length : 0;
}

static scw_status fail_doubt(scw_context *context, const scwi_rows *rows,
                             const char *comma) {
  const char *end = rows->text + rows->filled;
  place p = place_of(rows, comma);
  const char *start = comma; /* quote the number from its first digit */
  while (start > rows->text && start[-1] >= '0' && start[-1] <= '9') start--;
  return scwi_fail_at(context, SCW_BAD_INPUT, rows->name, p.line, p.column,
                      "this comma may be a decimal mark or a separator; say "
                      "which by the decimal mark or the separator; seen: %.*s",
                      excerpt(start, end), start);
}

static scw_status find_separator(scw_context *context, scwi_rows *rows,
                                 char separator, char decimal_mark) {
  char named = 0;
  size_t line = separator_line(rows, &named);
  if (line) {
    rows->at = line;
    if (rows->at < rows->filled)
      rows->at += strncmp(rows->text + rows->at, "\r\n", 2) == 0 ? 2 : 1;
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
  for (size_t c = 0x80; c < 0x100; c++) rows->meaning[c] = BEYOND_ASCII;
  rows->meaning['\n'] = rows->meaning['\r'] = ENDS_LINE;
  if (separator) rows->meaning[(unsigned char)separator] = ENDS_CELL;
  if (separator == ' ') rows->meaning['\t'] = ENDS_CELL;
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
