/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout.h"

#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "text.h"

static bool is_number_role(scw_role role) {
  return role == SCW_ROLE_ORDER || role == SCW_ROLE_X || role == SCW_ROLE_Y;
}

static scwi_use use_of(const scwi_heading *heading) {
  if (heading->kind == SCWI_HEAD_READING) return SCWI_USE_READING;
  if (heading->kind != SCWI_HEAD_ROLE) return SCWI_USE_NONE;
  return is_number_role(heading->role) ? SCWI_USE_NUMBER : SCWI_USE_LABEL;
}

/* Labels a heading gives to the readings below it. */
static scw_status give(scw_context *context, scwi_labels *labels,
                       const scwi_heading *heading, scwi_column *column) {
  scw_status status = SCW_OK;
  for (int role = 0; role < SCW_ROLE_COUNT && status == SCW_OK; role++) {
    scwi_span text = heading->given[role];
    column->given[role] = SCW_NO_LABEL;
    if (role == SCW_ROLE_GEOMETRY && heading->angle.length)
      text = heading->angle;
    if (heading->kind == SCWI_HEAD_READING && text.length)
      status = scwi_labels_intern(context, labels, text.text, text.length,
                                  &column->given[role]);
  }
  return status;
}

static scw_status make_column(scw_context *context, scwi_labels *labels,
                              const scwi_heading *heading, scwi_layout *out,
                              size_t i) {
  scwi_column *column = out->column + i;
  const char *name;
  scw_status status = scwi_arena_copy(context, &out->texts, heading->text.text,
                                      heading->text.length, &name);
  if (status != SCW_OK) return status;
  column->name = (scwi_span){name, heading->text.length};
  column->named = heading->text.length > 0;
  column->use = use_of(heading);
  column->role = heading->kind == SCWI_HEAD_READING ? SCW_ROLE_READING
                                                    : heading->role;
  if (column->use == SCWI_USE_READING) {
    column->side = heading->side;
    out->reading[out->n_readings++] = i;
  } else if (column->use != SCWI_USE_NONE) {
    out->has[column->role] = true;
    out->other[out->n_others++] = i;
  }
  return give(context, labels, heading, column);
}

static scw_status make_columns(scw_context *context, const scwi_start *start,
                               scwi_labels *labels, scwi_layout *out) {
  scw_status status = SCWI_ALLOCATE(context, start->n, &out->column);
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, start->n, &out->reading);
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, start->n, &out->other);
  out->n = start->n;
  for (size_t i = 0; i < start->n && status == SCW_OK; i++)
    status = make_column(context, labels, start->heading + i, out, i);
  return status;
}

const char *scwi_layout_shape(const scwi_start *start) {
  size_t readings = 0, roles = 0, sided = 0, repeats = 0, names = 0;
  if (start->bare) return "bare list";
  for (size_t i = 0; i < start->n; i++) {
    const scwi_heading *h = start->heading + i;
    roles += h->kind == SCWI_HEAD_ROLE;
    if (h->kind != SCWI_HEAD_READING) continue;
    readings++;
    sided += h->side != SCW_SIDE_NONE;
    repeats += h->given[SCW_ROLE_REPEAT].length > 0;
    names += h->given[SCW_ROLE_PRODUCT].length || h->given[SCW_ROLE_PANEL].length ||
             h->given[SCW_ROLE_SET].length;
  }
  if (readings == 1 && !sided) return roles ? "long" : "bare list";
  if (names) return "side by side";
  if (repeats) return "wide repeats";
  return sided ? "wide pair" : "side by side";
}

