/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "named_columns.h"

#include <math.h>
#include <string.h>

#include "decimal.h"
#include "rows.h"
#include "table.h"
#include "text.h"
#include "token.h"
#include "words.h"

typedef struct named_reader {
  scw_context *context;
  const char *file;
  const scwi_named_column *columns;
  size_t n;
  size_t place[SCWI_NAMED_MOST]; /* cell of each column, or SIZE_MAX */
  bool has[SCWI_NAMED_MOST];
  double number[SCWI_NAMED_MOST];
  scwi_span text[SCWI_NAMED_MOST];
  size_t rows;
} named_reader;

/* "mean (GU)" is "mean". */
static scwi_span without_unit(const scwi_cell *cell) {
  size_t length = 0;
  while (length < cell->length && cell->text[length] != '(' &&
         cell->text[length] != '[')
    length++;
  return scwi_trim(cell->text, length);
}

static bool is_called(const scwi_named_column *column, scwi_span heading) {
  scwi_span name = {column->name, strlen(column->name)};
  scwi_span other = {column->other, column->other ? strlen(column->other) : 0};
  return scwi_same_name(name, heading) ||
         (column->other && scwi_same_name(other, heading));
}

static scw_status fail_missing(named_reader *r, const scwi_row *header,
                               const char *name) {
  scwi_text there = {0};
  for (size_t i = 0; i < header->n; i++) {
    scwi_text_add(&there, i ? ", " : "");
    scwi_text_append(&there, header->cells[i].text, header->cells[i].length);
  }
  scw_status status = scwi_fail_at(
      r->context, SCW_BAD_INPUT, r->file, header->line, 0,
      "no column is called '%s'; the columns are: %s", name,
      there.data ? there.data : "none");
  scwi_text_free(&there);
  return status;
}

static scw_status find_column(named_reader *r, const scwi_row *header,
                              size_t column) {
  r->place[column] = SIZE_MAX;
  for (size_t i = 0; i < header->n; i++) {
    if (!is_called(&r->columns[column], without_unit(&header->cells[i])))
      continue;
    if (r->place[column] != SIZE_MAX)
      return scwi_fail_at(r->context, SCW_BAD_INPUT, r->file, header->line,
                          header->cells[i].column,
                          "a second column called '%s'; rename one of them",
                          r->columns[column].name);
    r->place[column] = i;
  }
  r->has[column] = r->place[column] != SIZE_MAX;
  if (r->has[column] || !r->columns[column].required) return SCW_OK;
  return fail_missing(r, header, r->columns[column].name);
}

static scw_status take_header(named_reader *r, const scwi_row *header) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < r->n && !status; i++)
    status = find_column(r, header, i);
  return status;
}

/* A number with a decimal point, or a comma where the cell has no point. */
static scw_status take_number(named_reader *r, const scwi_cell *cell,
                              const char *name, double *out) {
  scwi_token token;
  scwi_decimal number;
  char shown[SCWI_SHOWN_SIZE];
  scwi_token_read(cell->text, cell->length, &token);
  if (token.kind == SCWI_EMPTY || token.kind == SCWI_MISSING) return SCW_OK;
  if (token.kind == SCWI_NUMBER) {
    bool comma = memchr(token.body.text, ',', token.body.length) &&
                 !memchr(token.body.text, '.', token.body.length);
    if (scwi_decimal_read(token.body.text, token.body.length,
                          comma ? ',' : '.', &number) == SCWI_DECIMAL_OK) {
      *out = number.value;
      return SCW_OK;
    }
  }
  return scwi_fail_at(r->context, SCW_BAD_INPUT, r->file, cell->line,
                      cell->column, "'%s' where a number for '%s' is expected",
                      scwi_shown(cell->text, cell->length, shown), name);
}

static scw_status take_cells(named_reader *r, const scwi_row *row) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < r->n && !status; i++) {
    r->number[i] = NAN;
    r->text[i] = (scwi_span){"", 0};
    if (r->place[i] >= row->n) continue;
    const scwi_cell *cell = &row->cells[r->place[i]];
    if (r->columns[i].is_text)
      r->text[i] = scwi_trim(cell->text, cell->length);
    else
      status = take_number(r, cell, r->columns[i].name, &r->number[i]);
  }
  return status;
}

static bool is_blank(const scwi_row *row) {
  for (size_t i = 0; i < row->n; i++)
    if (row->cells[i].length) return false;
  return true;
}

static bool is_comment(const scwi_row *row) {
  return row->n && row->cells[0].length && row->cells[0].text[0] == '#' &&
         !row->cells[0].quoted;
}

static scw_status read_rows(named_reader *r, scwi_rows *rows,
                            scwi_take_row take, void *user) {
  bool more = true, header = false;
  scw_status status = SCW_OK;
  while (!status) {
    scwi_row row;
    status = scwi_rows_next(r->context, rows, &row, &more);
    if (status || !more) break;
    if (is_blank(&row) || is_comment(&row)) continue;
    if (!header) {
      status = take_header(r, &row);
      header = true;
      continue;
    }
    scwi_named_row given = {row.line, r->number, r->text, r->has};
    status = take_cells(r, &row);
    if (!status) status = take(user, r->context, &given);
    r->rows++;
  }
  if (!status && r->rows == 0)
    status = scwi_fail_at(r->context, SCW_BAD_INPUT, r->file, 0, 0,
                          "no rows below the header; give a header line and "
                          "at least one row");
  return status;
}

static void fill_account(scw_table *table, const named_reader *r,
                         const scwi_rows *rows) {
  scwi_rows_facts facts = scwi_rows_facts_of(rows);
  scw_input *input = &table->input[0].account.input;
  input->encoding = facts.encoding;
  input->separator = facts.separator;
  input->separator_given = facts.separator_line;
  input->bytes = facts.bytes;
  memcpy(input->sha256, facts.sha256, sizeof input->sha256);
  input->shape = "named columns";
  input->rows = input->used = r->rows;
  scwi_account_close(&table->input[0].account);
}

scw_status scwi_named_columns_read(scw_context *context, scw_source source,
                                   const scwi_named_column *columns, size_t n,
                                   scwi_take_row take, void *user,
                                   scw_table **account) {
  named_reader r = {
      .context = context, .file = source.name, .columns = columns, .n = n};
  scwi_rows *rows = NULL;
  *account = NULL;
  scw_status status = scwi_rows_open(context, source, 0, 0, &rows);
  if (!status) status = scwi_table_new(context, source.name, account);
  if (!status) status = read_rows(&r, rows, take, user);
  if (!status) {
    fill_account(*account, &r, rows);
  } else {
    scw_table_free(*account);
    *account = NULL;
  }
  scwi_rows_close(rows);
  return status;
}

scw_side scwi_named_side(scwi_span text) {
  return scwi_side_of(text.text, text.length);
}
