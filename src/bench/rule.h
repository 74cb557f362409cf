/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules and scores of the bench file. */
#ifndef SCWI_BENCH_RULE_H
#define SCWI_BENCH_RULE_H

#include "context.h"
#include "scatterwise/bench.h"

/* Copies, with texts and lists of their own, at the end of the bench's. */
scw_status scwi_rule_append(scw_context *context, scw_bench *bench,
                            const scw_rule *rule);
scw_status scwi_score_append(scw_context *context, scw_bench *bench,
                             const scw_score_rule *score);
void scwi_rules_free(scw_bench *bench);

#endif
