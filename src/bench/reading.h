/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The members of a bench file, each by a function of its own. All of them
 * refuse at line and column. `file` is the whole file's object. */
#ifndef SCWI_BENCH_READING_H
#define SCWI_BENCH_READING_H

#include "fields.h"
#include "scatterwise/bench.h"

enum {
  SCWI_BENCH_INPUTS = 1000,     /* the most a file may hold */
  SCWI_BENCH_QUANTITIES = 200,
  SCWI_BENCH_CORRELATED = 200,  /* inputs that are correlated with others */
  SCWI_BENCH_CORRELATIONS = 20000,
  SCWI_BENCH_READINGS = 100000, /* of one input */
  SCWI_BENCH_RULES = 200,       /* and as many scores, and parts of one */
  SCWI_BENCH_RUNGS = 1000       /* of one ladder */
};

scw_status scwi_read_inputs(const scwi_fields *file, scw_bench *out);
scw_status scwi_read_correlations(const scwi_fields *file, scw_bench *out);
scw_status scwi_read_rules(const scwi_fields *file, scw_bench *out);
scw_status scwi_read_quantities(const scwi_fields *file, scw_bench *out);

/* A required name that nothing else in the bench has. */
scw_status scwi_read_name(const scwi_fields *fields, const scw_bench *bench,
                          const char **out);

/* The message just recorded, told again at a place of the file. */
scw_status scwi_told_at(const scwi_fields *fields, scw_status status,
                        scwi_json_place place);

#endif
