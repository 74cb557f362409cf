/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "start.h"

#include <stdlib.h>
#include <string.h>

#include "token.h"

bool scwi_row_is_comment(const scwi_row *row) {
  return row->n == 1 && !row->cells[0].quoted && row->cells[0].length > 0 &&
         row->cells[0].text[0] == '#';
}

bool scwi_row_is_blank(const scwi_row *row) {
  for (size_t i = 0; i < row->n; i++)
    if (scwi_trim(row->cells[i].text, row->cells[i].length).length)
      return false;
  return true;
}

size_t scwi_row_after(const scwi_page *page, size_t i) {
  while (i < page->n && (scwi_row_is_blank(page->row + i) ||
                         scwi_row_is_comment(page->row + i)))
    i++;
  return i;
}

/* What the cells of a row look like. */
typedef struct look {
  size_t filled, texts, numbers;
  size_t first;    /* the first filled cell */
  size_t known;    /* texts that are header words */
  bool counts;     /* its numbers are 1, 2, 3 ... */
  bool first_text; /* the first filled cell is text */
} look;

static scw_status look_at(scw_context *context, scwi_arena *arena,
                          const scwi_row *row, look *out) {
  scwi_token token;
  *out = (look){.counts = true};
  for (size_t i = 0; i < row->n; i++) {
    scwi_span text = scwi_uncommented(row->cells[i].text, row->cells[i].length);
    scwi_token_read(text.text, text.length, &token);
    if (token.kind == SCWI_EMPTY) continue;
    if (out->filled++ == 0) {
      out->first = i;
      out->first_text = token.kind == SCWI_TEXT;
    }
    if (token.kind == SCWI_TEXT) {
      scwi_heading heading;
      scw_status status = scwi_heading_read(context, arena, text, &heading);
      if (status != SCW_OK) return status;
      out->texts++;
      out->known += heading.kind != SCWI_HEAD_UNKNOWN;
    } else if (token.kind != SCWI_MISSING) {
      out->numbers++;
      bool next = token.kind == SCWI_NUMBER && token.body.length == 1 &&
                  token.body.text[0] == (char)('0' + out->numbers);
      out->counts = out->counts && next;
    }
  }
  return SCW_OK;
}

/* The row that could be the header, as far as the rows have been seen. */
typedef struct search {
  bool found;
  size_t header, known, filled, first;
  size_t pairs_above, pairs_below; /* rows "label, number" around it */
  bool numbers;                    /* a row with numbers was seen */
  look data;                       /* of the row that ended the search */
} search;

/* Takes one row; true when the search is over. */
static bool take_look(search *s, size_t i, const look *l) {
  bool spots = l->numbers > 1 && l->counts && l->known > 0 && !s->found;
  if (l->texts && (l->numbers == 0 || spots)) {
    bool stronger = l->known > s->known ||
                    (l->known == s->known && s->pairs_below == 0);
    if (s->found && !stronger) return false;
    *s = (search){.found = true, .header = i, .known = l->known,
                  .filled = l->filled, .first = l->first,
                  .pairs_above = s->pairs_above + s->pairs_below,
                  .numbers = s->numbers, .data = *l};
    return spots;
  }
  if (l->numbers == 0) return false; /* missing marks only */
  s->numbers = true;
  s->data = *l;
  bool pair = l->filled == 2 && l->first_text && l->numbers == 1;
  if (!pair || s->known >= 2) return true;
  return ++s->pairs_below >= 3 && s->known >= 1;
}

static scw_status search_rows(scw_context *context, const scwi_page *page,
                              scwi_arena *arena, search *out) {
  *out = (search){0};
  for (size_t i = scwi_row_after(page, 0); i < page->n;
       i = scwi_row_after(page, i + 1)) {
    look l;
    scw_status status = look_at(context, arena, page->row + i, &l);
    if (status != SCW_OK) return status;
    if (take_look(out, i, &l)) break;
  }
  /* Instruments write lines such as "meter,4711" above the header: only what
   * is certainly a header may have them above it. */
  if (out->pairs_above && out->known < 2 && out->known < out->filled)
    out->found = false;
  return SCW_OK;
}

