/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The first rows of a file, kept so that header, roles and decimal mark are
 * decided on more than one line. Bounded: about 64 KiB of text. */
#ifndef SCWI_PAGE_H
#define SCWI_PAGE_H

#include "rows.h"

typedef struct scwi_page {
  scwi_row *row;
  size_t n;
  bool ended;      /* the file holds no further rows */
  scwi_cell *cell; /* of all rows */
  char *text;      /* of all cells */
} scwi_page;

/* Fills the page from the start of `rows`; empty on failure. */
scw_status scwi_page_fill(scw_context *context, scwi_rows *rows,
                          scwi_page *out);
void scwi_page_free(scwi_page *page);

#endif
