/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdlib.h>
#include <string.h>

#include "layout.h"
#include "memory.h"
#include "token.h"

static bool is_reading(const scwi_heading *h) {
  return h->kind == SCWI_HEAD_READING;
}

static bool has_role(const scwi_start *start, scw_role role) {
  for (size_t i = 0; i < start->n; i++)
    if (start->heading[i].kind == SCWI_HEAD_ROLE &&
        start->heading[i].role == role)
      return true;
  return false;
}

/* A row without a column, or a column without a row, is no place. */
static void settle_grid(scwi_start *start) {
  bool both = has_role(start, SCW_ROLE_ROW) && has_role(start, SCW_ROLE_COLUMN);
  for (size_t i = 0; i < start->n && !both; i++) {
    scwi_heading *h = start->heading + i;
    if (h->kind != SCWI_HEAD_ROLE || h->chosen) continue;
    if (h->role == SCW_ROLE_ROW) h->kind = SCWI_HEAD_OTHER;
    if (h->role == SCW_ROLE_COLUMN) h->kind = SCWI_HEAD_UNKNOWN;
  }
}

static size_t count(const scwi_start *start, scwi_heading_kind kind) {
  size_t n = 0;
  for (size_t i = 0; i < start->n; i++) n += start->heading[i].kind == kind;
  return n;
}

static bool is_summary_row(const scwi_row *row) {
  size_t i = 0;
  while (i < row->n && !row->cells[i].length) i++;
  return i < row->n && scwi_is_summary(row->cells[i].text, row->cells[i].length);
}

/* A column with a name of its own holds readings when at least half of its
 * first cells are numbers. */
static scw_status judge_unknown(scw_context *context, const scwi_page *page,
                                scwi_start *start) {
  struct {
    size_t numbers, texts;
  } *balance;
  scw_status status = SCWI_ALLOCATE(context, start->n, &balance);
  if (status != SCW_OK) return status;
  for (size_t r = scwi_row_after(page, start->first); r < page->n;
       r = scwi_row_after(page, r + 1)) {
    const scwi_row *row = page->row + r;
    if (is_summary_row(row)) continue;
    for (size_t i = 0; i < row->n && i < start->n; i++) {
      scwi_token token;
      if (start->heading[i].kind != SCWI_HEAD_UNKNOWN) continue;
      scwi_token_read(row->cells[i].text, row->cells[i].length, &token);
      if (token.kind == SCWI_TEXT) balance[i].texts++;
      if (token.kind == SCWI_NUMBER || token.kind == SCWI_CENSORED)
        balance[i].numbers++;
    }
  }
  for (size_t i = 0; i < start->n; i++)
    if (start->heading[i].kind == SCWI_HEAD_UNKNOWN && balance[i].numbers &&
        balance[i].numbers >= balance[i].texts)
      start->heading[i].kind = SCWI_HEAD_READING;
  free(balance);
  return SCW_OK;
}

/* "pull,force (g)": the pull is the number of the pull. */
static void settle_pull(scwi_start *start) {
  scwi_heading *pull = NULL;
  bool other = false;
  for (size_t i = 0; i < start->n; i++) {
    scwi_heading *h = start->heading + i;
    if (!is_reading(h) || h->side != SCW_SIDE_NONE || !h->quantity) continue;
    if (!strcmp(h->quantity, "pull") && !h->unit.length && !h->chosen &&
        !h->given[SCW_ROLE_REPEAT].length && !pull)
      pull = h;
    else if (h->quantity[0])
      other = true;
  }
  if (!pull || !other || has_role(start, SCW_ROLE_REPEAT)) return;
  pull->kind = SCWI_HEAD_ROLE;
  pull->role = SCW_ROLE_REPEAT;
}

static bool is_standard_angle(scwi_span s) {
  return s.length == 2 && (!memcmp(s.text, "20", 2) ||
                           !memcmp(s.text, "60", 2) || !memcmp(s.text, "85", 2));
}

