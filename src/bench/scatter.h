/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One entry of the scatter bank: its texts by their keys, and what it may
 * hold. */
#ifndef SCWI_BENCH_SCATTER_H
#define SCWI_BENCH_SCATTER_H

#include <stdbool.h>

#include "context.h"
#include "scatterwise/bench.h"

/* The texts of an entry, in the order they are written. */
typedef struct scwi_scatter_text {
  const char *key;
  size_t offset;      /* of the field in scw_bench_scatter */
  bool required;      /* may not be empty or left out */
  bool identity;      /* one of the five that tell entries apart */
} scwi_scatter_text;

enum { SCWI_SCATTER_TEXTS = 6 };
extern const scwi_scatter_text scwi_scatter_texts[SCWI_SCATTER_TEXTS];

/* The field itself, which may be null. */
const char **scwi_scatter_text_of(scw_bench_scatter *entry,
                                  const scwi_scatter_text *text);
/* Its text; "" for null. */
const char *scwi_scatter_text_in(const scw_bench_scatter *entry,
                                 const scwi_scatter_text *text);

/* What no bench file may hold: the key at fault, or null; *words say what it
 * must be. */
const char *scwi_scatter_fault(const scw_bench_scatter *entry,
                               const char **words);

/* Texts without regard to the case of ASCII letters; null is "". */
bool scwi_same_words(const char *a, const char *b);
/* The same five texts. */
bool scwi_same_scatter(const scw_bench_scatter *a, const scw_bench_scatter *b);

/* With texts of its own ("" for null). */
scw_status scwi_scatter_copy(scw_context *context,
                             const scw_bench_scatter *from,
                             scw_bench_scatter *out);
void scwi_scatter_free(scw_bench_scatter *entry);

/* A copy of the entry at the end of the bank. */
scw_status scwi_bench_append(scw_context *context, scw_bench *bench,
                             const scw_bench_scatter *entry);

#endif
