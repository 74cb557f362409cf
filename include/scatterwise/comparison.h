/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The figures of one comparison: estimate, verdict, what would settle it, and
 * other views of the same change. */
#ifndef SCATTERWISE_COMPARISON_H
#define SCATTERWISE_COMPARISON_H

#include "scatterwise/figures.h"

#ifdef __cplusplus
extern "C" {
#endif

#define SCW_VERDICT_LIST(X)                                                    \
  X(SCW_CANNOT_TELL, "cannot_tell")                                            \
  X(SCW_CHANGED, "changed")                                                    \
  X(SCW_CHANGED_SIZE_UNCLEAR, "changed_size_unclear")                          \
  X(SCW_CHANGED_BUT_SMALL, "changed_but_small")                                \
  X(SCW_NO_CHANGE_BEYOND_MARGIN, "no_change_beyond_margin")                    \
  X(SCW_CONDITIONAL, "conditional")                                            \
  X(SCW_NO_VERDICT, "no_verdict") /* one spot, or no interval */

typedef enum scw_verdict {
#define SCW_VERDICT_ENUM(code, text) code,
  SCW_VERDICT_LIST(SCW_VERDICT_ENUM)
#undef SCW_VERDICT_ENUM
      SCW_VERDICT_END
} scw_verdict;

SCW_API const char *scw_verdict_code(scw_verdict verdict);

/* An estimate with its t interval. */
typedef struct scw_estimate {
  scw_figure estimate, standard_uncertainty, df, p;
  scw_interval interval;
} scw_estimate;

/* How many readings would settle it, were the change and scatter those found.
 * more/total count readings per side, or spots when paired. */
typedef struct scw_settle {
  scw_figure total, more; /* state says why not */
  bool per_spot;
  double chance;          /* the power asked for */
} scw_settle;

/* How often chance alone, shuffling readings between the sides (or signs of
 * spot-wise differences), gives a change at least as large as the one found:
 * exact, ties and all. SCW_TOO_FINE where that cannot be counted. */
typedef struct scw_permutation {
  scw_figure p;
  scw_figure smallest_p;        /* these readings could have given */
  scw_figure smallest_p_design; /* so many readings could give without ties */
} scw_permutation;

/* Median of all differences between the sides (paired: of all means of two
 * differences), with the interval that the exact rank distribution gives. */
typedef struct scw_hodges_lehmann {
  scw_figure estimate;
  scw_interval interval; /* SCW_LEVEL_UNREACHABLE for too few readings */
  scw_figure coverage;   /* of that interval, exact without ties; >= level */
} scw_hodges_lehmann;

/* SD after over SD before, with its F interval. */
typedef struct scw_sd_ratio {
  scw_figure ratio;
  scw_interval interval;
} scw_sd_ratio;

/* Two one-sided tests: is the change smaller than the margin? Inside the
 * margin when p < level = (1 - interval level)/2, which is to say when the
 * interval lies wholly inside it. */
typedef struct scw_tost {
  scw_figure p;
  double level;
} scw_tost;

/* An F test of several means: does any of them differ? */
typedef struct scw_f_test {
  scw_figure f, df_between, df_within, p;
} scw_f_test;

/* Against a single number whose own uncertainty nobody knows. */
typedef struct scw_against_number {
  scw_estimate if_exact;         /* the change, were the number exact */
  scw_figure break_even_u;       /* standard uncertainty of the number up to
                                    which the change stands */
  scw_verdict verdict;           /* SCW_CONDITIONAL or SCW_CANNOT_TELL */
} scw_against_number;

/* Where the ratio of two means can lie. The text is the JSON code. */
#define SCW_RATIO_SET_LIST(X)                                                  \
  X(SCW_RATIO_BETWEEN, "interval") /* from low to high */                      \
  X(SCW_RATIO_OUTSIDE, "outside")  /* up to low, or from high on: the mean     \
                                      before may be zero */                    \
  X(SCW_RATIO_EVERYTHING, "everything")

typedef enum scw_ratio_set {
#define SCW_RATIO_SET_ENUM(code, text) code,
  SCW_RATIO_SET_LIST(SCW_RATIO_SET_ENUM)
#undef SCW_RATIO_SET_ENUM
      SCW_RATIO_SET_END
} scw_ratio_set;

SCW_API const char *scw_ratio_set_code(scw_ratio_set set);

/* The ratio of two means, after over before (Fieller; docs/methods). */
typedef struct scw_ratio {
  scw_figure estimate, standard_uncertainty, df; /* first order */
  scw_presence state;    /* of the set: SCW_PRESENT, or why there is none */
  scw_ratio_set set;
  scw_figure low, high;  /* SCW_UNBOUNDED: no end on that side */
  scw_interval delta;    /* on the log scale; SCW_NOT_POSITIVE for a ratio
                            that is not above zero */
} scw_ratio;

#ifdef __cplusplus
}
#endif
#endif
