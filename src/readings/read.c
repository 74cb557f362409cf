/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "read.h"

#include <stdlib.h>
#include <string.h>

#include "reader.h"
#include "rows.h"
#include "table.h"

static void reader_free(scwi_reader *reader) {
  scwi_layout_free(&reader->layout);
  scwi_text_free(&reader->scratch);
  free(reader->takings.taking);
}

scw_status scwi_reader_row(scwi_reader *reader, const scwi_row *row) {
  if (row->n == 0) return SCW_OK;
  if (scwi_row_is_comment(row))
    return scwi_account_leave_row(reader->context, reader->account, row,
                                  "comment");
  return reader->layout.bare ? scwi_reader_list_row(reader, row)
                             : scwi_reader_table_row(reader, row);
}

/* Evidence for the decimal mark out of the first rows. */
static void look_at_marks(scwi_reader *reader, const scwi_row *row) {
  const scwi_layout *layout = &reader->layout;
  for (size_t i = 0; i < row->n; i++) {
    const scwi_cell *cell = row->cells + i;
    scwi_token token;
    if (!layout->bare &&
        (i >= layout->n || layout->column[i].use == SCWI_USE_NONE ||
         layout->column[i].use == SCWI_USE_LABEL))
      continue;
    scwi_token_read(cell->text, cell->length, &token);
    if (token.kind != SCWI_NUMBER) continue;
    scwi_place place = {reader->file, cell->line, cell->column,
                        {cell->text, cell->length}};
    scwi_marks_look(&reader->marks, &token, &place);
  }
}

static scw_status take_page(scwi_reader *reader, const scwi_page *page,
                            size_t first) {
  for (size_t i = first; i < page->n; i++) {
    const scwi_row *row = page->row + i;
    if (!scwi_row_is_blank(row) && !scwi_row_is_comment(row))
      look_at_marks(reader, row);
  }
  scw_status status =
      scwi_marks_settle(reader->context, &reader->marks, reader->file);
  for (size_t i = first; i < page->n && status == SCW_OK; i++)
    status = scwi_reader_row(reader, page->row + i);
  return status;
}

static scw_status decide(scwi_reader *reader, const scwi_page *page,
                         size_t *first) {
  scwi_start start;
  scwi_arena arena = {0};
  scw_status status = scwi_start_find(reader->context, page, reader->account,
                                      &arena, &start);
  if (status == SCW_OK)
    status = scwi_layout_make(reader->context, reader->options, page, &start,
                              reader->labels, reader->account,
                              &reader->layout);
  *first = start.first;
  if (status == SCW_OK && start.has_header)
    reader->header_line = page->row[start.header].line;
  free(start.heading);
  scwi_arena_free(&arena);
  return status;
}

/* Tells the sink whether spots or directions are named anywhere, or readings
 * taken back: then running sums will not do. */
static void start_sink(const scwi_reader *reader) {
  const scwi_layout *layout = &reader->layout;
  bool by_spot = layout->has[SCW_ROLE_SPOT] ||
                 layout->has[SCW_ROLE_DIRECTION] ||
                 layout->has[SCW_ROLE_TAKES_BACK];
  for (size_t i = 0; i < layout->n; i++)
    by_spot = by_spot ||
              layout->column[i].given[SCW_ROLE_SPOT] != SCW_NO_LABEL ||
              layout->column[i].given[SCW_ROLE_DIRECTION] != SCW_NO_LABEL;
  if (reader->sink.start) reader->sink.start(reader->sink.user, by_spot);
}

static scw_status read_rows(scwi_reader *reader, scwi_rows *rows) {
  scwi_page page;
  size_t first = 0;
  scw_status status = scwi_page_fill(reader->context, rows, &page);
  if (status != SCW_OK) return status;
  bool more = !page.ended;
  status = decide(reader, &page, &first);
  if (status == SCW_OK) start_sink(reader);
  if (status == SCW_OK) status = take_page(reader, &page, first);
  scwi_page_free(&page);
  while (status == SCW_OK && more) {
    scwi_row row;
    if (reader->sink.take_lines)
      status = reader->sink.take_lines(reader->sink.user, reader, rows);
    if (status == SCW_OK)
      status = scwi_rows_next(reader->context, rows, &row, &more);
    if (status == SCW_OK && more) status = scwi_reader_row(reader, &row);
  }
  return status;
}