static scw_status tell_titles(scw_context *context, const scwi_page *page,
                              const scwi_start *start, scwi_account *account) {
  scw_status status = SCW_OK;
  size_t end = start->has_header ? start->header : start->first;
  for (size_t i = 0; i < end && status == SCW_OK; i++) {
    const scwi_row *row = page->row + i;
    if (scwi_row_is_blank(row)) continue;
    status = scwi_account_leave_row(
        context, account, row,
        scwi_row_is_comment(row) ? "comment" : "title line");
  }
  return status;
}

/* In a list every cell is a number or a missing mark, summary lines apart. */
static scw_status refuse_text(scw_context *context, const scwi_page *page,
                              size_t first, const char *file) {
  scwi_token token;
  for (size_t i = scwi_row_after(page, first); i < page->n;
       i = scwi_row_after(page, i + 1)) {
    const scwi_row *row = page->row + i;
    if (row->n < 2 || scwi_is_summary(row->cells[0].text, row->cells[0].length))
      continue;
    for (size_t c = 0; c < row->n; c++) {
      const scwi_cell *cell = row->cells + c;
      char shown[SCWI_SHOWN_SIZE];
      scwi_token_read(cell->text, cell->length, &token);
      if (token.kind == SCWI_TEXT)
        return scwi_fail_at(
            context, SCW_BAD_INPUT, file, cell->line, cell->column,
            "'%s' stands among numbers, and no header says what the columns "
            "are. Add a first line such as product,spot,reading",
            scwi_shown(cell->text, cell->length, shown));
    }
  }
  return SCW_OK;
}

/* Does the first column of a list only count its rows? */
static bool is_numbered(const scwi_page *page, size_t first) {
  size_t rows = 0, width = 2;
  scwi_token token;
  for (size_t i = scwi_row_after(page, first); i < page->n && rows < 9;
       i = scwi_row_after(page, i + 1)) {
    const scwi_row *row = page->row + i;
    scwi_token_read(row->cells[0].text, row->cells[0].length, &token);
    if (token.kind == SCWI_TEXT) break;
    if (row->n < width || token.kind != SCWI_NUMBER || token.body.length != 1 ||
        token.body.text[0] != (char)('1' + rows))
      return false;
    rows++;
  }
  return rows >= 3;
}

static scw_status take_list(scw_context *context, const scwi_page *page,
                            size_t first, const char *file, scwi_start *out) {
  scw_status status = refuse_text(context, page, first, file);
  if (status != SCW_OK) return status;
  if (is_numbered(page, first))
    return scwi_fail_at(
        context, SCW_BAD_INPUT, file, page->row[scwi_row_after(page, first)].line,
        1,
        "the first column counts 1, 2, 3, and no header says what the columns "
        "are. Add a first line such as spot,before,after");
  out->bare = true;
  out->first = first;
  return SCW_OK;
}

scw_status scwi_start_find(scw_context *context, const scwi_page *page,
                           scwi_account *account, scwi_arena *arena,
                           scwi_start *out) {
  const char *file = account->input.name;
  search s;
  *out = (scwi_start){0};
  scw_status status = search_rows(context, page, arena, &s);
  if (status != SCW_OK) return status;
  if (!s.numbers && !(s.found && (s.known || !page->ended)))
    return scwi_fail_at(
        context, SCW_BAD_INPUT, file, 0, 0,
        "there are no readings in it. Give one reading in each line, or a "
        "table with a header such as spot,before,after");
  bool titled = s.found && s.filled == 1 && s.first == 0 && s.data.filled > 1;
  if (!s.found || titled) {
    status = take_list(context, page, s.found ? s.header + 1 : 0, file, out);
    if (status != SCW_OK) return status;
  }
  out->has_header = s.found;
  out->header = s.header;
  if (s.found) status = scwi_start_headings(context, page, arena, out);
  if (status == SCW_OK) status = tell_titles(context, page, out, account);
  if (status != SCW_OK) {
    free(out->heading);
    *out = (scwi_start){0};
  }
  return status;
}
