/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "named_columns.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "account_row.h"
#include "marks.h"
#include "memory.h"
#include "named_header.h"
#include "page.h"
#include "start.h"
#include "table.h"

typedef struct named_reader {
  scw_context *context;
  const scw_table_options *options;
  const scwi_named_ask *ask;
  scwi_account *account;
  scwi_named_header header;
  bool *numbers; /* of each column: a cell holds a number */
  scwi_marks marks;
  scwi_named_row row;
  scwi_decimal *reading[SCW_SIDE_AFTER + 1]; /* as many as there are columns */
} named_reader;

static scwi_place place_of(const named_reader *r, const scwi_cell *cell) {
  return (scwi_place){
      r->row.file, cell->line, cell->column, {cell->text, cell->length}};
}

static bool is_read(const named_reader *r, const scwi_named_heading *h) {
  return scwi_named_is_read(r->ask, h);
}

/* A count without point and comma tells nothing of the decimal mark: 120
 * readings do not make 1.234 doubtful. */
static bool is_plain_count(const scwi_named_heading *h, const scwi_cell *cell) {
  return h->what == SCWI_NAMED_N && cell->length &&
         !memchr(cell->text, '.', cell->length) &&
         !memchr(cell->text, ',', cell->length);
}

static void look_at_marks(named_reader *r, const scwi_row *row) {
  for (size_t i = 0; i < row->n && i < r->header.n; i++) {
    const scwi_named_heading *h = &r->header.heading[i];
    const scwi_cell *cell = &row->cells[i];
    scwi_token token;
    if (!is_read(r, h) || h->what < SCWI_NAMED_N || is_plain_count(h, cell))
      continue;
    scwi_token_read(cell->text, cell->length, &token);
    if (token.kind != SCWI_NUMBER) continue;
    scwi_place place = place_of(r, cell);
    scwi_marks_look(&r->marks, &token, &place);
  }
}

/* A number such as 87.4 whose marks are known already, as most are. */
static bool take_plain(const named_reader *r, const scwi_cell *cell,
                       scwi_decimal *out) {
  bool found = scwi_decimal_plain(cell->text, cell->length, r->marks.decimal,
                                  out);
  return found && (out->digits > 0 ? scwi_marks_know_decimals(&r->marks)
                                   : scwi_marks_know_wholes(&r->marks));
}

/* One of many readings of a row. */
static scw_status take_reading(named_reader *r, const scwi_named_heading *h,
                               const scwi_cell *cell) {
  scwi_decimal *to = &r->reading[h->side][r->row.n_readings[h->side]];
  scwi_place place = place_of(r, cell);
  bool is_number = true;
  scw_status status = SCW_OK;
  if (!take_plain(r, cell, to))
    status = scwi_marks_cell(r->context, &r->marks, &place,
                             scwi_named_word(h->what), &is_number, to);
  r->row.n_readings[h->side] += is_number;
  return status;
}

static scw_status take_number(named_reader *r, const scwi_named_heading *h,
                              const scwi_cell *cell, scwi_named_cell *to) {
  scwi_decimal decimal;
  scwi_marks settled = {.decimal = '.', .given = true};
  scwi_place place = place_of(r, cell);
  bool is_number;
  scw_status status = scwi_marks_cell(
      r->context, is_plain_count(h, cell) ? &settled : &r->marks, &place,
      scwi_named_word(h->what), &is_number, &decimal);
  to->number = decimal.value;
  to->digits = decimal.digits;
  return status;
}

/* A unit or geometry in a column must be one and the same for all rows. */
static scw_status keep_one(named_reader *r, const char **kept,
                           const scwi_named_cell *cell, const char *word) {
  char shown[SCWI_SHOWN_SIZE];
  if (!cell->text.length) return SCW_OK;
  if (!**kept)
    return scwi_account_keep(r->context, r->account, cell->text, kept);
  if (scwi_same_name((scwi_span){*kept, strlen(*kept)}, cell->text))
    return SCW_OK;
  return scwi_fail_at(
      r->context, SCW_BAD_INPUT, r->row.file, cell->line, cell->column,
      "the %s '%s' here and '%s' before it are never compared. Give one file "
      "for each",
      word, scwi_shown(cell->text.text, cell->text.length, shown), *kept);
}

