/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bench file: what is known of a bench beyond one day's readings. JSON,
 * read strictly; its layout stands in docs/bench-file.md and as a JSON Schema
 * in docs/bench.schema.json. */
#ifndef SCATTERWISE_BENCH_H
#define SCATTERWISE_BENCH_H

#include "scatterwise/sink.h"

#ifdef __cplusplus
extern "C" {
#endif

enum { SCW_BENCH_VERSION = 1 };

/* The scatter of single readings on one panel type, pooled from many small
 * sets. What it is of is told by the five texts; two entries of one file never
 * share all five. */
typedef struct scw_bench_scatter {
  const char *panel_type; /* never empty */
  const char *quantity;   /* header word of the readings: "gloss", "pull" */
  const char *unit;       /* of the SD; "1" for a plain ratio; never empty */
  const char *geometry;   /* of a gloss meter, "60"; "" where there is none */
  const char *meter;      /* the instrument's label; "" when not said */
  double sd;              /* of single readings; finite, > 0 */
  double df;              /* degrees of freedom behind it; finite, > 0 */
  size_t sets;            /* reading sets behind it, >= 1 */
  const char *date;       /* of the pooling, "2026-03-14" */
  size_t line;            /* in the file read; 0 for entries put in since */
} scw_bench_scatter;

/* A bench. Zero-initialised it is an empty one. Strings are owned by it. */
typedef struct scw_bench {
  char *name;             /* of the source, for messages; null: none */
  char sha256[65];        /* of the bytes read; "" otherwise */
  scw_bench_scatter *scatter;
  size_t n_scatter;
} scw_bench;

/* Reads a bench file. SCW_BAD_INPUT names line and column, what stands there
 * and what may: broken JSON, unknown or repeated keys, missing members,
 * values out of range. Free with scw_bench_free. */
SCW_API scw_status scw_bench_read(scw_context *context, scw_source source,
                                  scw_bench *out);
SCW_API void scw_bench_free(scw_bench *bench);

/* Adds the entry, or takes it in place of the one with the same five texts;
 * texts are copied, null is "". SCW_BAD_ARGUMENT, naming the field, for an
 * entry no bench file may hold. */
SCW_API scw_status scw_bench_put_scatter(scw_context *context,
                                         scw_bench *bench,
                                         const scw_bench_scatter *entry);

/* Writes the bench as a bench file: the same bench, the same bytes. */
SCW_API scw_status scw_bench_write(scw_context *context,
                                   const scw_bench *bench, scw_sink sink);

/* What a scatter is wanted for. Null or "" is "not said": the panel type may
 * be left unsaid where the bench holds one only, the quantity always (the unit
 * then speaks for it, as it does for an entry of "reading" or "value"), the others only where the entry says nothing either. */
typedef struct scw_scatter_wanted {
  const char *panel_type, *quantity, *unit, *geometry, *meter;
} scw_scatter_wanted;

/* The one entry for it, borrowed from the bench. SCW_BAD_INPUT in words when
 * there is none or more than one: what differs, what the bench has. */
SCW_API scw_status scw_bench_find_scatter(scw_context *context,
                                          const scw_bench *bench,
                                          const scw_scatter_wanted *wanted,
                                          const scw_bench_scatter **out);

#ifdef __cplusplus
}
#endif
#endif
