/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of the pass over a table: its state, shared by the files reader*.c. */
#ifndef SCWI_READER_H
#define SCWI_READER_H

#include "layout.h"
#include "marks.h"
#include "read.h"
#include "taken_back.h"
#include "text.h"

enum { SCWI_KEPT_NAMES = 12 }; /* labels a message lists */

typedef struct scwi_name_list {
  int32_t label[SCWI_KEPT_NAMES];
  size_t n;
} scwi_name_list;

typedef struct scwi_reader {
  scw_context *context;
  const scw_table_options *options;
  scwi_labels *labels;
  scwi_account *account;
  scwi_reading_sink sink;
  const char *file;
  size_t header_line;     /* 0: none */
  scwi_layout layout;
  scwi_marks marks;
  scw_reading row;        /* labels and places of the row being read */
  scwi_text scratch;
  scwi_row remark;        /* a line of its own below the readings; line 0: */
  char remark_text[SCWI_SHOWN_SIZE];
  int32_t geometry;       /* by option */
  scwi_name_list states, geometries;
  bool seen[SCW_SIDE_AFTER + 1];
  scwi_takings takings;
} scwi_reader;

/* One row behind the header, whatever it holds. */
scw_status scwi_reader_row(scwi_reader *reader, const scwi_row *row);

/* One row of a table with a header, or of a list. Blank rows and comments
 * have been taken before. */
scw_status scwi_reader_table_row(scwi_reader *reader, const scwi_row *row);
scw_status scwi_reader_list_row(scwi_reader *reader, const scwi_row *row);

/* Where a reading keeps its label of this role; null: roles without one. */
int32_t *scwi_reading_label(scw_reading *reading, scw_role role);

/* Sets the labels, order and place of the row. */
scw_status scwi_reader_labels(scwi_reader *reader, const scwi_row *row);

/* One cell that should be a reading: to the sink or the account. `column` may
 * be null (a list without title). */
scw_status scwi_reader_cell(scwi_reader *reader, const scwi_row *row,
                            const scwi_cell *cell, const scwi_column *column);

/* A number in `cell`; *is_number = false when it is empty or a missing mark,
 * SCW_BAD_INPUT when it is anything else. */
scw_status scwi_reader_number(scwi_reader *reader, const scwi_cell *cell,
                              const char *what, bool *is_number,
                              double *value);

/* The rows below a second header or title are another table. */
scw_status scwi_reader_blocks(scwi_reader *reader, size_t line,
                              scwi_span text);

/* Remembers a label once, as long as there is room. */
void scwi_name_list_add(scwi_name_list *list, int32_t label);

#endif
