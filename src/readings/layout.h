/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What each column of a table holds, decided once from headings, options and
 * the first rows. */
#ifndef SCWI_LAYOUT_H
#define SCWI_LAYOUT_H

#include "account.h"
#include "labels.h"
#include "page.h"
#include "start.h"

typedef enum scwi_use {
  SCWI_USE_NONE,    /* not read; its header is in the account */
  SCWI_USE_READING,
  SCWI_USE_LABEL,   /* product, panel, spot ... */
  SCWI_USE_NUMBER   /* order, x, y */
} scwi_use;

typedef struct scwi_column {
  scwi_use use;
  scw_role role;                /* of labels and numbers */
  bool named;                   /* its header is not empty */
  scw_side side;                /* of its readings */
  int32_t given[SCW_ROLE_COUNT]; /* labels its heading gives its readings */
  scwi_span name;               /* of the header, for messages */
} scwi_column;

typedef struct scwi_layout {
  bool bare;
  scwi_column *column; /* null in a list */
  size_t n;
  size_t *reading, n_readings; /* columns by use, left to right */
  size_t *other, n_others;     /* label and number columns */
  bool has[SCW_ROLE_COUNT];    /* some column plays it */
  scwi_arena texts;
} scwi_layout;

/* Decides the layout and writes shape, roles, unit and the columns that are
 * not read to the account. SCW_BAD_ARGUMENT for a column that does not exist,
 * SCW_BAD_INPUT for headers that contradict themselves. */
scw_status scwi_layout_make(scw_context *context,
                            const scw_table_options *options,
                            const scwi_page *page, scwi_start *start,
                            scwi_labels *labels, scwi_account *account,
                            scwi_layout *out);
void scwi_layout_free(scwi_layout *layout);

/* Steps of it, each in a file of its own. */

/* Turns the columns named in options into headings of their roles. */
scw_status scwi_layout_options(scw_context *context,
                               const scw_table_options *options,
                               scwi_start *start, const char *file);

/* Lists the columns there are: "spot, before, after". */
const char *scwi_columns_text(const scwi_start *start, char *out, size_t size);

/* Chooses the reading columns among the headings. */
scw_status scwi_layout_readings(scw_context *context, const scwi_page *page,
                                scwi_start *start, const char *file);

/* Refuses what cannot be told apart: a name twice, two columns for one role,
 * two quantities, two units. */
scw_status scwi_layout_check(scw_context *context, const scwi_start *start,
                             const char *file);

/* The name of the table's shape. */
const char *scwi_layout_shape(const scwi_start *start);

#endif
