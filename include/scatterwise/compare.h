/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several products beside each other: which of them differ, from a control or
 * from one another? */
#ifndef SCATTERWISE_COMPARE_H
#define SCATTERWISE_COMPARE_H

#include "scatterwise/change.h"

#ifdef __cplusplus
extern "C" {
#endif

/* What of each product is compared. The text is the JSON code. */
#define SCW_COMPARED_LIST(X)                                                   \
  X(SCW_COMPARED_CHANGES, "changes") /* after minus before */                  \
  X(SCW_COMPARED_MEANS, "means")     /* the readings know no before */

typedef enum scw_compared {
#define SCW_COMPARED_ENUM(code, text) code,
  SCW_COMPARED_LIST(SCW_COMPARED_ENUM)
#undef SCW_COMPARED_ENUM
      SCW_COMPARED_END
} scw_compared;

/* Never null. */
SCW_API const char *scw_compared_code(scw_compared compared);

/* How many comparisons are judged together: code, JSON code, words. */
#define SCW_ADJUSTMENT_LIST(X)                                                 \
  X(SCW_ADJUST_MAX_T, "max_t",                                                 \
    "the largest of all t with the control (Hasler and Hothorn)")              \
  X(SCW_ADJUST_DUNNETT, "dunnett", "Dunnett's, SDs taken as equal")            \
  X(SCW_ADJUST_GAMES_HOWELL, "games_howell",                                   \
    "the studentised range of all pairs (Games and Howell)")                   \
  X(SCW_ADJUST_TUKEY, "tukey_kramer",                                          \
    "the studentised range, SDs taken as equal (Tukey and Kramer)")            \
  X(SCW_ADJUST_HOLM, "holm", "intervals by Bonferroni, p by Holm")

typedef enum scw_adjustment {
#define SCW_ADJUSTMENT_ENUM(code, key, text) code,
  SCW_ADJUSTMENT_LIST(SCW_ADJUSTMENT_ENUM)
#undef SCW_ADJUSTMENT_ENUM
      SCW_ADJUSTMENT_END
} scw_adjustment;

SCW_API const char *scw_adjustment_code(scw_adjustment adjustment);
SCW_API const char *scw_adjustment_text(scw_adjustment adjustment);

typedef struct scw_compare_product {
  char *label;
  scw_estimate figure;  /* its mean, or change (less the untreated panel's) */
  scw_figure sd;        /* of what its mean is made of */
  size_t n[2];          /* readings or spots before (0 for means) and after;
                           pairs in both where spots are paired */
  bool paired;
  size_t *tied;         /* products it is not shown to differ from, of those it
                           was compared with */
  size_t n_tied;
} scw_compare_product;

typedef struct scw_product_comparison {
  size_t product, against; /* indices */
  scw_estimate alone;      /* product less against; its own interval and p */
  scw_interval interval;   /* all intervals hold together */
  scw_figure p_adjusted;
  scw_verdict verdict;     /* from `interval` and the margin */
  scw_settle settle;
} scw_product_comparison;

/* The best looks better than it is. */
typedef struct scw_compare_best {
  size_t of;               /* products it is the best of; the control is none */
  size_t product, second;  /* meaningful where over_second is there */
  scw_figure over_second, over_rest; /* its lead as found */
  scw_figure luck_second, luck_rest; /* expected, were all products alike */
} scw_compare_best;

typedef struct scw_compare_options {
  const char *control;    /* each product against this one; null: all pairs */
  const char *untreated;  /* a panel whose own change is taken off; null */
  bool equal_sd;
  bool shared_spots;      /* all products were read at the same spots of one
                             panel: spots are blocks */
  bool smaller_is_better; /* for the best of them */
  double margin;          /* > 0; 0: none */
  bool has_block;         /* as for a change */
  double block;
  const char *block_unit;
} scw_compare_options;

typedef struct scw_compare_result {
  scw_settings settings;
  scw_compare_options options;
  char *unit;
  scw_compared compared;
  scw_adjustment method;
  scw_step step;
  size_t control;         /* index; n_products without */
  scw_compare_product *product;
  size_t n_products;
  scw_product_comparison *comparison;
  size_t n_comparisons;   /* the size of the family */
  scw_estimate untreated; /* the change of the untreated panel */
  scw_f_test one_way, welch_one_way; /* do the products differ at all? */
  scw_compare_best best;
  char *sentence;
  scw_note *notes;
  size_t n_notes;
} scw_compare_result;

/* Compares the products of a table of readings (2 to 100, by their labels).
 * Errors: SCW_BAD_ARGUMENT for options, also for a label that no product has;
 * SCW_BAD_INPUT for fewer than two products that can be compared, mixed
 * geometries, spots that are not shared. Free with scw_compare_result_free. */
SCW_API scw_status scw_compare(scw_context *context, const scw_table *table,
                               const scw_settings *settings,
                               const scw_compare_options *options,
                               scw_compare_result *out);
SCW_API void scw_compare_result_free(scw_compare_result *result);

#ifdef __cplusplus
}
#endif
#endif
