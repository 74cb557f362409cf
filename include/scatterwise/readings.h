/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 1: what does this reading set say? */
#ifndef SCATTERWISE_READINGS_H
#define SCATTERWISE_READINGS_H

#include "scatterwise/summary.h"
#include "scatterwise/table.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Settings shared by all questions; scw_settings_init gives the defaults of
 * the conventions (0.95, 0.05, 0.80, 0.80, 0.95). */
typedef struct scw_settings {
  double level;          /* of every interval, in (0,1); 0.95 */
  double stand_out;      /* significance of stand-out tests; 0.05 */
  double power;          /* 0.80 */
  double assurance;      /* 0.80 */
  double content;        /* of the tolerance interval; 0.95 */
  size_t candidates;     /* readings the stand-out test may flag; 0: by n */
  scw_step step;         /* SCW_STEP_GIVEN, or SCW_STEP_UNSET: inferred */
  unsigned long long seed; /* of counted permutations; 1 */
  size_t expect;         /* readings a set should hold; 0: not said. A count
                            that differs is named in a note */
} scw_settings;

SCW_API void scw_settings_init(scw_settings *settings);

/* A remark a reader must see: a stable code and a plain sentence. */
typedef struct scw_note {
  const char *code; /* static, e.g. "assumes_one_reading_per_spot" */
  char *text;
} scw_note;

/* A reading left out by the user's own act. */
typedef struct scw_leave_out {
  size_t place;        /* 1-based place in the set, as flags name it */
  const char *set;     /* set label; null when there is only one set */
  const char *because; /* the reason, echoed everywhere; required */
} scw_leave_out;

typedef struct scw_set_report {
  char *label;
  char *unit;
  char *sentence;         /* the answer, fit to publish */
  size_t readings;        /* used readings, repeats counted */
  size_t spots;           /* spots that carry them; 0: no spot column */
  scw_summary summary;    /* over spots (spot means) where there are spots,
                             else over readings */
  double *values;         /* the summary.n values in reading order */
  size_t *lines;          /* their lines in the file (first repeat) */
  size_t *places;         /* their 1-based places in the whole set, which
                             differ from 1, 2, 3 ... after a leave-out; a
                             flag's place p means values[p-1], places[p-1] */
  size_t n_left_out;
  scw_leave_out *left_out; /* strings owned */
  /* The same without the flagged readings; n = 0 when nothing is flagged. */
  scw_summary without_flagged;
  scw_note *notes;
  size_t n_notes;
} scw_set_report;

typedef struct scw_readings_result {
  scw_settings settings;
  scw_set_report *sets;
  size_t n_sets;
  scw_note *notes;        /* of the whole run */
  size_t n_notes;
} scw_readings_result;

/* Sums up every set of the table, in the order the sets first appear. A set
 * is a distinct combination of set, product, panel, session and side labels.
 * Errors: SCW_BAD_ARGUMENT for a setting out of range or a leave-out that
 * names no reading; SCW_BAD_INPUT for a table without readings or with mixed
 * geometries. On failure *out is empty. Free with
 * scw_readings_result_free. */
SCW_API scw_status scw_readings(scw_context *context, const scw_table *table,
                                const scw_settings *settings,
                                const scw_leave_out *leave_out,
                                size_t n_leave_out, scw_readings_result *out);
SCW_API void scw_readings_result_free(scw_readings_result *result);

/* --brief: n, mean, SD and interval of each set from running sums, without a
 * table. Sets appear in the order they are first seen. */
typedef struct scw_brief_set {
  const char *label;   /* borrowed from the result */
  size_t n;
  scw_figure mean, sd;
  scw_interval interval;
} scw_brief_set;

typedef struct scw_brief_result {
  scw_brief_set *sets;
  size_t n_sets;
  scw_step step;       /* used in the intervals */
  scw_input input;     /* the account; strings owned by the result */
  void *memory;        /* owns the labels and strings */
} scw_brief_result;

/* Reads `source` to its end, keeping running sums only. The same digits as
 * scw_readings gives, in memory proportional to the number of sets. */
SCW_API scw_status scw_readings_brief(scw_context *context,
                                      const scw_table_options *options,
                                      const scw_settings *settings,
                                      scw_source source, scw_brief_result *out);
SCW_API void scw_brief_result_free(scw_brief_result *result);

#ifdef __cplusplus
}
#endif
#endif
