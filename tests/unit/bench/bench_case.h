/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bench files in tests: one call each. */
#ifndef BENCH_CASE_H
#define BENCH_CASE_H

#include "check.h"

#include "scatterwise/bench.h"

extern scw_context *context;
int make_context(void **state);
int free_context(void **state);

scw_status read_bench(const char *text, scw_bench *out);
/* Of a text that must be taken. */
scw_bench bench_of(const char *text);
/* What scw_bench_write gives; free it. */
char *written(const scw_bench *bench);

/* That the text is refused there (column 0: anywhere in the line), in words
 * that hold `words`, and nothing is left. */
void check_refused(const char *text, size_t line, size_t column,
                   const char *words);

/* The same at the character behind the @, which is no part of the text. */
void check_refused_at(const char *marked, const char *words);

/* That the last message holds `words`. */
void check_message(const char *words);

/* A file of the folder of the sources; free it. */
char *text_of_file(const char *name);

#endif
