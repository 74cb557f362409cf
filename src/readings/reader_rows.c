/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows of a table with a header, and of a list. */
#include <string.h>

#include "memory.h"
#include "reader.h"

/* The filled cells of a row. */
typedef struct filling {
  size_t n, first;
} filling;

static filling filling_of(const scwi_row *row) {
  filling f = {0, row->n};
  for (size_t i = 0; i < row->n; i++) {
    const scwi_cell *cell = row->cells + i;
    if (!cell->length) continue;
    if (cell->quoted && !scwi_trim(cell->text, cell->length).length) continue;
    if (f.n++ == 0) f.first = i;
  }
  return f;
}

static bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* Mean, SD and the like in the first filled cell or where labels stand. */
static bool is_summary_row(const scwi_layout *layout, const scwi_row *row,
                           size_t first) {
  for (size_t i = first; i < row->n; i++) {
    const scwi_cell *cell = row->cells + i;
    bool reading =
        i < layout->n && layout->column[i].use == SCWI_USE_READING;
    bool aside = i < layout->n && /* a remark, not a label */
                 ((layout->column[i].use == SCWI_USE_NONE &&
                   layout->column[i].named) ||
                  (layout->column[i].use == SCWI_USE_LABEL &&
                   layout->column[i].role == SCW_ROLE_EVENT));
    if (((reading || aside) && i != first) || !cell->length) continue;
    scwi_span text = scwi_trim(cell->text, cell->length);
    if (text.length && is_letter(text.text[0]) &&
        scwi_is_summary(text.text, text.length))
      return true;
  }
  return false;
}

/* Cells to the right of the header: a remark, or too many numbers. */
static scw_status check_width(scwi_reader *reader, const scwi_row *row) {
  scw_status status = SCW_OK;
  for (size_t i = reader->layout.n; i < row->n && status == SCW_OK; i++) {
    const scwi_cell *cell = row->cells + i;
    scwi_token token;
    char shown[SCWI_SHOWN_SIZE];
    scwi_token_read(cell->text, cell->length, &token);
    if (token.kind == SCWI_TEXT)
      status = scwi_account_leave(reader->context, reader->account, cell->line,
                                  cell->column, "cell beyond the header",
                                  (scwi_span){cell->text, cell->length});
    else if (token.kind != SCWI_EMPTY)
      return scwi_fail_at(
          reader->context, SCW_BAD_INPUT, reader->file, cell->line,
          cell->column,
          "'%s' stands beyond the last column of the header, which has %zu. "
          "Name the column in the header, or quote numbers with a decimal "
          "comma in a file separated by commas",
          scwi_shown(cell->text, cell->length, shown), reader->layout.n);
  }
  return status;
}

/* "Panel H8" alone in the spot column is the title of another table. */
static scw_status is_title(scwi_reader *reader, const scwi_cell *cell,
                           bool *out) {
  scwi_heading heading;
  scw_status status =
      scwi_heading_read(reader->context, &reader->layout.texts,
                        (scwi_span){cell->text, cell->length}, &heading);
  *out = status == SCW_OK && (heading.kind == SCWI_HEAD_READING ||
                              heading.kind == SCWI_HEAD_ROLE);
  return status;
}

/* A row with one filled cell that holds no reading. *taken: it is dealt with
 * (a remark; an error if readings follow). */
static scw_status take_lone(scwi_reader *reader, const scwi_row *row,
                            size_t i, bool *taken) {
  const scwi_layout *layout = &reader->layout;
  const scwi_cell *cell = row->cells + i;
  scwi_token token;
  bool title = i >= layout->n || (layout->column[i].use == SCWI_USE_NONE &&
                                  !layout->column[i].named);
  scwi_token_read(cell->text, cell->length, &token);
  *taken = false;
  if (token.kind != SCWI_TEXT || layout->n < 2) return SCW_OK;
  if (i < layout->n && layout->column[i].use == SCWI_USE_LABEL &&
      layout->column[i].role == SCW_ROLE_SPOT) {
    scw_status status = is_title(reader, cell, &title);
    if (status != SCW_OK) return status;
  }
  if (cell->text[0] == '*') title = true; /* what a starred reading means */
  if (!title) return SCW_OK;
  *taken = true;
  if (reader->account->input.used) {
    reader->remark.line = row->line;
    scwi_shown(cell->text, cell->length, reader->remark_text);
  }
  return scwi_account_leave_row(reader->context, reader->account, row,
                                "remark");
}

/* A reading cell that the row is too short for. */
static scwi_cell absent(const scwi_row *row) {
  return (scwi_cell){"", 0, row->line, 0, false};
}

static bool without_readings(const scwi_layout *layout, const scwi_row *row) {
  bool empty = true;
  for (size_t k = 0; k < layout->n_readings && empty; k++)
    empty = layout->reading[k] >= row->n ||
            row->cells[layout->reading[k]].length == 0;
  return empty;
}

