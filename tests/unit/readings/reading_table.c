/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "reading_table.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "text.h"

typedef struct memory {
  const char *text;
  size_t size, at, block;
} memory;

static int read_memory(void *user, char *buffer, size_t size, size_t *got) {
  memory *m = user;
  size_t left = m->size - m->at;
  if (m->block && size > m->block) size = m->block;
  *got = left < size ? left : size;
  if (*got) memcpy(buffer, m->text + m->at, *got);
  m->at += *got;
  return 0;
}

scw_status read_bytes(scw_context *context, const scw_table_options *options,
                      const char *text, size_t size, size_t block,
                      scw_table **out) {
  memory m = {text, size, 0, block};
  return scw_table_read(context, options,
                        (scw_source){read_memory, &m, "boat.csv"}, out);
}

static scw_context *new_context(void) {
  scw_context *context;
  assert_int_equal(scw_context_new(&context), SCW_OK);
  return context;
}

scw_table *table_of(const char *text, const scw_table_options *options) {
  scw_context *context = new_context();
  scw_table *table;
  if (read_bytes(context, options, text, strlen(text), 0, &table))
    fail_msg("%s\nin the text:\n%s", scw_context_message(context), text);
  scw_context_free(context);
  return table;
}

static void add_label(scwi_text *text, const scw_table *table,
                      const char *name, int32_t label) {
  if (label == SCW_NO_LABEL) return;
  scwi_text_format(text, " %s=%s", name, scw_table_label(table, label));
}

static void add_number(scwi_text *text, const char *name, double value) {
  char number[32];
  if (isnan(value)) return;
  check_snprintf(number, sizeof number, " %s=%g", name, value);
  scwi_text_add(text, number);
}

static void add_reading(scwi_text *text, const scw_table *table,
                        const scw_reading *r) {
  static const char *const sides[] = {"", " before", " after"};
  char number[32];
  check_snprintf(number, sizeof number, "%.15g", r->value);
  if (r->mark == SCW_MARK_BRACKET) scwi_text_add(text, "(");
  scwi_text_add(text, number);
  if (r->mark == SCW_MARK_BRACKET) scwi_text_add(text, ")");
  if (r->mark == SCW_MARK_STAR) scwi_text_add(text, "*");
  add_label(text, table, "set", r->set);
  add_label(text, table, "product", r->product);
  add_label(text, table, "panel", r->panel);
  add_label(text, table, "state", r->state);
  add_label(text, table, "spot", r->spot);
  add_label(text, table, "repeat", r->repeat);
  add_label(text, table, "session", r->session);
  add_label(text, table, "direction", r->direction);
  add_label(text, table, "geometry", r->geometry);
  add_label(text, table, "operator", r->by);
  add_label(text, table, "row", r->grid_row);
  add_label(text, table, "column", r->grid_column);
  scwi_text_add(text, sides[r->side]);
  add_number(text, "order", r->order);
  add_number(text, "x", r->x);
  add_number(text, "y", r->y);
}

static char *taken(scwi_text *text) {
  scw_context *context = new_context();
  char *out;
  assert_int_equal(scwi_text_take(context, text, &out), SCW_OK);
  scw_context_free(context);
  return out;
}

char *described(const scw_table *table) {
  scwi_text text = {0};
  for (size_t i = 0; i < scw_table_size(table); i++) {
    if (i) scwi_text_add(&text, "; ");
    add_reading(&text, table, scw_table_readings(table) + i);
  }
  return taken(&text);
}

void check_readings(const char *text, const scw_table_options *options,
                    const char *wanted) {
  scw_table *table = table_of(text, options);
  char *found = described(table);
  assert_string_equal(found, wanted);
  free(found);
  scw_table_free(table);
}

void check_account(const char *text, const scw_table_options *options,
                   const char *wanted) {
  scw_table *table = table_of(text, options);
  const scw_input *input = scw_table_input(table, 0);
  scwi_text found = {0};
  char separator[2] = {input->separator ? input->separator : '0', 0};
  char mark[2] = {input->decimal_mark ? input->decimal_mark : '0', 0};
  scwi_text_format(&found, "%s|%s|%s|%s|%s|%s", input->shape, separator, mark,
                   input->unit, input->quantity, input->geometry);
  for (size_t i = 0; i < input->n_not_used; i++) {
    const scw_not_used *one = input->not_used + i;
    scwi_text_format(&found, "; %zu:%zu %s '%s'", one->line, one->column,
                     one->reason, one->text);
  }
  char *line = taken(&found);
  assert_string_equal(line, wanted);
  free(line);
  scw_table_free(table);
}

void check_refused_at(const char *text, const scw_table_options *options,
                      scw_status status, size_t line, size_t column,
                      const char *const *fragments) {
  scw_context *context = new_context();
  scw_table *table = (scw_table *)context; /* must become null */
  scw_status got =
      read_bytes(context, options, text, strlen(text), 0, &table);
  const char *message = scw_context_message(context);
  if (got != status)
    fail_msg("status %d instead of %d for:\n%s\n%s", (int)got, (int)status,
             text, message);
  assert_null(table);
  if (strstr(message, "boat.csv") != message)
    fail_msg("no file in front of: %s", message);
  for (; *fragments; fragments++)
    if (!strstr(message, *fragments))
      fail_msg("'%s' is not in: %s", *fragments, message);
  if (scw_context_line(context) != line ||
      scw_context_column(context) != column)
    fail_msg("line %zu, column %zu instead of %zu, %zu: %s",
             scw_context_line(context), scw_context_column(context), line,
             column, message);
  scw_context_free(context);
}