static scw_status take_cell(named_reader *r, size_t i, const scwi_cell *cell) {
  const scwi_named_heading *h = &r->header.heading[i];
  scwi_named_cell *to = &r->row.cell[h->what][h->side];
  scw_input *input = &r->account->input;
  if (!is_read(r, h)) {
    scwi_token token;
    scwi_token_read(cell->text, cell->length, &token);
    if (token.kind == SCWI_NUMBER || token.kind == SCWI_CENSORED)
      r->numbers[i] = true;
    return SCW_OK;
  }
  if (h->what == SCWI_NAMED_READING) return take_reading(r, h, cell);
  to->line = cell->line;
  to->column = cell->column;
  if (h->what >= SCWI_NAMED_N) return take_number(r, h, cell, to);
  to->text = scwi_trim(cell->text, cell->length);
  if (r->ask->open) return SCW_OK;
  if (h->what == SCWI_NAMED_UNIT && !r->options->unit)
    return keep_one(r, &input->unit, to, "unit");
  if (h->what == SCWI_NAMED_GEOMETRY)
    return keep_one(r, &input->geometry, to, "geometry");
  return SCW_OK;
}

static scwi_named_cell empty_cell(size_t line, bool has) {
  return (scwi_named_cell){
      .has = has, .line = line, .number = NAN, .text = {"", 0}};
}

/* Columns that the file has not stay empty from the start. */
static void clear_row(named_reader *r, const scwi_row *row) {
  r->row.line = row->line;
  for (int side = 0; side <= SCW_SIDE_AFTER; side++) {
    r->row.reading[side] = r->reading[side];
    r->row.n_readings[side] = 0;
  }
  for (size_t i = 0; i < r->header.n; i++) {
    const scwi_named_heading *h = &r->header.heading[i];
    if (is_read(r, h) && h->what != SCWI_NAMED_READING)
      r->row.cell[h->what][h->side] = empty_cell(row->line, true);
  }
}

static scw_status take_row(named_reader *r, const scwi_row *row) {
  scw_status status = SCW_OK;
  if (scwi_row_is_blank(row)) return SCW_OK;
  if (scwi_row_is_comment(row))
    return scwi_account_leave_row(r->context, r->account, row, "comment");
  clear_row(r, row);
  for (size_t i = 0; i < row->n && !status; i++) {
    const scwi_cell *cell = &row->cells[i];
    char shown[SCWI_SHOWN_SIZE];
    if (i < r->header.n)
      status = take_cell(r, i, cell);
    else if (cell->length)
      status = scwi_fail_at(
          r->context, SCW_BAD_INPUT, r->row.file, cell->line, cell->column,
          "'%s' stands beyond the last heading. Give every column a heading; "
          "put a number with a comma in quotes, as in \"87,4\"",
          scwi_shown(cell->text, cell->length, shown));
  }
  r->account->input.rows++;
  return status ? status : r->ask->take(r->ask->user, r->context, &r->row);
}

static scw_status make_room(named_reader *r) {
  scw_status status = SCWI_ALLOCATE(r->context, r->header.n, &r->numbers);
  for (int side = 0; side <= SCW_SIDE_AFTER && !status; side++)
    status = SCWI_ALLOCATE(r->context, r->header.n, &r->reading[side]);
  for (int what = 0; what < SCWI_NAMED_END; what++)
    for (int side = 0; side <= SCW_SIDE_AFTER; side++)
      r->row.cell[what][side] = empty_cell(0, false);
  return status;
}

/* Says where the headings are, as if they were a row. */
static scw_status tell_headings(named_reader *r, size_t line) {
  r->row.line = line;
  for (size_t i = 0; i < r->header.n; i++) {
    const scwi_named_heading *h = &r->header.heading[i];
    if (!is_read(r, h)) continue;
    r->row.cell[h->what][h->side] =
        (scwi_named_cell){true, h->line, h->column, NAN, 0, h->text};
  }
  return r->ask->check ? r->ask->check(r->ask->user, r->context, &r->row)
                       : SCW_OK;
}

static scw_status take_page(named_reader *r, const scwi_page *page,
                            size_t first) {
  for (size_t i = first; i < page->n; i++)
    if (!scwi_row_is_comment(page->row + i)) look_at_marks(r, page->row + i);
  scw_status status = scwi_marks_settle(r->context, &r->marks, r->row.file);
  for (size_t i = first; i < page->n && !status; i++)
    status = take_row(r, page->row + i);
  return status;
}

