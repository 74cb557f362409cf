/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one pass over a reading table, whatever its shape: every reading goes
 * to a sink (the full table, or running sums), everything else into the
 * account. */
#ifndef SCWI_READ_H
#define SCWI_READ_H

#include "account.h"
#include "labels.h"
#include "set_keys.h"

struct scwi_reader;
struct scwi_rows; /* of codec */
struct scwi_takings;

/* Where readings go. */
typedef struct scwi_reading_sink {
  /* Takes one reading; its labels are interned in the labels of the pass. */
  scw_status (*take)(void *user, scw_context *context,
                     const scw_reading *reading);
  void *user;
  /* Readings that replace earlier ones go to the account. */
  bool first_only;
  /* All below may be null. Told once before the first reading whether readings
   * carry spots or directions, so that means of them are the values. */
  void (*start)(void *user, bool by_spot);
  /* Called before each row behind the first 64 KiB; may take any number of
   * rows itself. */
  scw_status (*take_lines)(void *user, struct scwi_reader *reader,
                           struct scwi_rows *rows);
  /* Once behind the last row of a table with a takes_back column, which start
   * was told of as spots are: what earlier rows are to be taken out. */
  scw_status (*take_back)(void *user, scw_context *context,
                          const struct scwi_takings *takings);
  /* An event of a log whose row has no reading: its labels and line. */
  scw_status (*event)(void *user, scw_context *context,
                      const scw_reading *event);
  /* Where several columns hold readings: takes the keys of the sets of all
   * their cells, empty ones too, row by row, so that sets can keep the order
   * of the columns. May be null; the input of the keys is 0. */
  scwi_set_index *order;
} scwi_reading_sink;

/* Reads the source to its end. `account` is open; on success its input is
 * complete and scwi_account_close has been called. Header, roles and decimal
 * mark are decided on the first 64 KiB; later rows that contradict them are
 * errors. Errors: as scw_table_read; readings taken before one are void. */
scw_status scwi_read(scw_context *context, const scw_table_options *options,
                     scw_source source, scwi_labels *labels,
                     scwi_account *account, scwi_reading_sink sink);

#endif
