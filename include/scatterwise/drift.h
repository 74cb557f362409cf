/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 6, first half: is the meter, the tile or the retained panel moving?
 * A dated log of readings on a check standard. The day is the unit: repeats of
 * one day sharpen its mean and carry no degrees of freedom. */
#ifndef SCATTERWISE_DRIFT_H
#define SCATTERWISE_DRIFT_H

#include "scatterwise/bench.h"
#include "scatterwise/comparison.h"
#include "scatterwise/readings.h"

#ifdef __cplusplus
extern "C" {
#endif

/* A day of the calendar. */
enum { SCW_DATE_SIZE = 11 };
typedef struct scw_date {
  long day;                 /* from 1970-01-01, which is 0 */
  char text[SCW_DATE_SIZE]; /* "2026-03-14"; "" where there is no date */
} scw_date;

/* Reads a date: 2026-03-14, 2026/03/14, or 14 March 2026 (English names, three
 * letters or whole); a time behind it is checked and not used. SCW_BAD_INPUT
 * says what is wrong with it, also for 03/04/2026, which could be two dates. */
SCW_API scw_status scw_date_read(scw_context *context, const char *text,
                                 scw_date *out);

/* What is known beside the log. Zero-initialise for nothing. */
typedef struct scw_drift_options {
  scw_figure assigned;      /* certified value of the standard; state
                               SCW_NOT_COMPUTED where none is given */
  double assigned_u;        /* its uncertainty as stated; 0: taken as exact */
  double assigned_k;        /* the k it was stated with; 0 counts as 1 */
  double limit;             /* permitted deviation of a day from the assigned
                               value, the user's own; 0: none */
  double margin;            /* smallest movement that matters; 0: none */
  const char *const *recalibrated; /* dates; of all logs of the table */
  size_t n_recalibrated;
} scw_drift_options;

/* What a stretch of days begins with. */
#define SCW_DRIFT_START_LIST(X)                                                \
  X(SCW_DRIFT_FIRST, "first_day")                                              \
  X(SCW_DRIFT_RECALIBRATED, "recalibration")                                   \
  X(SCW_DRIFT_STEP, "step")                                                    \
  X(SCW_DRIFT_SLOPE, "slope") /* of a fence: a line left the margin here */

typedef enum scw_drift_start {
#define SCW_DRIFT_START_ENUM(code, text) code,
  SCW_DRIFT_START_LIST(SCW_DRIFT_START_ENUM)
#undef SCW_DRIFT_START_ENUM
      SCW_DRIFT_START_END
} scw_drift_start;

SCW_API const char *scw_drift_start_code(scw_drift_start start);

typedef struct scw_drift_day {
  scw_date date;
  size_t readings;
  size_t line;              /* of its first reading */
  double mean;
  scw_figure sd;            /* within the day */
  size_t segment;           /* from 0: a recalibration begins a new one */
  /* Charts start anew with each stretch; missing where it is too short. */
  scw_figure average;       /* weighted moving average after this day */
  scw_interval average_limits;
  scw_figure sum_up, sum_down; /* cumulative sums in SD, 0 or more */
  bool beyond_limits, beyond_average, beyond_sum; /* of the charts */
  bool beyond_permitted;    /* further from the assigned value than `limit` */
} scw_drift_day;

/* Neighbouring days without a step or recalibration between them. */
typedef struct scw_drift_stretch {
  size_t first, days;       /* into the days */
  size_t readings;
  scw_drift_start start;
  scw_estimate mean;        /* over days */
} scw_drift_stretch;

/* A step from one stretch to the next. */
typedef struct scw_drift_shift {
  scw_date date;            /* first day at the new level */
  scw_date before;          /* last day at the old one: it fell in between */
  scw_estimate size;        /* later mean minus earlier; p is the permutation
                               p of the split */
  bool counted;             /* p from random orders of the seed in settings */
  bool within_margin;       /* its interval is wholly inside the margin */
} scw_drift_shift;

/* Average number of days to the first signal of a chart with known limits. */
typedef struct scw_run_length {
  scw_figure nothing;       /* while nothing moves: a false alarm */
  scw_figure one_sd;        /* from a shift by one SD of a day on */
} scw_run_length;

/* The charts of the newest stretch, about its mean. */
typedef struct scw_drift_charts {
  size_t ranges;            /* moving ranges from one day to the next */
  scw_figure day_sd;        /* short-term SD of a day's mean: mean moving range
                               over 2/sqrt(pi) */
  scw_figure repeat_sd, repeat_df; /* within days, pooled over the whole log */
  scw_figure centre;
  scw_interval limits;      /* centre -+ 3 day_sd; level 0.9973 */
  double average_weight, average_width; /* 0.2, 3 */
  double sum_reference, sum_decision;   /* 0.5, 5: in SD of a day */
  scw_run_length limits_run, average_run, sum_run;
} scw_drift_charts;

/* One instrument on one standard. */
typedef struct scw_drift_log {
  char *label;              /* what tells it from the other logs; the input's
                               name where there is one only */
  char *instrument, *standard; /* "" where not named */
  char *sentence;           /* the answer, dated, fit to publish */
  size_t readings;
  scw_drift_day *day;       /* by date */
  size_t n_days;
  scw_drift_stretch *stretch;
  size_t n_stretches;
  scw_drift_shift *shift;   /* significant ones, oldest first */
  size_t n_shifts;
  /* Of the newest stretch, which is what holds today. */
  scw_estimate bias;        /* mean less assigned value */
  scw_estimate slope;       /* per month of 30.4375 days */
  scw_figure sd_about_line;
  scw_verdict slope_verdict; /* of the movement over the stretch against the
                                margin */
  scw_date fence;           /* results from before this day are not comparable
                               with today's (recalibrated, or further away than
                               the margin); text "" where there is none */
  scw_drift_start fence_from;
  scw_drift_charts charts;
  scw_figure longest_gap;   /* days between neighbours of the newest stretch */
  scw_figure drift_half_width; /* what the slope's interval allows over that
                                  gap */
  scw_note *notes;
  size_t n_notes;
} scw_drift_log;

/* Two instruments on one standard: differences of their means on shared days,
 * `one` less `other`, since the newer of their fences. */
typedef struct scw_drift_pair {
  size_t one, other;        /* logs */
  size_t days;
  scw_estimate difference;
} scw_drift_pair;

typedef struct scw_drift_result {
  scw_settings settings;
  scw_figure assigned, assigned_u; /* as a standard uncertainty */
  double limit, margin;
  char *unit, *quantity, *geometry; /* never null */
  scw_step step;
  char *sentence;           /* of the only log, or of several */
  scw_drift_log *log;
  size_t n_logs;
  scw_drift_pair *pair;
  size_t n_pairs;
  scw_note *notes;
  size_t n_notes;
} scw_drift_result;

/* Looks at every log of the table, in the order they first appear. The table
 * must have been read with scw_table_options.log. SCW_BAD_INPUT names line and
 * date: no date column, a reading without a date, a date that is none or could
 * be two, two units or geometries; SCW_BAD_ARGUMENT for an option that cannot
 * be used. Free with scw_drift_result_free. */
SCW_API scw_status scw_drift(scw_context *context, const scw_table *table,
                             const scw_settings *settings,
                             const scw_drift_options *options,
                             scw_drift_result *out);
SCW_API void scw_drift_result_free(scw_drift_result *result);

/* The two inputs a budget takes from a log: `<name>_bias` (t, with its df) and
 * `<name>_drift` (rectangular about 0). `given[0..*n)` are filled, texts
 * borrowed from `names`; *n is 0 where the log has neither. */
enum { SCW_DRIFT_NAME = 72 };
typedef struct scw_drift_inputs {
  char bias_name[SCW_DRIFT_NAME], drift_name[SCW_DRIFT_NAME];
  scw_budget_given given[2];
  const char *about[2];     /* static */
  scw_shared shared[2];     /* the bias is the same on both sides of a change
                               within a stretch; what drifts is not */
  size_t n;
} scw_drift_inputs;

/* SCW_BAD_ARGUMENT for a name that is no name of a model's input. */
SCW_API scw_status scw_drift_inputs_of(scw_context *context,
                                       const scw_drift_log *log,
                                       const char *name,
                                       scw_drift_inputs *out);

#ifdef __cplusplus
}
#endif
#endif
