/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of the table: the sink that keeps every reading. */
#ifndef SCWI_TABLE_H
#define SCWI_TABLE_H

#include "account.h"
#include "labels.h"
#include "read.h"
#include "set_keys.h"

typedef struct scwi_table_input {
  scwi_account account;
  size_t first; /* its first reading */
  scwi_set_index order; /* keys of sets in their order; empty: that of the
                           readings. Some may have no reading */
} scwi_table_input;

struct scw_table {
  scwi_labels labels;
  scw_reading *reading;
  size_t n, capacity;
  scw_reading *event; /* of rows without a reading */
  size_t events, events_capacity;
  scwi_table_input *input;
  size_t inputs, inputs_capacity;
};

/* An empty table with one open account. */
scw_status scwi_table_new(scw_context *context, const char *name,
                          scw_table **out);
scw_status scwi_table_add(scw_context *context, scw_table *table,
                          const scw_reading *reading);

scw_status scwi_table_add_event(scw_context *context, scw_table *table,
                                const scw_reading *event);

/* Reads the source into the table's labels and account, the readings going to
 * the sink; errors as scw_table_read. `options` may be null. */
scw_status scwi_table_fill(scw_context *context,
                           const scw_table_options *options,
                           scw_source source, scw_table *table,
                           scwi_reading_sink sink);

/* A reading without labels or place. */
scw_reading scwi_reading_none(void);

#endif
