/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bench file: what is known of a bench beyond one day's readings. JSON,
 * read strictly; its layout stands in docs/bench-file.md and as a JSON Schema
 * in docs/bench.schema.json. */
#ifndef SCATTERWISE_BENCH_H
#define SCATTERWISE_BENCH_H

#include "scatterwise/budget.h"
#include "scatterwise/rules.h"
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

/* Whether an input has one and the same value on both sides of a comparison:
 * the meter's offset for readings before and after. What is not said does not
 * cancel. */
typedef enum scw_shared {
  SCW_SHARED_NOT_SAID,
  SCW_SHARED,    /* "shared": true */
  SCW_NOT_SHARED /* "shared": false */
} scw_shared;

/* One input of the models. Its name is the only one in the file: wherever it
 * stands, in one model or in several, it is the same value. */
typedef struct scw_bench_input {
  scw_budget_given given; /* with the name; readings: n, mean, SD and step are
                             worked out from `readings`, or told. n is 0 while
                             they are still in the file `file` */
  const char *about;      /* the user's words; "" for none */
  const char *unit;       /* "" when not said */
  scw_shared shared;
  const double *readings; /* as the file gives them; null for none */
  size_t n_readings;
  int decimals;           /* they are written with at least so many: 160.0 is
                             one, which tells the display step. 0 to 17 */
  const char *file, *column; /* readings in a table: its path, as written, and
                             the column's header; "" for none */
  size_t line;
} scw_bench_input;

/* Two inputs that vary together. */
typedef struct scw_bench_correlation {
  size_t a, b;            /* indices of inputs, a < b */
  double coefficient;     /* -1 to 1 */
  size_t line;
} scw_bench_correlation;

/* What a quantity is about: cautions, checks and advice of the trade go by it.
 * The first text is the word of the file. */
#define SCW_MEASURES_LIST(X)                                                   \
  X(SCW_MEASURES_OTHER, "other", "something else")                             \
  X(SCW_MEASURES_GLOSS, "gloss", "gloss")                                      \
  X(SCW_MEASURES_FRICTION, "friction", "friction")                             \
  X(SCW_MEASURES_RETENTION, "retention", "retention")

typedef enum scw_measures {
#define SCW_MEASURES_ENUM(code, key, text) code,
  SCW_MEASURES_LIST(SCW_MEASURES_ENUM)
#undef SCW_MEASURES_ENUM
      SCW_MEASURES_END
} scw_measures;

/* One quantity: a model of inputs and of quantities above it in the file. */
typedef struct scw_bench_quantity {
  const char *name;       /* one for the file, inputs included */
  const char *about;      /* "" for none */
  const char *unit;       /* "1" for a plain ratio */
  const char *geometry;   /* of a gloss meter, "60"; "" for none */
  const char *meter;      /* "" when not said */
  scw_measures measures;
  const char *model;      /* as written: "pull / block" */
  scw_figure margin;      /* the smallest change that matters; SCW_NO_MARGIN */
  double low, high;       /* limits; -INFINITY, INFINITY for none */
  scw_figure conformance; /* probability of conformance wanted; not there
                             without limits */
  size_t line;
} scw_bench_quantity;

/* A bench. Zero-initialised it is an empty one. Strings are owned by it. */
typedef struct scw_bench {
  char *name;             /* of the source, for messages; null: none */
  char sha256[65];        /* of the bytes read; "" otherwise */
  scw_bench_scatter *scatter;
  size_t n_scatter;
  char *about;            /* the user's words; null for none */
  scw_bench_input *input;
  size_t n_inputs;
  scw_bench_correlation *correlation;
  size_t n_correlations;
  scw_bench_quantity *quantity;
  size_t n_quantities;
  scw_rule *rule;
  size_t n_rules;
  scw_score_rule *score;
  size_t n_scores;
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

/* The word and the text of what a quantity is about; never null. */
SCW_API const char *scw_measures_code(scw_measures measures);
SCW_API const char *scw_measures_text(scw_measures measures);

/* Adds the input, or takes it in place of the one of the same name, whose
 * correlations it keeps; texts and readings are copied, null is "". With
 * readings n, value, sd and, unless it is SCW_STEP_GIVEN, step are worked out
 * anew. SCW_BAD_INPUT in words for an input no bench file may hold, such as
 * one named like a quantity; the bench is then as it was. */
SCW_API scw_status scw_bench_put_input(scw_context *context, scw_bench *bench,
                                       const scw_bench_input *input);

/* The quantity of that name; with a null or empty name the only one there is.
 * SCW_BAD_INPUT names those there are. */
SCW_API scw_status scw_bench_find_quantity(scw_context *context,
                                           const scw_bench *bench,
                                           const char *name,
                                           const scw_bench_quantity **out);

/* The rule, or the score, of that name; with a null or empty name the only one
 * there is. SCW_BAD_INPUT names those there are. */
SCW_API scw_status scw_bench_find_rule(scw_context *context,
                                       const scw_bench *bench,
                                       const char *name, const scw_rule **out);
SCW_API scw_status scw_bench_find_score(scw_context *context,
                                        const scw_bench *bench,
                                        const char *name,
                                        const scw_score_rule **out);

/* The readings of an input that has them in a file, once the caller has read
 * it: n finite numbers and their display step; a step the bench file gives
 * stands, one that is SCW_STEP_UNSET is inferred. SCW_BAD_INPUT where no
 * uncertainty comes of them, SCW_BAD_ARGUMENT for an input without a file; the
 * bench is then as it was. */
SCW_API scw_status scw_bench_take_readings(scw_context *context,
                                           scw_bench *bench, size_t input,
                                           const double *values, size_t n,
                                           scw_step step);

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