/* A row that only tells of an event. *taken: it is dealt with. */
static scw_status take_event(scwi_reader *reader, const scwi_row *row,
                             bool *taken) {
  const scwi_reading_sink *sink = &reader->sink;
  *taken = without_readings(&reader->layout, row);
  if (!*taken) return SCW_OK;
  reader->row.line = row->line;
  scw_status status =
      sink->event ? sink->event(sink->user, reader->context, &reader->row)
                  : SCW_OK;
  if (status == SCW_OK)
    status = scwi_account_leave_row(reader->context, reader->account, row,
                                    "event");
  return status;
}

/* A row that takes back an earlier one. *taken: it holds no reading itself. */
static scw_status take_back(scwi_reader *reader, const scwi_row *row,
                            bool *taken) {
  const scwi_layout *layout = &reader->layout;
  scwi_takings *takings = &reader->takings;
  const char *text = scwi_labels_text(reader->labels, reader->row.takes_back);
  char shown[SCWI_SHOWN_SIZE];
  scwi_decimal order;
  if (!layout->has[SCW_ROLE_ORDER] ||
      scwi_decimal_read(text, strlen(text), '.', &order) != SCWI_DECIMAL_OK)
    return scwi_fail_at(
        reader->context, SCW_BAD_INPUT, reader->file, row->line, 0,
        "'%s' does not say which reading is taken back. Give its number in the "
        "order column",
        scwi_shown(text, strlen(text), shown));
  scw_status status = SCWI_RESERVE(reader->context, takings->n + 1,
                                   &takings->taking, &takings->capacity);
  if (status != SCW_OK) return status;
  takings->taking[takings->n++] = (scwi_taking){
      order.value, row->line, reader->account->input.used};
  *taken = without_readings(layout, row);
  if (*taken)
    status = scwi_account_leave_row(reader->context, reader->account, row,
                                    "takes back");
  return status;
}

scw_status scwi_reader_table_row(scwi_reader *reader, const scwi_row *row) {
  const scwi_layout *layout = &reader->layout;
  filling f = filling_of(row);
  scw_status status = SCW_OK;
  bool taken = false;
  if (f.n == 0) return SCW_OK;
  if (is_summary_row(layout, row, f.first))
    return scwi_account_leave_row(reader->context, reader->account, row,
                                  "summary line");
  if (f.n == 1) status = take_lone(reader, row, f.first, &taken);
  if (status != SCW_OK || taken) return status;
  if (row->n > layout->n) status = check_width(reader, row);
  if (status == SCW_OK) status = scwi_reader_labels(reader, row);
  reader->account->input.rows++;
  if (status == SCW_OK && reader->row.takes_back != SCW_NO_LABEL)
    status = take_back(reader, row, &taken);
  if (status == SCW_OK && !taken && reader->row.event != SCW_NO_LABEL)
    status = take_event(reader, row, &taken);
  if (taken) return status;
  for (size_t k = 0; k < layout->n_readings && status == SCW_OK; k++) {
    size_t i = layout->reading[k];
    scwi_cell none = absent(row);
    status = scwi_reader_cell(reader, row, i < row->n ? row->cells + i : &none,
                              layout->column + i);
  }
  return status;
}

/* The cells of a list may hold several numbers parted by blanks. */
static scw_status take_listed(scwi_reader *reader, const scwi_row *row,
                              const scwi_cell *cell) {
  const scwi_column *title = reader->layout.n && reader->layout.n_readings
                                 ? reader->layout.column
                                 : NULL;
  scw_status status = SCW_OK;
  size_t i = 0, column = cell->column;
  while (i < cell->length && status == SCW_OK) {
    size_t first = i;
    while (i < cell->length && cell->text[i] != ' ' && cell->text[i] != '\t')
      i++;
    if (i > first) {
      scwi_cell part = {cell->text + first, i - first, cell->line, column,
                        cell->quoted};
      if (part.text[0] == '#')
        return scwi_account_leave(
            reader->context, reader->account, part.line, column, "comment",
            (scwi_span){part.text, cell->length - first});
      status = scwi_reader_cell(reader, row, &part, title);
    }
    column += scwi_text_columns(cell->text + first, i - first) + 1;
    i++;
  }
  return status;
}

scw_status scwi_reader_list_row(scwi_reader *reader, const scwi_row *row) {
  filling f = filling_of(row);
  scw_status status = SCW_OK;
  if (f.n == 0) return SCW_OK;
  scwi_span text = {row->cells[f.first].text, row->cells[f.first].length};
  size_t word = 0;
  while (word < text.length && text.text[word] != ' ') word++;
  if (scwi_is_summary(text.text, text.length) ||
      scwi_is_summary(text.text, word))
    return scwi_account_leave_row(reader->context, reader->account, row,
                                  "summary line");
  reader->account->input.rows++;
  for (size_t i = f.first; i < row->n && status == SCW_OK; i++)
    status = take_listed(reader, row, row->cells + i);
  return status;
}
