/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Labels of a row: product, panel, state, spot ... */
#include <math.h>
#include <string.h>

#include "reader.h"

int32_t *scwi_reading_label(scw_reading *row, scw_role role) {
  switch (role) {
    case SCW_ROLE_SET: return &row->set;
    case SCW_ROLE_PRODUCT: return &row->product;
    case SCW_ROLE_PANEL: return &row->panel;
    case SCW_ROLE_STATE: return &row->state;
    case SCW_ROLE_SPOT: return &row->spot;
    case SCW_ROLE_REPEAT: return &row->repeat;
    case SCW_ROLE_SESSION: return &row->session;
    case SCW_ROLE_DIRECTION: return &row->direction;
    case SCW_ROLE_GEOMETRY: return &row->geometry;
    case SCW_ROLE_REPLACES: return &row->replaces;
    case SCW_ROLE_TAKES_BACK: return &row->takes_back;
    case SCW_ROLE_OPERATOR: return &row->by;
    case SCW_ROLE_ROW: return &row->grid_row;
    case SCW_ROLE_COLUMN: return &row->grid_column;
    case SCW_ROLE_DATE: return &row->date;
    case SCW_ROLE_INSTRUMENT: return &row->instrument;
    case SCW_ROLE_STANDARD: return &row->standard;
    case SCW_ROLE_EVENT: return &row->event;
    case SCW_ROLE_KIND: return &row->kind;
    default: return NULL;
  }
}

/* Merged cells leave the label in the first row only. */
static bool is_carried(scw_role role) {
  return role == SCW_ROLE_SET || role == SCW_ROLE_PRODUCT ||
         role == SCW_ROLE_PANEL || role == SCW_ROLE_STATE ||
         role == SCW_ROLE_SESSION || role == SCW_ROLE_OPERATOR ||
         role == SCW_ROLE_INSTRUMENT || role == SCW_ROLE_STANDARD;
}

static scwi_span cell_text(const scwi_row *row, size_t i) {
  if (i >= row->n) return (scwi_span){"", 0};
  return scwi_trim(row->cells[i].text, row->cells[i].length);
}

/* Is the repeat of this row filled? Then a blank spot is a merged one. */
static bool has_repeat(const scwi_reader *reader, const scwi_row *row) {
  const scwi_layout *layout = &reader->layout;
  for (size_t k = 0; k < layout->n_others; k++) {
    size_t i = layout->other[k];
    if (layout->column[i].role == SCW_ROLE_REPEAT)
      return cell_text(row, i).length > 0;
  }
  return false;
}

/* The label as it is compared: blanks of every kind are one. */
static scwi_span fold(scwi_reader *reader, scwi_span text) {
  bool plain = true;
  for (size_t i = 0; i < text.length && plain; i++)
    plain = (unsigned char)text.text[i] < 0x80 && text.text[i] >= ' ';
  if (plain) return text;
  scwi_text_clear(&reader->scratch);
  for (size_t i = 0; i < text.length;) {
    size_t blank = scwi_blank_at(text.text + i, text.length - i);
    scwi_text_append(&reader->scratch, blank ? " " : text.text + i, 1);
    i += blank ? blank : 1;
  }
  return (scwi_span){reader->scratch.data, reader->scratch.length};
}

static scw_status carry(scwi_reader *reader, const scwi_row *row,
                        scw_role role, int32_t *slot) {
  bool carried = is_carried(role) ||
                 (role == SCW_ROLE_SPOT && has_repeat(reader, row));
  if (!carried) *slot = SCW_NO_LABEL;
  if (*slot == SCW_NO_LABEL) return SCW_OK;
  scw_input *input = &reader->account->input;
  if (input->labels_carried++ == 0) input->labels_carried_line = row->line;
  return SCW_OK;
}

static bool is_label(const char *option, scwi_span text) {
  return option && scwi_same_name(scwi_trim(option, strlen(option)), text);
}

static scw_side side_of(const scw_table_options *options, scwi_span text) {
  if (is_label(options->before_label, text)) return SCW_SIDE_BEFORE;
  if (is_label(options->after_label, text)) return SCW_SIDE_AFTER;
  scw_side side = scwi_side_of(text.text, text.length);
  if (side == SCW_SIDE_BEFORE && options->before_label) return SCW_SIDE_NONE;
  if (side == SCW_SIDE_AFTER && options->after_label) return SCW_SIDE_NONE;
  return side;
}

