/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "named_header.h"

#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "start.h"
#include "text.h"
#include "token.h"

bool scwi_named_is_read(const scwi_named_ask *ask,
                        const scwi_named_heading *heading) {
  return (ask->wanted & SCWI_NAMED_BIT(heading->what)) &&
         (ask->sided || heading->side == SCW_SIDE_NONE);
}

/* What the checks of a header share. */
typedef struct check {
  scw_context *context;
  const char *file;
  const scwi_named_ask *ask;
  const scwi_named_header *header;
} check;

static scw_status fail(const check *c, const scwi_named_heading *h,
                       const char *words) {
  char shown[SCWI_SHOWN_SIZE];
  return scwi_fail_at(c->context, SCW_BAD_INPUT, c->file, h->line, h->column,
                      "'%s' %s",
                      scwi_shown(h->text.text, h->text.length, shown), words);
}

static scw_status fail_pair(const check *c, const scwi_named_heading *one,
                            const scwi_named_heading *other,
                            const char *words) {
  char first[SCWI_SHOWN_SIZE], second[SCWI_SHOWN_SIZE];
  return scwi_fail_at(
      c->context, SCW_BAD_INPUT, c->file, other->line, other->column,
      "'%s' (column %zu) and '%s' %s",
      scwi_shown(one->text.text, one->text.length, first), one->column,
      scwi_shown(other->text.text, other->text.length, second), words);
}

/* The first column of the figure on this side, or null. */
static const scwi_named_heading *column_of(const check *c, scwi_named what,
                                           scw_side side) {
  for (size_t i = 0; i < c->header->n; i++) {
    const scwi_named_heading *h = &c->header->heading[i];
    if (h->what == what && h->side == side && scwi_named_is_read(c->ask, h))
      return h;
  }
  return NULL;
}

static bool has_any(const check *c, scwi_named what) {
  return column_of(c, what, SCW_SIDE_NONE) ||
         column_of(c, what, SCW_SIDE_BEFORE) ||
         column_of(c, what, SCW_SIDE_AFTER);
}

/* The first row of a file without a header holds numbers. */
static scw_status check_is_header(const check *c) {
  for (size_t i = 0; i < c->header->n; i++) {
    const scwi_named_heading *h = &c->header->heading[i];
    scwi_token token;
    scwi_token_read(h->text.text, h->text.length, &token);
    if (token.kind == SCWI_NUMBER)
      return fail(c, h,
                  "is a number where a heading should be. Give a first line "
                  "that says what the columns are");
  }
  return SCW_OK;
}

static scw_status check_twice(const check *c) {
  for (size_t i = 0; i < c->header->n; i++) {
    const scwi_named_heading *h = &c->header->heading[i];
    if (!scwi_named_is_read(c->ask, h) || h->what == SCWI_NAMED_READING)
      continue;
    const scwi_named_heading *first = column_of(c, h->what, h->side);
    if (first != h)
      return fail_pair(c, first, h,
                       "both say the same thing. Rename one of them");
  }
  return SCW_OK;
}

static scw_status check_required(const check *c, size_t line) {
  scwi_text there = {0};
  int what = 0;
  while (what < SCWI_NAMED_END && (!(c->ask->required & SCWI_NAMED_BIT(what)) ||
                                   has_any(c, (scwi_named)what)))
    what++;
  if (what == SCWI_NAMED_END) return SCW_OK;
  for (size_t i = 0; i < c->header->n; i++) {
    scwi_span text = c->header->heading[i].text;
    scwi_text_add(&there, i ? ", " : "");
    scwi_text_append(&there, text.text, text.length);
  }
  scw_status status = scwi_text_status(c->context, &there);
  if (!status)
    status = scwi_fail_at(c->context, SCW_BAD_INPUT, c->file, line, 0,
                          "no column is called '%s'; the columns are: %s",
                          scwi_named_word((scwi_named)what), there.data);
  scwi_text_free(&there);
  return status;
}

/* A scatter that cannot be used is refused where it is the only one of its
 * side; beside an SD or standard error it is left alone. */
static scw_status check_scatter(const check *c) {
  for (size_t i = 0; i < c->header->n; i++) {
    const scwi_named_heading *h = &c->header->heading[i];
    if (column_of(c, SCWI_NAMED_SD, h->side) ||
        column_of(c, SCWI_NAMED_SE, h->side))
      continue;
    if (h->what == SCWI_NAMED_UNSAID)
      return fail(c, h,
                  "does not say which scatter it is; head the column sd if it "
                  "is the SD of single readings, se if it is the standard "
                  "error of the mean");
    if (h->what == SCWI_NAMED_RELATIVE)
      return fail(c, h,
                  "is a share of the mean; give the SD itself, in the unit of "
                  "the mean (share x mean / 100), in a column headed sd");
    if (h->what == SCWI_NAMED_VARIANCE)
      return fail(c, h,
                  "is a variance; give its square root, in a column headed "
                  "sd");
  }
  return SCW_OK;
}

static bool in_percent(const scwi_named_heading *h) {
  return h->unit.length == 1 && h->unit.text[0] == '%';
}

static bool is_scatter(const scwi_named_heading *h) {
  return h->what == SCWI_NAMED_SD || h->what == SCWI_NAMED_SE;
}

/* The column whose unit counts: a mean or effect that says one, else null. */
static const scwi_named_heading *unit_of(const check *c) {
  for (size_t i = 0; i < c->header->n; i++) {
    const scwi_named_heading *h = &c->header->heading[i];
    if ((h->what == SCWI_NAMED_MEAN || h->what == SCWI_NAMED_EFFECT) &&
        scwi_named_is_read(c->ask, h) && h->unit.length)
      return h;
  }
  return NULL;
}

