/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One quantity of the bench file. */
#ifndef SCWI_BENCH_QUANTITY_H
#define SCWI_BENCH_QUANTITY_H

#include "context.h"
#include "scatterwise/bench.h"

/* A copy of the quantity, with texts of its own, at the end of the list. */
scw_status scwi_quantity_append(scw_context *context, scw_bench *bench,
                                const scw_bench_quantity *quantity);
void scwi_quantity_free(scw_bench_quantity *quantity);

#endif
