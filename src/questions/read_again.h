/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings taken again in place of earlier ones: both are kept, and the
 * verdict is given either way. */
#ifndef SCWI_READ_AGAIN_H
#define SCWI_READ_AGAIN_H

#include "context.h"
#include "scatterwise/table.h"

typedef struct scwi_read_again {
  size_t *first;  /* the first readings only */
  size_t n_first;
  size_t *again;  /* with the later ones in place of those they replace */
  size_t n_again;
  size_t replaced; /* how many were read again; 0: both lists are the same */
} scwi_read_again;

/* Splits the readings of one side. A later reading replaces those of its own
 * spot (on its panel); without spots its cell names the place, or the order
 * number, of the one it replaces. SCW_BAD_INPUT when there is none. */
scw_status scwi_read_again_of(scw_context *context, const scw_table *table,
                              const size_t *index, size_t n,
                              scwi_read_again *out);
/* The first readings only, into `out` (room for n); how many there are. */
size_t scwi_first_readings(const scw_table *table, const size_t *index,
                           size_t n, size_t *out);
void scwi_read_again_free(scwi_read_again *lists);

#endif
