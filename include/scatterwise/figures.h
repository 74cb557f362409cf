/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures: numbers that may not exist, and then say why. Every result is
 * built from these. One definition each: docs/methods. */
#ifndef SCATTERWISE_FIGURES_H
#define SCATTERWISE_FIGURES_H

#include <stdbool.h>
#include <stddef.h>

#include "scatterwise/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Whether a figure exists, or the code of the reason why not. A zeroed figure
 * is "not computed". The first text is the code used in JSON's `missing`
 * objects; the second is the word for people. */
#define SCW_PRESENCE_LIST(X)                                                   \
  X(SCW_NOT_COMPUTED, "not_computed", "not computed")                          \
  X(SCW_PRESENT, "present", "present")                                         \
  X(SCW_ONE_READING, "one_reading", "one reading has no scatter")              \
  X(SCW_TWO_READINGS, "two_readings", "needs three readings")                  \
  X(SCW_TOO_FEW, "too_few", "too few readings")                                \
  X(SCW_TOO_MANY, "too_many", "too many readings for this method")             \
  X(SCW_NO_SCATTER, "no_scatter", "the readings are all the same")             \
  X(SCW_MAD_ZERO, "mad_zero", "half of the readings are the same")             \
  X(SCW_UNBOUNDED, "unbounded", "has no limit")                                \
  X(SCW_STEP_UNKNOWN, "step_unknown", "the display step is not known")         \
  X(SCW_LEVEL_UNREACHABLE, "level_unreachable",                                \
    "so few readings cannot reach this level")                                 \
  X(SCW_TOO_FINE, "too_fine", "too finely resolved to be counted exactly")     \
  X(SCW_ONE_SPOT, "one_spot", "one spot says nothing about the panel")         \
  X(SCW_ZERO_CHANGE, "zero_change", "the change found is zero")                \
  X(SCW_NO_MARGIN, "no_margin", "no margin was given")                         \
  X(SCW_NEVER, "never", "no number of readings would")                         \
  X(SCW_OUT_OF_RANGE, "out_of_range", "beyond what a double can hold")         \
  X(SCW_NOT_AT_THIS_LEVEL, "not_at_this_level",                                \
    "not worked out at this level or content")                                 \
  X(SCW_SETTLED, "settled", "nothing is left to settle")                       \
  X(SCW_WITHIN_STEP, "within_step",                                            \
    "the change is no larger than the display steps")                        \
  X(SCW_BARE_NUMBER, "bare_number",                                            \
    "a number without its scatter decides")                                    \
  X(SCW_NO_POSITIONS, "no_positions", "no spot has a position")                \
  X(SCW_ON_ONE_LINE, "on_one_line",                                            \
    "the spots lie on one line, which tells no slope across it")               \
  X(SCW_NO_DEPENDENCE, "no_dependence",                                        \
    "neighbours do not resemble each other more than others")                  \
  X(SCW_FLAT, "flat", "these spots cannot tell")                               \
  X(SCW_ONE_OF_IT, "one_of_it", "there is only one of it")                     \
  X(SCW_NOT_TOLD_APART, "not_told_apart",                                      \
    "not told apart from the level beside it")                                 \
  X(SCW_AT_ZERO, "at_zero", "a component of scatter is at zero")               \
  X(SCW_ZERO_BEFORE, "zero_before", "the mean before is zero")                 \
  X(SCW_NOT_POSITIVE, "not_positive", "needs a ratio above zero")              \
  X(SCW_EMPTY_CELLS, "empty_cells", "some combinations were not read")    \
  X(SCW_PAIRS_CANCEL, "pairs_cancel",                                          \
    "pairs take the panel's scatter out, a bank holds all of it")              \
  X(SCW_PANELS_DIFFER, "panels_differ",                                        \
    "the scatter between panels is not in a bank")                             \
  X(SCW_VIEWS_DIFFER, "views_differ",                                          \
    "the readings' own scatter and the bank's disagree")                       \
  X(SCW_NO_ASSIGNED_VALUE, "no_assigned_value",                                \
    "no assigned value was given")                       \
  X(SCW_NO_MEAN, "no_mean",                                                    \
    "so few readings, or one to divide by, leave no mean")                     \
  X(SCW_NO_SD, "no_sd", "so few readings, or one to divide by, leave no SD")   \
  X(SCW_NO_VALUE, "no_value", "the model has no value at some trials")         \
  X(SCW_EXTRAPOLATED, "extrapolated",                                          \
    "lies beyond the items run on both methods")                               \
  X(SCW_INSTRUMENTS, "instruments",                                            \
    "the instruments' own uncertainty decides")

typedef enum scw_presence {
#define SCW_PRESENCE_ENUM(code, key, text) code,
  SCW_PRESENCE_LIST(SCW_PRESENCE_ENUM)
#undef SCW_PRESENCE_ENUM
      SCW_PRESENCE_END
} scw_presence;

/* The JSON code and the words for a presence; never null. */
SCW_API const char *scw_presence_code(scw_presence presence);
SCW_API const char *scw_presence_text(scw_presence presence);

/* One figure. `value` is meaningful only when state == SCW_PRESENT. */
typedef struct scw_figure {
  double value;
  scw_presence state;
} scw_figure;

/* An interval, low <= high, meaningful only when state == SCW_PRESENT. */
typedef struct scw_interval {
  double low, high;
  double level; /* coverage probability, 0.95 for 95 % */
  scw_presence state;
} scw_interval;

/* How the display step is known. */
typedef enum scw_step_origin {
  SCW_STEP_UNSET,      /* not looked for */
  SCW_STEP_GIVEN,      /* the caller said it; 0 means continuous values */
  SCW_STEP_INFERRED,   /* from all readings of the quantity in the file */
  SCW_STEP_ASSUMED,    /* the printed digit: too few readings to infer it */
  SCW_STEP_NOT_KNOWN   /* whole numbers ending in 0, too few different ones */
} scw_step_origin;

/* The display step q of an instrument, in the unit of the readings. */
typedef struct scw_step {
  double size; /* 0 when continuous or not known */
  scw_step_origin origin;
} scw_step;

#ifdef __cplusplus
}
#endif
#endif
