/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cells that hold numbers. */
#include <string.h>

#include "reader.h"

static scwi_place place_of(const scwi_reader *reader, const scwi_cell *cell) {
  return (scwi_place){reader->file, cell->line, cell->column,
                      {cell->text, cell->length}};
}

static scw_status fail_cell(scwi_reader *reader, const scwi_cell *cell,
                            const char *what) {
  char shown[SCWI_SHOWN_SIZE];
  return scwi_fail_at(reader->context, SCW_BAD_INPUT, reader->file, cell->line,
                      cell->column, "'%s' %s",
                      scwi_shown(cell->text, cell->length, shown), what);
}

scw_status scwi_reader_blocks(scwi_reader *reader, size_t line,
                              scwi_span text) {
  char shown[SCWI_SHOWN_SIZE];
  return scwi_fail_at(
      reader->context, SCW_BAD_INPUT, reader->file, line, 0,
      "another table starts here ('%s'). Split the file and give one table "
      "in each, or put them into one table with a column that tells them "
      "apart",
      scwi_shown(text.text, text.length, shown));
}

/* Text where a reading should be: a second header, or a slip. */
static scw_status fail_text(scwi_reader *reader, const scwi_row *row,
                            const scwi_cell *cell) {
  scwi_heading heading;
  size_t filled = 0;
  for (size_t i = 0; i < row->n; i++) filled += row->cells[i].length > 0;
  scw_status status =
      scwi_heading_read(reader->context, &reader->layout.texts,
                        (scwi_span){cell->text, cell->length}, &heading);
  if (status != SCW_OK) return status;
  bool header = heading.kind == SCWI_HEAD_ROLE ||
                (heading.kind == SCWI_HEAD_READING && !heading.rest.length);
  for (size_t i = 0; i < reader->layout.n && !header; i++)
    header = heading.text.length &&
             scwi_same_name(reader->layout.column[i].name, heading.text);
  if (header)
    return scwi_reader_blocks(reader, row->line, heading.text);
  return fail_cell(reader, cell,
                   filled == 1
                       ? "is not a number. If the line is a remark, put # in "
                         "front of it; if it is a reading, write it as 87.4"
                       : "is not a number; a reading such as 87.4 is expected "
                         "here. Correct the cell, or leave it empty if there "
                         "is no reading");
}

scw_status scwi_reader_number(scwi_reader *reader, const scwi_cell *cell,
                              const char *what, bool *is_number,
                              double *value) {
  scwi_place place = place_of(reader, cell);
  scwi_decimal decimal;
  scw_status status = scwi_marks_cell(reader->context, &reader->marks, &place,
                                      what, is_number, &decimal);
  *value = decimal.value;
  return status;
}

void scwi_name_list_add(scwi_name_list *list, int32_t label) {
  for (size_t i = 0; i < list->n; i++)
    if (list->label[i] == label) return;
  if (list->n < SCWI_KEPT_NAMES) list->label[list->n++] = label;
}

static void overlay(scw_reading *reading, const scwi_column *column) {
  int32_t *const slot[SCW_ROLE_COUNT] = {
      [SCW_ROLE_SET] = &reading->set,
      [SCW_ROLE_PRODUCT] = &reading->product,
      [SCW_ROLE_PANEL] = &reading->panel,
      [SCW_ROLE_STATE] = &reading->state,
      [SCW_ROLE_SPOT] = &reading->spot,
      [SCW_ROLE_REPEAT] = &reading->repeat,
      [SCW_ROLE_SESSION] = &reading->session,
      [SCW_ROLE_DIRECTION] = &reading->direction,
      [SCW_ROLE_GEOMETRY] = &reading->geometry,
      [SCW_ROLE_OPERATOR] = &reading->by};
  for (int role = 0; role < SCW_ROLE_COUNT; role++)
    if (slot[role] && column->given[role] != SCW_NO_LABEL)
      *slot[role] = column->given[role];
  if (column->side != SCW_SIDE_NONE) reading->side = column->side;
}

/* A standard tile lies beside the panel and has no spot. */
static bool is_tile(const scwi_reader *reader, const scw_reading *reading) {
  return reading->side == SCW_SIDE_NONE && reading->state != SCW_NO_LABEL &&
         scwi_labels_length(reader->labels, reading->state) == 4 &&
         scwi_same_letters(scwi_labels_text(reader->labels, reading->state),
                           "tile", 4);
}

