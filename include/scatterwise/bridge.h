/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 6, second half: do the old method and the new one agree? Also two
 * meters, or two panels. The same items are run on both. */
#ifndef SCATTERWISE_BRIDGE_H
#define SCATTERWISE_BRIDGE_H

#include "scatterwise/comparison.h"
#include "scatterwise/readings.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Something that changed on a day: results from before it and from after are
 * not comparable unless a bridge carries them over. */
typedef struct scw_bridge_fence {
  const char *date;   /* "2026-03-14", or as scw_date_read takes it */
  const char *reason; /* not empty */
} scw_bridge_fence;

/* A result of the old method, to be re-expressed. */
typedef struct scw_old_result {
  const char *product; /* null or "": not named */
  double value;
  bool has_u;          /* its own standard uncertainty is known */
  double u;            /* >= 0 */
} scw_old_result;

/* Zero-initialise for nothing given. */
typedef struct scw_bridge_options {
  double margin;       /* largest difference that does not matter; 0: none */
  const char *const *baseline; /* labels of items that are no products */
  size_t n_baseline;
  double error_ratio;  /* variance of the new method's error over the old one's;
                          0: from repeats, else 1 */
  bool weighted;       /* the conversion takes the scatter to grow with the
                          level */
  const scw_bridge_fence *fence;
  size_t n_fence;
  const scw_old_result *convert;
  size_t n_convert;
} scw_bridge_options;

/* Whether results may stand side by side. */
#define SCW_COMPARABLE_LIST(X)                                                 \
  X(SCW_COMPARABLE_CANNOT_TELL, "cannot_tell")                                 \
  X(SCW_COMPARABLE_YES, "yes")                                                 \
  X(SCW_COMPARABLE_NO, "no")

typedef enum scw_comparable {
#define SCW_COMPARABLE_ENUM(code, text) code,
  SCW_COMPARABLE_LIST(SCW_COMPARABLE_ENUM)
#undef SCW_COMPARABLE_ENUM
      SCW_COMPARABLE_END
} scw_comparable;

SCW_API const char *scw_comparable_code(scw_comparable comparable);

/* Where the error ratio comes from. */
#define SCW_RATIO_ORIGIN_LIST(X)                                               \
  X(SCW_RATIO_ASSUMED, "assumed")                                              \
  X(SCW_RATIO_GIVEN, "given")                                                  \
  X(SCW_RATIO_REPEATS, "repeats")

typedef enum scw_ratio_origin {
#define SCW_RATIO_ENUM(code, text) code,
  SCW_RATIO_ORIGIN_LIST(SCW_RATIO_ENUM)
#undef SCW_RATIO_ENUM
      SCW_RATIO_ORIGIN_END
} scw_ratio_origin;

SCW_API const char *scw_ratio_origin_code(scw_ratio_origin origin);

/* An item run on at least one of the methods. */
typedef struct scw_bridge_item {
  char *label;
  bool baseline;           /* no product */
  size_t n_old, n_new;     /* readings */
  size_t line;             /* of its first reading */
  scw_figure old_mean, new_mean, difference; /* new less old */
  bool stands_out;         /* its difference does */
} scw_bridge_item;

/* Bland & Altman's limits of agreement, for the difference of a single new
 * reading and a single old one on the same item. */
typedef struct scw_limits_of_agreement {
  double content;          /* share of differences they are to hold */
  scw_figure sd, df;       /* of a single difference */
  scw_figure low, high;    /* bias -+ z sd */
  scw_interval low_interval, high_interval;
} scw_limits_of_agreement;

/* The straight line with error in both. */
typedef struct scw_bridge_line {
  scw_figure slope, intercept;
  scw_figure slope_u, intercept_u;   /* analytic */
  scw_interval slope_interval;       /* exact for normal errors of a known
                                        ratio; SCW_UNBOUNDED */
  scw_interval intercept_interval;   /* analytic */
  scw_figure jackknife_slope_u, jackknife_intercept_u;
  scw_interval jackknife_slope, jackknife_intercept;
  scw_figure scatter;      /* SD of new - (intercept + slope old); weighted: at
                              the mean level */
} scw_bridge_line;

