/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which quantity of a bench the readings of a table are for. */
#ifndef SCWI_BENCH_QUANTITY_CHOICE_H
#define SCWI_BENCH_QUANTITY_CHOICE_H

#include "context.h"
#include "scatterwise/bench.h"

/* What is known of the readings; "" for what is not. */
typedef struct scwi_read_facts {
  const char *quantity, *unit, *geometry; /* as in scwi_table_facts */
} scwi_read_facts;

/* The quantity called `name`; with a null name the one whose input of readings
 * is in the unit of these, at their geometry, and is called like them (or the
 * quantity is). Its model must have one input of readings, which is
 * bench->input[*reading]. SCW_BAD_INPUT in words where it does not fit, or none
 * or several do. */
scw_status scwi_bench_quantity_for(scw_context *context, const scw_bench *bench,
                                   const char *name, scwi_read_facts readings,
                                   size_t *quantity, size_t *reading);

#endif