/* What the options say about the whole file must not contradict it. */
static scw_status apply_options(scwi_reader *reader, const scwi_cell *cell,
                                scw_reading *reading) {
  static const char *const words[] = {"no side", "before", "after"};
  scw_side side = reader->options->side;
  if (side != SCW_SIDE_NONE) {
    if (reading->side != SCW_SIDE_NONE && reading->side != side)
      return scwi_fail_at(
          reader->context, SCW_BAD_INPUT, reader->file, cell->line,
          cell->column,
          "this reading is marked as %s, in a file given as %s. Give the one "
          "file alone, or take the readings of the other side out of it",
          words[reading->side], words[side]);
    reading->side = side;
  }
  if (reader->geometry == SCW_NO_LABEL) return SCW_OK;
  if (reading->geometry != SCW_NO_LABEL &&
      reading->geometry != reader->geometry)
    return scwi_fail_at(
        reader->context, SCW_BAD_INPUT, reader->file, cell->line, cell->column,
        "this reading was taken at %s degrees, and %s was given as the "
        "geometry. Leave the option out or give the readings of one geometry",
        scwi_labels_text(reader->labels, reading->geometry),
        scwi_labels_text(reader->labels, reader->geometry));
  reading->geometry = reader->geometry;
  return SCW_OK;
}

/* Remembers that a cell of this set stands here, with or without a reading. */
static scw_status note_set(scwi_reader *reader, const scw_reading *reading) {
  size_t number;
  if (!reader->sink.order || reader->layout.n_readings < 2) return SCW_OK;
  scwi_set_key key = scwi_set_key_of(reading, 0);
  return scwi_set_index_find(reader->context, reader->sink.order, &key,
                             &number);
}

/* A cell of a reading column without a reading. */
static scw_status set_aside(scwi_reader *reader, const scwi_cell *cell,
                            const scwi_column *column, const char *reason) {
  scw_reading reading = reader->row;
  if (column) overlay(&reading, column);
  if (reader->options->side != SCW_SIDE_NONE)
    reading.side = reader->options->side;
  scw_status status = note_set(reader, &reading);
  return status ? status
                : scwi_account_leave(reader->context, reader->account,
                                     cell->line, cell->column, reason,
                                     (scwi_span){cell->text, cell->length});
}

static scw_status hand_over(scwi_reader *reader, const scwi_cell *cell,
                            const scwi_column *column, scw_mark mark,
                            const scwi_decimal *decimal) {
  scw_reading reading = reader->row;
  reading.value = decimal->value;
  reading.mantissa = decimal->mantissa;
  reading.digits = decimal->digits;
  reading.exact = decimal->exact;
  reading.mark = mark;
  reading.line = cell->line;
  reading.column = cell->column;
  if (column) overlay(&reading, column);
  scw_status status = apply_options(reader, cell, &reading);
  if (status == SCW_OK) status = note_set(reader, &reading);
  if (status != SCW_OK) return status;
  if (reader->sink.first_only && !reader->layout.has[SCW_ROLE_TAKES_BACK] &&
      reading.replaces != SCW_NO_LABEL)
    return scwi_account_leave(reader->context, reader->account, cell->line,
                              cell->column, "read again",
                              (scwi_span){cell->text, cell->length});
  if (reader->layout.has[SCW_ROLE_SPOT] && reading.spot == SCW_NO_LABEL &&
      !is_tile(reader, &reading))
    return scwi_account_leave(reader->context, reader->account, cell->line,
                              cell->column, "no spot",
                              (scwi_span){cell->text, cell->length});
  if (reading.geometry != SCW_NO_LABEL)
    scwi_name_list_add(&reader->geometries, reading.geometry);
  reader->account->input.used++;
  return reader->sink.take(reader->sink.user, reader->context, &reading);
}

/* A number with a comment behind it in the same cell. */
static scw_status drop_comment(scwi_reader *reader, const scwi_cell *cell,
                               scwi_token *token) {
  scwi_span number = scwi_uncommented(cell->text, cell->length);
  if (number.length == cell->length) return SCW_OK;
  scwi_token_read(number.text, number.length, token);
  if (token->kind == SCWI_TEXT) return SCW_OK;
  scwi_span rest = scwi_trim(cell->text + number.length,
                             cell->length - number.length);
  return scwi_account_leave(reader->context, reader->account, cell->line,
                            cell->column, "comment", rest);
}

scw_status scwi_reader_cell(scwi_reader *reader, const scwi_row *row,
                            const scwi_cell *cell, const scwi_column *column) {
  scwi_token token;
  scw_status status = SCW_OK;
  scwi_token_read(cell->text, cell->length, &token);
  if (token.kind == SCWI_TEXT) status = drop_comment(reader, cell, &token);
  if (status != SCW_OK) return status;
  if (token.kind == SCWI_TEXT) return fail_text(reader, row, cell);
  if (token.kind == SCWI_INFINITE)
    return fail_cell(reader, cell,
                     "is no reading. Correct the cell, or leave it empty if "
                     "there is no reading");
  if (token.kind != SCWI_NUMBER)
    return set_aside(reader, cell, column,
                     token.kind == SCWI_CENSORED ? "censored" : "missing");
  if (reader->remark.line)
    return scwi_reader_blocks(
        reader, reader->remark.line,
        (scwi_span){reader->remark_text, strlen(reader->remark_text)});
  scwi_place place = place_of(reader, cell);
  scwi_decimal decimal;
  status = scwi_marks_read(reader->context, &reader->marks, &token, &place,
                           &decimal);
  if (status != SCW_OK) return status;
  return hand_over(reader, cell, column, token.mark, &decimal);
}