static void list_names(const scwi_reader *reader, const scwi_name_list *list,
                       char *out, size_t size) {
  size_t at = 0;
  for (size_t i = 0; i < list->n; i++) {
    const char *text = scwi_labels_text(reader->labels, list->label[i]);
    char shown[SCWI_SHOWN_SIZE];
    scwi_shown(text, strlen(text), shown);
    if (at + strlen(shown) + 3 > size) break;
    if (at) memcpy(out + at, ", ", 2), at += 2;
    memcpy(out + at, shown, strlen(shown));
    at += strlen(shown);
  }
  out[at] = 0;
}

/* A label given for before or after must be in the state column. */
static scw_status check_states(const scwi_reader *reader) {
  const scw_table_options *options = reader->options;
  const char *lost = NULL;
  char names[400];
  if (!reader->layout.has[SCW_ROLE_STATE]) return SCW_OK;
  if (options->before_label && !reader->seen[SCW_SIDE_BEFORE])
    lost = options->before_label;
  else if (options->after_label && !reader->seen[SCW_SIDE_AFTER])
    lost = options->after_label;
  if (!lost) return SCW_OK;
  list_names(reader, &reader->states, names, sizeof names);
  return scwi_fail_at(reader->context, SCW_BAD_ARGUMENT, reader->file, 0, 0,
                      "no row has the state '%s'. The states are: %s", lost,
                      names);
}

static scw_status no_readings(const scwi_reader *reader) {
  const scw_input *input = &reader->account->input;
  if (input->rows == 0 && reader->header_line)
    return scwi_fail_at(reader->context, SCW_BAD_INPUT, reader->file,
                        reader->header_line, 0,
                        "there is a header but no reading below it. Add the "
                        "readings, one row each");
  const char *column = input->role_column[SCW_ROLE_READING];
  return scwi_fail_at(
      reader->context, SCW_BAD_INPUT, reader->file, 0, 0,
      "no reading could be used: %zu rows of data, %zu cells or rows set "
      "aside. Check that the readings stand where they are looked for (%s)",
      input->rows, input->n_not_used, column ? column : "a list of numbers");
}

static scw_status finish(scwi_reader *reader, const scwi_rows_facts *facts) {
  scw_input *input = &reader->account->input;
  char names[200];
  if (input->used == 0) return no_readings(reader);
  scw_status status = check_states(reader);
  if (status != SCW_OK) return status;
  list_names(reader, &reader->geometries, names, sizeof names);
  status = scwi_account_keep(reader->context, reader->account,
                             (scwi_span){names, strlen(names)},
                             &input->geometry);
  input->encoding = facts->encoding;
  input->separator = facts->separator;
  input->separator_given = reader->options->separator || facts->separator_line;
  input->decimal_mark = reader->marks.decimal;
  input->decimal_mark_given = reader->marks.given;
  input->bytes = facts->bytes;
  memcpy(input->sha256, facts->sha256, sizeof input->sha256);
  scwi_account_close(reader->account);
  return status;
}

static scw_status prepare(scwi_reader *reader) {
  const char *geometry = reader->options->geometry;
  reader->row = scwi_reading_none();
  reader->geometry = SCW_NO_LABEL;
  reader->marks.decimal = reader->options->decimal_mark;
  reader->marks.given = reader->options->decimal_mark != 0;
  if (!geometry) return SCW_OK;
  scwi_span text = scwi_trim(geometry, strlen(geometry));
  scwi_span angle = scwi_angle_of(text, false);
  if (angle.length) text = angle;
  return scwi_labels_intern(reader->context, reader->labels, text.text,
                            text.length, &reader->geometry);
}

scw_status scwi_read(scw_context *context, const scw_table_options *options,
                     scw_source source, scwi_labels *labels,
                     scwi_account *account, scwi_reading_sink sink) {
  scwi_reader reader = {.context = context, .options = options,
                        .labels = labels,   .account = account,
                        .sink = sink,       .file = account->input.name};
  scwi_rows *rows = NULL;
  scw_status status = prepare(&reader);
  if (status == SCW_OK)
    status = scwi_rows_open(context, source, options->separator,
                            options->decimal_mark, &rows);
  if (status == SCW_OK) status = read_rows(&reader, rows);
  if (status == SCW_OK && reader.layout.has[SCW_ROLE_TAKES_BACK])
    status = sink.take_back(sink.user, context, &reader.takings);
  if (status == SCW_OK) {
    scwi_rows_facts facts = scwi_rows_facts_of(rows);
    status = finish(&reader, &facts);
  }
  scwi_rows_close(rows);
  reader_free(&reader);
  return status;
}
