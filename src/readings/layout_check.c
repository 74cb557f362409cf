/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdlib.h>
#include <string.h>

#include "layout.h"
#include "memory.h"
#include "text.h"

static scw_status fail_pair(scw_context *context, const char *file,
                            const scwi_heading *a, const scwi_heading *b,
                            const char *what) {
  char first[SCWI_SHOWN_SIZE], second[SCWI_SHOWN_SIZE];
  return scwi_fail_at(context, SCW_BAD_INPUT, file, b->line, b->column,
                      "columns '%s' (column %zu) and '%s' %s",
                      scwi_shown(a->text.text, a->text.length, first),
                      a->column,
                      scwi_shown(b->text.text, b->text.length, second), what);
}

/* The heading's name, or what tells its readings apart, as one text. */
typedef void describer(const scwi_heading *heading, scwi_text *out);

static void describe_name(const scwi_heading *h, scwi_text *out) {
  for (size_t i = 0; i < h->text.length;) {
    size_t blank = scwi_blank_at(h->text.text + i, h->text.length - i);
    char c = blank || h->text.text[i] == '_' ? ' ' : h->text.text[i];
    if (c >= 'A' && c <= 'Z') c = (char)(c - 'A' + 'a');
    scwi_text_append(out, &c, 1);
    i += blank ? blank : 1;
  }
}

static void describe_readings(const scwi_heading *h, scwi_text *out) {
  scwi_text_format(out, "%d", (int)h->side);
  for (int role = 0; role < SCW_ROLE_COUNT; role++) {
    scwi_text_append(out, "\n", 1);
    scwi_text_append(out, h->given[role].text, h->given[role].length);
  }
  scwi_text_append(out, "\n", 1);
  scwi_text_append(out, h->angle.text, h->angle.length);
}

/* Finds the first two headings of the kinds asked for that are described
 * alike. */
static scw_status find_alike(scw_context *context, const scwi_start *start,
                             describer *describe, bool readings_only,
                             const scwi_heading *pair[2]) {
  scwi_labels seen = {0};
  scwi_text text = {0};
  const scwi_heading **first;
  pair[0] = pair[1] = NULL;
  scw_status status = SCWI_ALLOCATE(context, start->n, &first);
  for (size_t i = 0; i < start->n && status == SCW_OK && !pair[0]; i++) {
    const scwi_heading *h = start->heading + i;
    int32_t label;
    bool skip = readings_only ? h->kind != SCWI_HEAD_READING
                              : h->kind == SCWI_HEAD_EMPTY ||
                                    h->kind == SCWI_HEAD_OTHER ||
                                    h->kind == SCWI_HEAD_SUMMARY;
    if (skip) continue;
    scwi_text_clear(&text);
    describe(h, &text);
    status = scwi_text_status(context, &text);
    if (status == SCW_OK)
      status = scwi_labels_intern(context, &seen, text.data, text.length,
                                  &label);
    if (status != SCW_OK) break;
    if (first[label]) pair[0] = first[label], pair[1] = h;
    first[label] = h;
  }
  free(first);
  scwi_text_free(&text);
  scwi_labels_free(&seen);
  return status;
}

static scw_status check_roles(scw_context *context, const scwi_start *start,
                              const char *file) {
  const scwi_heading *first[SCW_ROLE_COUNT] = {NULL};
  for (size_t i = 0; i < start->n; i++) {
    const scwi_heading *h = start->heading + i;
    if (h->kind != SCWI_HEAD_ROLE) continue;
    const scwi_heading *mine = first[h->role];
    if (mine && !(h->role == SCW_ROLE_SET && h->chosen)) {
      char what[120] = "both say the same thing: the ";
      strcat(what, scw_role_name(h->role));
      strcat(what, ". Name the one that counts: --");
      strcat(what, scw_role_name(h->role));
      strcat(what, " COLUMN");
      return fail_pair(context, file, mine, h, what);
    }
    first[h->role] = h;
  }
  return SCW_OK;
}

static bool other_quantity(const scwi_heading *a, const scwi_heading *b) {
  return a->quantity && b->quantity && a->quantity[0] && b->quantity[0] &&
         strcmp(a->quantity, b->quantity) != 0;
}

/* All reading columns must hold the same quantity in the same unit. */
static scw_status check_quantity(scw_context *context, const scwi_start *start,
                                 const char *file) {
  const scwi_heading *unit = NULL, *quantity = NULL, *sided = NULL,
                     *plain = NULL;
  for (size_t i = 0; i < start->n; i++) {
    const scwi_heading *h = start->heading + i;
    if (h->kind != SCWI_HEAD_READING) continue;
    if (quantity && other_quantity(quantity, h))
      return fail_pair(context, file, quantity, h,
                       "hold different quantities. Choose one: --reading "
                       "COLUMN");
    if (unit && scwi_said_otherwise(unit->unit, h->unit))
      return fail_pair(context, file, unit, h,
                       "have different units. Choose one: --reading COLUMN");
    if (h->unit.length) unit = h;
    if (h->quantity && h->quantity[0]) quantity = h;
    if (h->side != SCW_SIDE_NONE) sided = h;
    if (h->side == SCW_SIDE_NONE) plain = h;
  }
  if (sided && plain)
    return fail_pair(context, file, sided, plain,
                     "both hold readings, and only one says before or after. "
                     "Choose: --reading COLUMN[,COLUMN]");
  for (size_t i = 0; i < start->n && sided; i++) {
    const scwi_heading *h = start->heading + i;
    if (h->kind == SCWI_HEAD_ROLE && h->role == SCW_ROLE_STATE)
      return fail_pair(context, file, sided, h,
                       "both say what is before and what is after. Choose "
                       "the reading column: --reading COLUMN");
  }
  return SCW_OK;
}

scw_status scwi_layout_check(scw_context *context, const scwi_start *start,
                             const char *file) {
  const scwi_heading *pair[2];
  scw_status status =
      find_alike(context, start, describe_name, false, pair);
  if (status == SCW_OK && pair[0])
    return fail_pair(context, file, pair[0], pair[1],
                     "have the same name. Give each column its own");
  if (status == SCW_OK) status = check_roles(context, start, file);
  if (status == SCW_OK) status = check_quantity(context, start, file);
  if (status == SCW_OK)
    status = find_alike(context, start, describe_readings, true, pair);
  if (status == SCW_OK && pair[0])
    return fail_pair(context, file, pair[0], pair[1],
                     "both hold readings, and nothing tells them apart. "
                     "Choose one: --reading COLUMN");
  return status;
}