/* "gloss 20,gloss 60,gloss 85": the angles of ISO 2813, not repeats. */
static void settle_angles(scwi_start *start) {
  size_t angles = 0, all = 0;
  for (size_t i = 0; i < start->n; i++) {
    const scwi_heading *h = start->heading + i;
    if (!is_reading(h) || !h->given[SCW_ROLE_REPEAT].length) continue;
    all++;
    angles += h->quantity && !strcmp(h->quantity, "gloss") && !h->angle.length &&
              is_standard_angle(h->given[SCW_ROLE_REPEAT]);
  }
  if (angles == 0 || angles < all) return;
  for (size_t i = 0; i < start->n; i++) {
    scwi_heading *h = start->heading + i;
    if (!is_reading(h) || !h->given[SCW_ROLE_REPEAT].length) continue;
    h->angle = h->given[SCW_ROLE_REPEAT];
    h->given[SCW_ROLE_REPEAT].length = 0;
  }
}

/* A name in the heading is the product's; where the table has a product
 * column it is the panel's, else just a set's. A name that all reading
 * columns share tells nothing apart. */
static void settle_names(scwi_start *start) {
  scw_role role = !has_role(start, SCW_ROLE_PRODUCT)  ? SCW_ROLE_PRODUCT
                  : !has_role(start, SCW_ROLE_PANEL) ? SCW_ROLE_PANEL
                                                     : SCW_ROLE_SET;
  const scwi_heading *first = NULL;
  bool differ = false;
  for (size_t i = 0; i < start->n; i++) {
    const scwi_heading *h = start->heading + i;
    if (!is_reading(h)) continue;
    if (!first) first = h;
    differ = differ || !scwi_same_name(first->rest, h->rest);
  }
  for (size_t i = 0; i < start->n && differ; i++) {
    scwi_heading *h = start->heading + i;
    if (is_reading(h) && h->rest.length && !h->given[role].length)
      h->given[role] = h->rest;
  }
}

static scw_status no_readings(scw_context *context, const scwi_start *start,
                              const char *file) {
  char columns[600];
  size_t line = start->n ? start->heading[0].line : 0;
  scwi_columns_text(start, columns, sizeof columns);
  if (count(start, SCWI_HEAD_SUMMARY))
    return scwi_fail_at(
        context, SCW_BAD_INPUT, file, line, 0,
        "the columns hold summaries (%s), not readings. Give a file with the "
        "readings themselves",
        columns);
  return scwi_fail_at(context, SCW_BAD_INPUT, file, line, 0,
                      "no column of readings found among: %s. Name it: "
                      "--reading COLUMN",
                      columns);
}

/* product,before,after,n: one figure per product made of n readings. */
static scw_status refuse_means(scw_context *context, const scwi_start *start,
                               const char *file) {
  const scwi_heading *n_column = NULL;
  for (size_t i = 0; i < start->n; i++) {
    const scwi_heading *h = start->heading + i;
    if (is_reading(h) && h->given[SCW_ROLE_REPEAT].length) return SCW_OK;
    if (h->kind == SCWI_HEAD_SUMMARY &&
        (scwi_same_name(h->name, (scwi_span){"n", 1}) ||
         scwi_same_name(h->name, (scwi_span){"count", 5})))
      n_column = h;
  }
  if (!n_column || has_role(start, SCW_ROLE_SPOT)) return SCW_OK;
  return scwi_fail_at(
      context, SCW_BAD_INPUT, file, n_column->line, n_column->column,
      "column '%.*s' says that each row sums up several readings. Give a file "
      "with the readings themselves",
      (int)n_column->text.length, n_column->text.text);
}

scw_status scwi_layout_readings(scw_context *context, const scwi_page *page,
                                scwi_start *start, const char *file) {
  scw_status status = SCW_OK;
  settle_grid(start);
  if (count(start, SCWI_HEAD_READING) == 0)
    status = judge_unknown(context, page, start);
  if (status != SCW_OK) return status;
  if (count(start, SCWI_HEAD_READING) == 0)
    return no_readings(context, start, file);
  settle_pull(start);
  settle_angles(start);
  settle_names(start);
  return refuse_means(context, start, file);
}