/* Headers of all columns that play a role, parted by commas. */
static scw_status tell_role(scw_context *context, const scwi_start *start,
                            scw_role role, scwi_account *account) {
  enum { MOST = 200 };
  scwi_text text = {0};
  for (size_t i = 0; i < start->n && text.length < MOST; i++) {
    const scwi_heading *h = start->heading + i;
    bool plays = role == SCW_ROLE_READING
                     ? h->kind == SCWI_HEAD_READING
                     : h->kind == SCWI_HEAD_ROLE && h->role == role;
    if (!plays || !h->text.length) continue;
    if (text.length) scwi_text_add(&text, ", ");
    scwi_text_append(&text, h->text.text, h->text.length);
  }
  scw_status status = scwi_text_status(context, &text);
  if (status == SCW_OK && text.length)
    status = scwi_account_keep(context, account,
                               (scwi_span){text.data, text.length},
                               &account->input.role_column[role]);
  scwi_text_free(&text);
  return status;
}

static scwi_span unit_of(const scwi_start *start) {
  for (size_t i = 0; i < start->n; i++)
    if (start->heading[i].kind == SCWI_HEAD_READING &&
        start->heading[i].unit.length)
      return start->heading[i].unit;
  return (scwi_span){"", 0};
}

/* The quantity's own word; the name of the only reading column when it is
 * no word of ours. */
static scwi_span quantity_of(const scwi_start *start) {
  const scwi_heading *only = NULL;
  size_t readings = 0;
  for (size_t i = 0; i < start->n; i++) {
    const scwi_heading *h = start->heading + i;
    if (h->kind != SCWI_HEAD_READING) continue;
    if (h->quantity && h->quantity[0])
      return (scwi_span){h->quantity, strlen(h->quantity)};
    only = h;
    readings++;
  }
  if (readings != 1 || !only->rest.length || only->quantity ||
      only->side != SCW_SIDE_NONE || start->bare)
    return (scwi_span){"", 0};
  return only->rest;
}

static scw_status tell_columns(scw_context *context, const scwi_start *start,
                               scwi_account *account) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < start->n && status == SCW_OK; i++) {
    const scwi_heading *h = start->heading + i;
    bool read = h->kind == SCWI_HEAD_READING || h->kind == SCWI_HEAD_ROLE;
    if (read || h->kind == SCWI_HEAD_EMPTY) continue;
    status = scwi_account_leave(context, account, h->line, h->column,
                                h->kind == SCWI_HEAD_SUMMARY
                                    ? "summary column"
                                    : "column not read",
                                h->text);
  }
  return status;
}

static scw_status tell(scw_context *context, const scw_table_options *options,
                       const scwi_start *start, scwi_account *account) {
  scw_input *input = &account->input;
  scwi_span unit = unit_of(start);
  if (options->unit) unit = (scwi_span){options->unit, strlen(options->unit)};
  input->shape = scwi_layout_shape(start);
  scw_status status = scwi_account_keep(context, account, unit, &input->unit);
  if (status == SCW_OK)
    status = scwi_account_keep(context, account, quantity_of(start),
                               &input->quantity);
  for (int role = 0; role < SCW_ROLE_COUNT && status == SCW_OK; role++)
    status = tell_role(context, start, (scw_role)role, account);
  if (status == SCW_OK && !start->bare)
    status = tell_columns(context, start, account);
  return status;
}

scw_status scwi_layout_make(scw_context *context,
                            const scw_table_options *options,
                            const scwi_page *page, scwi_start *start,
                            scwi_labels *labels, scwi_account *account,
                            scwi_layout *out) {
  const char *file = account->input.name;
  *out = (scwi_layout){.bare = start->bare};
  scw_status status = scwi_layout_options(context, options, start, file);
  if (status == SCW_OK && !start->bare) {
    status = scwi_layout_readings(context, page, start, file);
    if (status == SCW_OK) status = scwi_layout_check(context, start, file);
  }
  if (status == SCW_OK) status = make_columns(context, start, labels, out);
  if (status == SCW_OK) status = tell(context, options, start, account);
  if (status != SCW_OK) scwi_layout_free(out);
  return status;
}

void scwi_layout_free(scwi_layout *layout) {
  free(layout->column);
  free(layout->reading);
  free(layout->other);
  scwi_arena_free(&layout->texts);
  *layout = (scwi_layout){0};
}
