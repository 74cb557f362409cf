/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <string.h>

#include "memory.h"
#include "start.h"
#include "token.h"

static scwi_span text_at(const scwi_row *row, size_t i) {
  if (!row || i >= row->n) return (scwi_span){"", 0};
  return scwi_trim(row->cells[i].text, row->cells[i].length);
}

static size_t width_of(const scwi_row *row) {
  size_t n = row->n;
  while (n > 0 && !text_at(row, n - 1).length) n--;
  return n; /* without the empty columns at the end of a spreadsheet */
}

/* Merged names leave empty cells to their right; is one of them filled in
 * the row below? */
static bool has_merged(const scwi_row *upper, const scwi_row *lower) {
  bool named = false, merged = false;
  for (size_t i = 0; i < lower->n; i++) {
    bool above = text_at(upper, i).length > 0, below = text_at(lower, i).length > 0;
    named = named || above;
    merged = merged || (named && !above && below);
  }
  return merged;
}

/* Names, and numbers no longer than a repeat's. */
static bool is_name_line(const scwi_row *lower) {
  scwi_token token;
  for (size_t i = 0; i < lower->n; i++) {
    scwi_token_read(lower->cells[i].text, lower->cells[i].length, &token);
    bool plain = token.kind == SCWI_NUMBER && token.body.length <= 2 &&
                 !token.form.decimal && token.mark == SCW_MARK_NONE;
    if (!plain && token.kind != SCWI_EMPTY && token.kind != SCWI_TEXT)
      return false;
  }
  return true;
}

static scw_status has_header_word(scw_context *context, scwi_arena *arena,
                                  const scwi_row *row, bool *out) {
  *out = false;
  for (size_t i = 0; i < row->n && !*out; i++) {
    scwi_heading heading;
    scwi_token token;
    scwi_span text = text_at(row, i);
    scwi_token_read(text.text, text.length, &token);
    if (token.kind != SCWI_TEXT) continue;
    scw_status status = scwi_heading_read(context, arena, text, &heading);
    if (status != SCW_OK) return status;
    *out = heading.kind == SCWI_HEAD_ROLE || heading.kind == SCWI_HEAD_READING;
  }
  return SCW_OK;
}

/* Is `lower` the second line of names below the merged cells of `upper`? */
static scw_status is_names(scw_context *context, scwi_arena *arena,
                           const scwi_row *upper, const scwi_row *lower,
                           bool *out) {
  *out = false;
  if (!has_merged(upper, lower) || !is_name_line(lower)) return SCW_OK;
  return has_header_word(context, arena, lower, out);
}

/* A unit or an angle, with or without brackets. */
static bool is_unit_cell(scwi_span text) {
  char front = text.text[0], back = text.text[text.length - 1];
  if (text.length > 2 &&
      ((front == '(' && back == ')') || (front == '[' && back == ']')))
    text = scwi_trim(text.text + 1, text.length - 2);
  return scwi_is_unit(text) || scwi_angle_of(text, true).length > 0;
}

static bool is_units(const scwi_row *lower) {
  size_t units = 0;
  for (size_t i = 0; i < lower->n; i++) {
    scwi_span text = text_at(lower, i);
    if (text.length == 0) continue;
    if (!is_unit_cell(text)) return false;
    units++;
  }
  return units > 0;
}

/* The name of column i out of both lines. `carry`: an upper name reaches over
 * the empty cells to its right, as merged cells are exported. */
static scw_status join(scw_context *context, scwi_arena *arena,
                       const scwi_row *upper, const scwi_row *lower, size_t i,
                       bool carry, scwi_span *out) {
  scwi_span above = text_at(upper, i), below = text_at(lower, i);
  scwi_heading heading;
  char both[300];
  for (size_t k = i; carry && !above.length && k > 0 && below.length; k--)
    above = text_at(upper, k - 1);
  *out = below.length ? below : above;
  if (!above.length || !below.length) return SCW_OK;
  scw_status status = scwi_heading_read(context, arena, below, &heading);
  if (status != SCW_OK || (carry && heading.kind == SCWI_HEAD_ROLE))
    return status;
  if (above.length + below.length + 1 > sizeof both) return SCW_OK;
  memcpy(both, above.text, above.length);
  both[above.length] = ' ';
  memcpy(both + above.length + 1, below.text, below.length);
  out->length = above.length + below.length + 1;
  return scwi_arena_copy(context, arena, both, out->length, &out->text);
}

/* Does a name stand twice in the row? Merged names above tell them apart. */
static bool has_twins(const scwi_row *row) {
  enum { MOST = 200 };
  for (size_t i = 1; i < row->n && i < MOST; i++)
    for (size_t k = 0; k < i && text_at(row, i).length; k++)
      if (scwi_same_name(text_at(row, k), text_at(row, i))) return true;
  return false;
}

static bool is_all_text(const scwi_row *row) {
  scwi_token token;
  for (size_t i = 0; i < row->n; i++) {
    scwi_token_read(row->cells[i].text, row->cells[i].length, &token);
    if (token.kind != SCWI_TEXT && token.kind != SCWI_EMPTY) return false;
  }
  return true;
}

/* The two lines of a header; `lower` is null when it has one. */
typedef struct header_lines {
  const scwi_row *upper, *lower;
  bool names;
} header_lines;

/* The header found may be the lower line, with merged names above it, or the
 * upper one, with names or units below. */
static scw_status find_lines(scw_context *context, const scwi_page *page,
                             scwi_arena *arena, scwi_start *start,
                             header_lines *out) {
  const scwi_row *found = page->row + start->header;
  size_t below = scwi_row_after(page, start->header + 1), above = start->header;
  *out = (header_lines){.upper = found};
  start->first = start->header + 1;
  if (start->bare) return SCW_OK;
  if (above > 0 && !scwi_row_is_comment(found - 1) && is_all_text(found - 1) &&
      has_twins(found)) {
    scw_status status =
        is_names(context, arena, found - 1, found, &out->names);
    if (status != SCW_OK) return status;
    if (out->names) {
      *out = (header_lines){found - 1, found, true};
      start->header--;
      return SCW_OK;
    }
  }
  if (below == page->n) return SCW_OK;
  bool units = is_units(page->row + below);
  scw_status status = SCW_OK;
  if (!units)
    status = is_names(context, arena, found, page->row + below, &out->names);
  if (!units && !out->names) return status;
  out->lower = page->row + below;
  start->first = below + 1;
  return status;
}

scw_status scwi_start_headings(scw_context *context, const scwi_page *page,
                               scwi_arena *arena, scwi_start *out) {
  header_lines lines;
  scw_status status = find_lines(context, page, arena, out, &lines);
  if (status != SCW_OK) return status;
  const scwi_row *upper = lines.upper, *lower = lines.lower;
  size_t n = width_of(upper);
  if (lower && width_of(lower) > n) n = width_of(lower);
  status = SCWI_ALLOCATE(context, n, &out->heading);
  for (size_t i = 0; i < n && status == SCW_OK; i++) {
    const scwi_row *own = text_at(upper, i).length ? upper : lower;
    scwi_span text;
    status = join(context, arena, upper, lower, i, lines.names, &text);
    if (status == SCW_OK)
      status = scwi_heading_read(context, arena, text, out->heading + i);
    bool placed = own && i < own->n;
    out->heading[i].line = placed ? own->cells[i].line : upper->line;
    out->heading[i].column = placed ? own->cells[i].column : 1;
  }
  out->n = n;
  return status;
}