static void take_state(scwi_reader *reader, scwi_span text) {
  reader->row.side = side_of(reader->options, text);
  reader->seen[reader->row.side] = true;
  scwi_name_list_add(&reader->states, reader->row.state);
}

/* NA or - in the spot column is no spot; it replaces or takes back nothing,
 * and is no event. */
static bool is_no_label(scw_role role, scwi_span text) {
  scwi_token token;
  bool may_lack = role == SCW_ROLE_SPOT || role == SCW_ROLE_REPLACES ||
                  role == SCW_ROLE_TAKES_BACK || role == SCW_ROLE_EVENT;
  if (!may_lack || text.length > 8) return false;
  scwi_token_read(text.text, text.length, &token);
  return token.kind == SCWI_MISSING;
}

/* A label cell; equal neighbours are not looked up again. */
static scw_status take_label(scwi_reader *reader, const scwi_row *row,
                             size_t i, scw_role role) {
  int32_t *slot = scwi_reading_label(&reader->row, role);
  scwi_span text = cell_text(row, i);
  scw_status status = SCW_OK;
  if (text.length == 0) return carry(reader, row, role, slot);
  if (is_no_label(role, text)) {
    *slot = SCW_NO_LABEL;
    return SCW_OK;
  }
  if (role == SCW_ROLE_GEOMETRY) {
    scwi_span angle = scwi_angle_of(text, false);
    if (angle.length) text = angle;
  }
  text = fold(reader, text);
  if (*slot != SCW_NO_LABEL &&
      scwi_labels_length(reader->labels, *slot) == text.length &&
      !memcmp(scwi_labels_text(reader->labels, *slot), text.text, text.length))
    return SCW_OK;
  status = scwi_labels_intern(reader->context, reader->labels, text.text,
                              text.length, slot);
  if (status == SCW_OK && role == SCW_ROLE_STATE) take_state(reader, text);
  return status;
}

/* --set A,B: the label is both, joined. */
static scw_status take_set(scwi_reader *reader, const scwi_row *row) {
  const scwi_layout *layout = &reader->layout;
  scwi_text joined = {0};
  size_t columns = 0;
  for (size_t k = 0; k < layout->n_others; k++) {
    size_t i = layout->other[k];
    if (layout->column[i].role != SCW_ROLE_SET) continue;
    if (columns++) scwi_text_add(&joined, " / ");
    scwi_span text = fold(reader, cell_text(row, i));
    scwi_text_append(&joined, text.text, text.length);
  }
  scw_status status = scwi_text_status(reader->context, &joined);
  if (status == SCW_OK)
    status = scwi_labels_intern(reader->context, reader->labels, joined.data,
                                joined.length, &reader->row.set);
  scwi_text_free(&joined);
  return status;
}

static size_t set_columns(const scwi_layout *layout) {
  size_t n = 0;
  for (size_t k = 0; k < layout->n_others; k++)
    n += layout->column[layout->other[k]].role == SCW_ROLE_SET;
  return n;
}

static scw_status take_number(scwi_reader *reader, const scwi_row *row,
                              size_t i, scw_role role) {
  double *slot = role == SCW_ROLE_ORDER ? &reader->row.order
                 : role == SCW_ROLE_X   ? &reader->row.x
                                        : &reader->row.y;
  bool is_number;
  *slot = NAN;
  if (i >= row->n) return SCW_OK;
  return scwi_reader_number(reader, row->cells + i, scw_role_name(role),
                            &is_number, slot);
}

scw_status scwi_reader_labels(scwi_reader *reader, const scwi_row *row) {
  const scwi_layout *layout = &reader->layout;
  bool joined = layout->has[SCW_ROLE_SET] && set_columns(layout) > 1;
  scw_status status = SCW_OK;
  for (size_t k = 0; k < layout->n_others && status == SCW_OK; k++) {
    size_t i = layout->other[k];
    const scwi_column *column = layout->column + i;
    if (column->use == SCWI_USE_NUMBER)
      status = take_number(reader, row, i, column->role);
    else if (!(joined && column->role == SCW_ROLE_SET))
      status = take_label(reader, row, i, column->role);
  }
  if (status == SCW_OK && joined) status = take_set(reader, row);
  if (status == SCW_OK)
    status = scwi_text_status(reader->context, &reader->scratch);
  return status;
}