static scw_status take_comments(named_reader *r, const scwi_page *page,
                                size_t end) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < end && !status; i++)
    if (scwi_row_is_comment(page->row + i))
      status = scwi_account_leave_row(r->context, r->account, page->row + i,
                                      "comment");
  return status;
}

/* Columns that are not read, those of numbers nobody understood by their own
 * reason. */
static scw_status tell_columns(named_reader *r) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < r->header.n && !status; i++) {
    const scwi_named_heading *h = &r->header.heading[i];
    if (is_read(r, h) || !h->text.length) continue;
    bool lost = h->what == SCWI_NAMED_UNKNOWN && r->numbers[i];
    status = scwi_account_leave(r->context, r->account, h->line, h->column,
                                lost ? SCWI_NOT_UNDERSTOOD : "column not read",
                                h->text);
  }
  return status;
}

static scw_status read_rows(named_reader *r, scwi_rows *rows,
                            const scwi_page *page) {
  size_t first = 0;
  bool more = !page->ended;
  scw_status status = scwi_named_header_read(
      r->context, r->options, page, r->ask, r->account, &r->header, &first);
  if (!status) status = take_comments(r, page, r->header.row);
  if (!status) status = make_room(r);
  if (!status) status = tell_headings(r, page->row[r->header.row].line);
  if (!status) status = take_page(r, page, first);
  while (!status && more) {
    scwi_row row;
    status = scwi_rows_next(r->context, rows, &row, &more);
    if (!status && more) status = take_row(r, &row);
  }
  if (!status && r->account->input.rows == 0)
    status = scwi_fail_at(r->context, SCW_BAD_INPUT, r->row.file, 0, 0,
                          "no rows below the header; give a header line and "
                          "at least one row");
  return status ? status : tell_columns(r);
}

static void fill_account(named_reader *r, const scwi_rows *rows) {
  scwi_rows_facts facts = scwi_rows_facts_of(rows);
  scw_input *input = &r->account->input;
  input->encoding = facts.encoding;
  input->separator = facts.separator;
  input->separator_given = r->options->separator || facts.separator_line;
  input->decimal_mark = r->marks.decimal;
  input->decimal_mark_given = r->marks.given;
  input->bytes = facts.bytes;
  memcpy(input->sha256, facts.sha256, sizeof input->sha256);
  input->shape = "named columns";
  input->used = input->rows;
  scwi_account_close(r->account);
}

static scw_status check_options(scw_context *context,
                                const scw_table_options *options) {
  for (int role = 0; role < SCW_ROLE_COUNT; role++)
    if (options->column[role])
      return scwi_fail(context, SCW_BAD_ARGUMENT,
                       "column '%s' was named as the %s; the columns of a "
                       "table of numbers are known by their headings alone. "
                       "Leave the option out and change the heading",
                       options->column[role], scw_role_name((scw_role)role));
  return SCW_OK;
}

scw_status scwi_named_columns_read(scw_context *context,
                                   const scw_table_options *options,
                                   scw_source source, const scwi_named_ask *ask,
                                   scw_table **account) {
  static const scw_table_options none;
  named_reader r = {.context = context, .ask = ask};
  scwi_rows *rows = NULL;
  scwi_page page = {0};
  *account = NULL;
  r.options = options ? options : &none;
  r.row.file = source.name ? source.name : "input";
  r.marks.decimal = r.options->decimal_mark;
  r.marks.given = r.options->decimal_mark != 0;
  scw_status status = check_options(context, r.options);
  if (!status)
    status = scwi_rows_open(context, source, r.options->separator,
                            r.options->decimal_mark, &rows);
  if (!status) status = scwi_table_new(context, r.row.file, account);
  if (!status) r.account = &(*account)->input[0].account;
  if (!status) status = scwi_page_fill(context, rows, &page);
  if (!status) status = read_rows(&r, rows, &page);
  if (!status) {
    fill_account(&r, rows);
  } else {
    scw_table_free(*account);
    *account = NULL;
  }
  scwi_page_free(&page);
  scwi_named_header_free(&r.header);
  free(r.numbers);
  for (int side = 0; side <= SCW_SIDE_AFTER; side++) free(r.reading[side]);
  scwi_rows_close(rows);
  return status;
}

scw_status scwi_named_fail(scw_context *context, const scwi_named_row *row,
                           const scwi_named_cell *cell, const char *words) {
  return scwi_fail_at(context, SCW_BAD_INPUT, row->file,
                      cell ? cell->line : row->line, cell ? cell->column : 0,
                      "%s", words);
}