/* Readings of things that are no products: bare panels, tiles. */
typedef struct scw_bridge_baselines {
  size_t items;            /* with readings on both; 0: none */
  size_t n_old, n_new;     /* readings */
  bool paired;             /* by item; else all readings of one side */
  scw_estimate difference;
  scw_verdict verdict;
  scw_tost tost;
} scw_bridge_baselines;

typedef struct scw_converted {
  char *product;           /* "" when not named */
  double old_value;
  scw_figure old_u;
  scw_figure value, standard_uncertainty, df; /* SCW_EXTRAPOLATED beyond the
                              items that were run on both */
  scw_interval interval;
} scw_converted;

typedef struct scw_found_fence {
  char date[11];           /* "" where no day is known */
  char *reason;
  bool found;              /* by the program, in the readings */
} scw_found_fence;

typedef struct scw_bridge_result {
  scw_settings settings;
  scw_figure margin;
  bool weighted;
  scw_step step;
  char *unit, *quantity, *geometry; /* never null */
  char *sentence;          /* the answer */
  scw_bridge_item *item;
  size_t n_items;
  size_t pairs;            /* products with readings on both */
  scw_estimate bias;       /* mean of new less old over the pairs */
  scw_verdict verdict;     /* of the bias */
  scw_tost tost;
  scw_figure difference_sd; /* of the items' differences of means */
  scw_figure repeat_sd_old, repeat_df_old, repeat_sd_new, repeat_df_new;
  scw_limits_of_agreement agreement;
  scw_estimate trend;      /* slope of the difference over the mean of both */
  scw_figure grows_s, grows_p; /* Kendall's S of the distance from that line
                              over the level */
  scw_shape shape;         /* of the differences */
  scw_stand_out stand_out; /* places count the pairs */
  double error_ratio;
  scw_ratio_origin error_ratio_origin;
  scw_bridge_line line, weighted_line;
  scw_figure range_low, range_high; /* old values of the pairs */
  scw_figure conversion_uncertainty;     /* standard, at the mean of the items */
  scw_figure conversion_uncertainty_end; /* at the worse end of their range */
  scw_figure conversion_half_width;      /* of the interval at that end */
  scw_comparable comparable;  /* as they stand */
  scw_comparable convertible; /* after conversion */
  bool fenced;             /* neither of them is yes */
  scw_figure planned_products; /* pairs at which the limits, with their
                              intervals, lie within the margin, were bias and
                              scatter those found (no bias where no product was
                              run on both) */
  scw_figure planned_assured; /* the same at the upper limit of the scatter */
  scw_bridge_baselines baselines;
  scw_converted *converted;
  size_t n_converted;
  scw_found_fence *fence;  /* those without a day last, else by day */
  size_t n_fences;
  char **unmatched;        /* "K4 was read by the old method (line 5) but not
                              by the new one" */
  size_t n_unmatched;
  scw_note *notes;
  size_t n_notes;
} scw_bridge_result;

/* Bridges the old method (side before) and the new one (side after) of a table
 * read with scw_table_options.bridge. An item is a distinct combination of set,
 * product, panel and spot. SCW_BAD_INPUT for a side without readings, mixed
 * geometries or units; SCW_BAD_ARGUMENT for an option that cannot be used. Cost:
 * pairs squared up to 2000 of them (jackknife). Free with
 * scw_bridge_result_free. */
SCW_API scw_status scw_bridge(scw_context *context, const scw_table *table,
                              const scw_settings *settings,
                              const scw_bridge_options *options,
                              scw_bridge_result *out);
SCW_API void scw_bridge_result_free(scw_bridge_result *result);

/* Old results from a table: product, mean, and se, or sd with n, each but the
 * mean may be left out. Strings are owned; free with scw_old_results_free. */
typedef struct scw_old_results {
  scw_old_result *result;
  size_t n;
  scw_table *account; /* without readings */
} scw_old_results;
SCW_API scw_status scw_old_results_read(scw_context *context,
                                        const scw_table_options *options,
                                        scw_source source,
                                        scw_old_results *out);
SCW_API void scw_old_results_free(scw_old_results *results);

#ifdef __cplusplus
}
#endif
#endif
