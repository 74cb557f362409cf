/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bench's model in a change: what may be asked for together, its words and
 * its notes. */
#ifndef SCWI_INSTRUMENTS_WORDS_H
#define SCWI_INSTRUMENTS_WORDS_H

#include "instruments.h"
#include "notes.h"

/* SCW_BAD_ARGUMENT for what cannot be asked for beside a bench's model, or
 * without one. */
scw_status scwi_check_bench(scw_context *context,
                            const scw_change_options *options);

/* The margin asked for, else the quantity's own, else 0. SCW_BAD_ARGUMENT for
 * one in another unit. */
scw_status scwi_bench_margin(scw_context *context,
                             const scw_change_options *options,
                             const scwi_instruments *instruments,
                             double *margin);

/* "" for a plain ratio. */
const char *scwi_quantity_unit(const scw_bench_quantity *quantity);

/* What the sentence calls it. */
const char *scwi_quantity_words(const scw_bench_quantity *quantity);

/* Model, factor and margin into the result; nothing for null. */
void scwi_tell_bench(const scwi_instruments *instruments, double margin,
                     scw_change_result *out);

/* What the model did to the readings, and what the bench leaves unsaid. */
scw_status scwi_instruments_run_notes(scw_context *context,
                                      const scwi_instruments *instruments,
                                      scwi_notes *notes);

#endif
