/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Uncertainty budgets: what is known of the inputs, and the table that comes
 * of it (JCGM 100). One definition each: docs/methods/budgets.md. */
#ifndef SCATTERWISE_BUDGET_H
#define SCATTERWISE_BUDGET_H

#include "scatterwise/figures.h"

#ifdef __cplusplus
extern "C" {
#endif

/* How an input is known. The first text is the word of the bench file and of
 * JSON, the second is for people. */
#define SCW_BUDGET_KIND_LIST(X)                                                \
  X(SCW_KIND_READINGS, "readings", "readings")                                 \
  X(SCW_KIND_NORMAL, "normal", "normal")                                       \
  X(SCW_KIND_T, "t", "t")                                                      \
  X(SCW_KIND_RECTANGULAR, "rectangular", "rectangular")                        \
  X(SCW_KIND_TRIANGULAR, "triangular", "triangular")                           \
  X(SCW_KIND_TRAPEZOIDAL, "trapezoidal", "trapezoidal")                        \
  X(SCW_KIND_UNCERTAIN_LIMITS, "uncertain_limits",                             \
    "rectangular, limits uncertain")                                           \
  X(SCW_KIND_ARCSINE, "arcsine", "arcsine")                                    \
  X(SCW_KIND_CERTIFICATE, "certificate", "certificate")                        \
  X(SCW_KIND_EXACT, "exact", "exact")

typedef enum scw_budget_kind {
#define SCW_BUDGET_KIND_ENUM(code, key, text) code,
  SCW_BUDGET_KIND_LIST(SCW_BUDGET_KIND_ENUM)
#undef SCW_BUDGET_KIND_ENUM
      SCW_KIND_END
} scw_budget_kind;

/* The word and the text of a kind; never null. */
SCW_API const char *scw_budget_kind_code(scw_budget_kind kind);
SCW_API const char *scw_budget_kind_text(scw_budget_kind kind);

/* What is known of one input. A zeroed field was not given. Widths and
 * uncertainties are in the unit of the value, or with `relative` parts of the
 * value (0.01 is 1 %). */
typedef struct scw_budget_given {
  const char *name;
  scw_budget_kind kind;
  bool relative;
  double value;        /* the estimate: mean, middle, certified value */
  size_t n;            /* readings: how many, from 2 on */
  double sd;           /* readings: their SD */
  scw_step step;       /* readings: display step */
  double uncertainty;  /* normal, t: the standard uncertainty; for t that is
                          s/sqrt(n), the scale of the t distribution */
  double df;           /* t (needed), certificate: degrees of freedom, 0.5 or
                          more; 0 for none given, which is infinite */
  double half_width;   /* rectangular and the like: half from limit to limit */
  double top;          /* trapezoidal: width of the top over that of the base,
                          0 (triangular) to 1 (rectangular) */
  double limit_half_width; /* uncertain_limits: each limit is known to within
                          -+ this; less than half_width */
  double expanded;     /* certificate: U */
  double k;            /* certificate: U = k u; or else */
  double level;        /* certificate: the level U was stated for, by t with
                          df; not used where k is given */
  double unreliability; /* the uncertainty of the uncertainty itself, as a part
                          of it (0.25: good to 25 %); df = 1/(2 r^2), JCGM 100
                          G.4.2. Not for readings and t */
} scw_budget_given;

/* One row of a budget. */
typedef struct scw_budget_line {
  const char *name;
  scw_budget_kind kind;
  double estimate, standard_uncertainty;
  scw_figure df;       /* SCW_UNBOUNDED when infinite */
  double sensitivity;  /* slope of the result by this input, at the estimates */
  double contribution; /* |sensitivity| * standard_uncertainty */
  scw_figure share;    /* of the variance; with correlations it can be below 0.
                          The shares add up to 1 */
  scw_figure if_perfect; /* the result's standard uncertainty were this input
                          known exactly and the others unchanged */
  size_t group;        /* 0, or the number of the group of correlated inputs
                          it belongs to */
} scw_budget_line;

/* What the curvature of the model adds (JCGM 100 5.1.2, note, extended to
 * correlated inputs). */
typedef struct scw_second_order {
  double variance;     /* added to the variance; can be below 0 */
  scw_figure part;     /* |variance| over the first-order variance */
  bool matters;        /* part above 0.05, or there is no first-order term */
  scw_figure standard_uncertainty; /* with both orders */
  double shift;        /* of the mean of the result against its estimate */
} scw_second_order;

/* How the degrees of freedom of the result came about. */
typedef enum scw_budget_df {
  SCW_DF_INDEPENDENT, /* Welch-Satterthwaite, JCGM 100 G.4.1 */
  SCW_DF_GROUPS,      /* correlated inputs taken together as one term, which
                         has the df they share */
  SCW_DF_CAUTIOUS     /* the same, where the df within a group differ: the
                         smallest of them */
} scw_budget_df;

/* The budget of one quantity. */
typedef struct scw_budget {
  double estimate;
  scw_budget_line *lines; /* one for each input */
  size_t n_lines;
  scw_figure standard_uncertainty; /* combined, first order; SCW_NO_SCATTER
                         when no input is uncertain */
  scw_figure df;       /* effective; SCW_UNBOUNDED when infinite */
  scw_budget_df df_from;
  scw_figure k;        /* t((1+level)/2, df) */
  scw_figure expanded; /* k * standard_uncertainty */
  scw_interval interval; /* estimate -+ expanded */
  scw_second_order second_order;
  size_t most_help;    /* line whose perfection would help most; n_lines when
                          none would */
} scw_budget;

/* Conformance with a limit or two (JCGM 106). */
typedef struct scw_conformance {
  double low, high;    /* limits; -INFINITY or INFINITY where there is none */
  double wanted;       /* probability of conformance wanted, such as 0.95 */
  scw_figure probability; /* that the quantity lies within the limits: normal,
                          or t where the result has df */
  scw_figure accept_low, accept_high; /* an estimate between these conforms
                          with the probability wanted; SCW_UNBOUNDED where
                          there is no limit on that side,
                          SCW_LEVEL_UNREACHABLE where none does */
  scw_figure guard;    /* distance of acceptance from the limit */
} scw_conformance;

#ifdef __cplusplus
}
#endif
#endif
