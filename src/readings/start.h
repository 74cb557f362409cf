/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the data start: the header row, title lines above it, or none. */
#ifndef SCWI_START_H
#define SCWI_START_H

#include "account_row.h"
#include "heading.h"
#include "page.h"

typedef struct scwi_start {
  bool bare;             /* a list of numbers, with or without a title */
  bool has_header;
  size_t header;         /* its row in the page */
  size_t first;          /* first row behind the header (0 without one) */
  scwi_heading *heading; /* of each column, or the title of a bare list; spans
                            point into the page or the arena */
  size_t n;
} scwi_start;

/* Finds the header in the page; title lines above it go to the account.
 * SCW_BAD_INPUT for a file without numbers, and for columns that need a
 * header and have none. Free the headings with free(). */
scw_status scwi_start_find(scw_context *context, const scwi_page *page,
                           scwi_account *account, scwi_arena *arena,
                           scwi_start *out);

/* Headers of two lines: names over merged cells with a second line below
 * (",before,,after" over "spot,1,2,1,2"), and a line of units. Reads the
 * headings of out->header and moves out->first behind the header. */
scw_status scwi_start_headings(scw_context *context, const scwi_page *page,
                               scwi_arena *arena, scwi_start *out);

bool scwi_row_is_blank(const scwi_row *row);
bool scwi_row_is_comment(const scwi_row *row); /* one cell, # in front */

/* The first row from `i` on (or before `i`) that holds data or a header. */
size_t scwi_row_after(const scwi_page *page, size_t i);  /* page->n: none */

#endif