static scw_status check_units(const check *c, const scwi_named_heading **unit) {
  *unit = unit_of(c);
  for (size_t i = 0; i < c->header->n; i++) {
    const scwi_named_heading *h = &c->header->heading[i];
    if (h->what < SCWI_NAMED_MEAN || !scwi_named_is_read(c->ask, h)) continue;
    if (is_scatter(h) && in_percent(h) && !(*unit && in_percent(*unit)))
      return fail(c, h,
                  "is in % and the mean is not: a scatter in % is a share of "
                  "the mean. Give it in the unit of the mean (share x mean / "
                  "100)");
    if (*unit && scwi_said_otherwise((*unit)->unit, h->unit))
      return fail_pair(c, *unit, h,
                       "have different units. Give both in the same unit");
    if (!*unit && h->unit.length) *unit = h;
  }
  return SCW_OK;
}

/* What all columns that say it must agree on: the angle, the quantity. */
typedef struct said {
  const scwi_named_heading *angle, *quantity;
} said;

static scw_status check_said(const check *c, said *out) {
  *out = (said){NULL, NULL};
  for (size_t i = 0; i < c->header->n; i++) {
    const scwi_named_heading *h = &c->header->heading[i];
    if (h->what < SCWI_NAMED_N || !scwi_named_is_read(c->ask, h)) continue;
    if (out->angle && scwi_said_otherwise(out->angle->angle, h->angle))
      return fail_pair(c, out->angle, h,
                       "are of different geometries, which are never "
                       "compared. Give one file for each");
    if (out->quantity && h->quantity &&
        strcmp(out->quantity->quantity, h->quantity) != 0)
      return fail_pair(c, out->quantity, h,
                       "hold different quantities. Give one file for each");
    if (h->angle.length) out->angle = h;
    if (h->quantity) out->quantity = h;
  }
  return SCW_OK;
}

static scw_status tell(const check *c, const scw_table_options *options,
                       const scwi_named_heading *unit, said found,
                       scwi_account *account) {
  scwi_span said_unit = unit ? unit->unit : (scwi_span){"", 0};
  scwi_span angle = found.angle ? found.angle->angle : (scwi_span){"", 0};
  if (options->unit)
    said_unit = (scwi_span){options->unit, strlen(options->unit)};
  if (options->geometry && !angle.length)
    angle = (scwi_span){options->geometry, strlen(options->geometry)};
  if (found.quantity) account->input.quantity = found.quantity->quantity;
  scw_status status =
      scwi_account_keep(c->context, account, said_unit, &account->input.unit);
  return status ? status
                : scwi_account_keep(c->context, account, angle,
                                    &account->input.geometry);
}

/* Is the column meant by the label? One that already says what it holds, such
 * as "before mean" or "batch panel", is not caught by a '*' in passing. */
static bool is_meant(const char *label, const scwi_heading *heading,
                     scwi_named what) {
  if (!label || (what > SCWI_NAMED_ASIDE && strchr(label, '*'))) return false;
  return scwi_heading_is(heading, (scwi_span){label, strlen(label)});
}

/* The side whose readings the column holds: its name is meant by an option
 * such as 'b*', or is numbered, "before 3". */
static scw_side readings_of(const scw_table_options *options,
                            const scwi_heading *heading, scwi_named what) {
  if (is_meant(options->before_label, heading, what)) return SCW_SIDE_BEFORE;
  if (is_meant(options->after_label, heading, what)) return SCW_SIDE_AFTER;
  return heading->given[SCW_ROLE_REPEAT].length ? heading->side : SCW_SIDE_NONE;
}

static scw_status understand(scw_context *context,
                             const scw_table_options *options,
                             const scwi_named_ask *ask, const scwi_start *start,
                             scwi_named_header *out) {
  scw_status status = SCWI_ALLOCATE(context, start->n, &out->heading);
  if (!status) out->n = start->n;
  for (size_t i = 0; i < out->n; i++) {
    scwi_named_heading *h = &out->heading[i];
    *h = scwi_named_heading_of(&start->heading[i]);
    scw_side side = readings_of(options, &start->heading[i], h->what);
    if (!(ask->wanted & SCWI_NAMED_BIT(SCWI_NAMED_READING)) ||
        side == SCW_SIDE_NONE)
      continue;
    h->what = SCWI_NAMED_READING;
    h->side = side;
  }
  return status;
}

scw_status scwi_named_header_read(scw_context *context,
                                  const scw_table_options *options,
                                  const scwi_page *page,
                                  const scwi_named_ask *ask,
                                  scwi_account *account, scwi_named_header *out,
                                  size_t *first) {
  check c = {context, account->input.name, ask, out};
  scwi_start start = {.header = scwi_row_after(page, 0)};
  const scwi_named_heading *unit = NULL;
  said found = {NULL, NULL};
  if (start.header == page->n)
    return scwi_fail_at(context, SCW_BAD_INPUT, c.file, 0, 0,
                        "it is empty; give a header line and at least one "
                        "row");
  scw_status status = scwi_start_headings(context, page, &out->texts, &start);
  out->row = start.header;
  *first = start.first;
  if (!status) status = understand(context, options, ask, &start, out);
  free(start.heading);
  if (!status) status = check_is_header(&c);
  if (!status) status = check_twice(&c);
  if (!status) status = check_scatter(&c);
  if (!status) status = check_required(&c, page->row[out->row].line);
  if (ask->open) unit = unit_of(&c); /* where columns and rows say no other */
  if (!status && !ask->open) status = check_units(&c, &unit);
  if (!status && !ask->open) status = check_said(&c, &found);
  return status ? status : tell(&c, options, unit, found, account);
}

void scwi_named_header_free(scwi_named_header *header) {
  free(header->heading);
  scwi_arena_free(&header->texts);
  *header = (scwi_named_header){0};
}
