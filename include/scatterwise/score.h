/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 4: points with their intervals, and which ranks are real. */
#ifndef SCATTERWISE_SCORE_H
#define SCATTERWISE_SCORE_H

#include "scatterwise/bench.h"
#include "scatterwise/change.h"

#ifdef __cplusplus
extern "C" {
#endif

/* A table of readings for the rules that take such readings. */
typedef struct scw_score_table {
  const scw_table *table;
  const char *reading; /* the rule's name, or the word its readings go by; null:
                          the header of the readings says it */
} scw_score_table;

/* How long a coat lasted: fine at the look after `ok_at` passes, gone at the one
 * after `gone_by`, INFINITY where it was still fine at the last look. */
typedef struct scw_look {
  char *product;
  char *rule;          /* "" when the file names none */
  double ok_at, gone_by;
  size_t line;
} scw_look;

typedef struct scw_looks {
  scw_look *look;
  size_t n;
  scw_table *account;  /* without readings */
} scw_looks;

/* Reads a table product, ok at, gone by (blank: still fine), and rule where the
 * bench has several ladders. Free with scw_looks_free. */
SCW_API scw_status scw_looks_read(scw_context *context,
                                  const scw_table_options *options,
                                  scw_source source, scw_looks *out);
SCW_API void scw_looks_free(scw_looks *looks);

enum {
  SCW_SCORE_TRIALS = 100000,    /* unless said otherwise */
  SCW_SCORE_TRIALS_LEAST = 10000,
  SCW_SCORE_TRIALS_MOST = 1000000
};

typedef struct scw_score_options {
  const scw_bench *bench;      /* with rules and scores; must outlive the
                                  result */
  const char *score;           /* its name; null: the only one */
  const scw_looks *looks;      /* for ladders; null: none */
  size_t trials;               /* 0: SCW_SCORE_TRIALS */
} scw_score_options;

/* One rule's share of a product's points. */
typedef struct scw_scored_part {
  size_t rule;             /* index into the bench's rules */
  double weight;
  scw_figure quantity;     /* the unrounded difference, mean ...; passes
                              surely survived for a ladder */
  scw_interval quantity_interval;
  scw_figure points;       /* unrounded */
  scw_interval interval;   /* the quantity's, through the rule */
  scw_figure published;    /* in the publisher's order of rounding */
  size_t n;                /* readings, spots or pairs behind it */
} scw_scored_part;

typedef struct scw_scored_product {
  char *label, *category;  /* "" when not said */
  scw_scored_part *part;   /* as many as the score has parts */
  scw_figure points;       /* the sum, unrounded */
  scw_interval interval;   /* by trials of everything measured */
  scw_figure published;    /* in the publisher's order of rounding */
  size_t place_low, place_high; /* places it could hold; 0: not ranked */
  size_t of;               /* ranked with so many, itself included */
  double *chance;          /* of place 1, 2, ... `of`; null: not ranked */
  size_t *tied;            /* products it is not told apart from */
  size_t n_tied;
} scw_scored_product;

typedef struct scw_score_result {
  scw_settings settings;
  const scw_score_rule *score; /* borrowed from the bench, as are the rules */
  const scw_rule *rules;
  size_t trials;
  scw_scored_product *product; /* best first; those not ranked last */
  size_t n_products;
  char *sentence;
  scw_note *notes;
  size_t n_notes;
} scw_score_result;

/* Scores every product. Products that share a baseline are drawn with it.
 * Errors: SCW_BAD_ARGUMENT for options; SCW_BAD_INPUT for a rule of the score
 * without readings, tables that fit no rule or the same one, units that are not
 * the rule's, more than 100 products. Free with scw_score_result_free. */
SCW_API scw_status scw_score(scw_context *context,
                             const scw_score_table *tables, size_t n_tables,
                             const scw_settings *settings,
                             const scw_score_options *options,
                             scw_score_result *out);
SCW_API void scw_score_result_free(scw_score_result *result);

#ifdef __cplusplus
}
#endif
#endif
