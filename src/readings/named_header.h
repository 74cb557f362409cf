/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The header of a table of named columns: found, understood and checked. */
#ifndef SCWI_NAMED_HEADER_H
#define SCWI_NAMED_HEADER_H

#include "account.h"
#include "named_columns.h"
#include "page.h"

typedef struct scwi_named_header {
  scwi_named_heading *heading; /* of each column; texts in page or arena */
  size_t n;
  size_t row; /* its row in the page */
  scwi_arena texts;
} scwi_named_header;

/* Is the column one of those asked for? */
bool scwi_named_is_read(const scwi_named_ask *ask,
                        const scwi_named_heading *heading);

/* Takes the first row that is neither blank nor a comment (two rows where the
 * upper one holds merged names, or the lower one units) for the header; *first
 * is the row behind it. Unit, quantity and geometry go to the account. Errors
 * as scwi_named_columns_read. Free in any case. */
scw_status scwi_named_header_read(scw_context *context,
                                  const scw_table_options *options,
                                  const scwi_page *page,
                                  const scwi_named_ask *ask,
                                  scwi_account *account, scwi_named_header *out,
                                  size_t *first);
void scwi_named_header_free(scwi_named_header *header);

#endif
