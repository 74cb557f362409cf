/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reports: results as text for people, JSON or CSV, into a caller's sink.
 * No statistics happen here. */
#ifndef SCATTERWISE_REPORT_H
#define SCATTERWISE_REPORT_H

#include "scatterwise/audit.h"
#include "scatterwise/bench_budget.h"
#include "scatterwise/bridge.h"
#include "scatterwise/change.h"
#include "scatterwise/compare.h"
#include "scatterwise/drift.h"
#include "scatterwise/given.h"
#include "scatterwise/layout.h"
#include "scatterwise/panel.h"
#include "scatterwise/plan.h"
#include "scatterwise/readings.h"
#include "scatterwise/score.h"
#include "scatterwise/take.h"

#ifdef __cplusplus
extern "C" {
#endif

typedef enum scw_format { SCW_TEXT, SCW_JSON, SCW_CSV } scw_format;

typedef struct scw_report_options {
  scw_format format;
  bool ascii;  /* text: no character beyond ASCII */
  bool colour; /* text: colour marks; meaning never depends on it */
} scw_report_options;

/* Each writes one whole report. `table` gives the account of the inputs; null
 * where there was none (plan from numbers). SCW_NOT_WRITTEN when the sink
 * refuses. */
SCW_API scw_status scw_report_readings(scw_context *context,
                                       const scw_readings_result *result,
                                       const scw_table *table,
                                       scw_report_options options,
                                       scw_sink sink);
SCW_API scw_status scw_report_brief(scw_context *context,
                                    const scw_brief_result *result,
                                    scw_report_options options, scw_sink sink);
SCW_API scw_status scw_report_change(scw_context *context,
                                     const scw_change_result *result,
                                     const scw_table *table,
                                     scw_report_options options,
                                     scw_sink sink);
SCW_API scw_status scw_report_plan(scw_context *context,
                                   const scw_plan_result *result,
                                   const scw_table *table,
                                   scw_report_options options, scw_sink sink);
SCW_API scw_status scw_report_panel(scw_context *context,
                                    const scw_panel_result *result,
                                    const scw_table *table,
                                    scw_report_options options, scw_sink sink);
/* `tables` are those read for inputs of the bench. CSV has a row for each
 * input. */
SCW_API scw_status scw_report_budget(scw_context *context,
                                     const scw_bench_budget *result,
                                     const scw_table *const *tables,
                                     size_t n_tables,
                                     scw_report_options options,
                                     scw_sink sink);

/* A bridge; `old` is the account of a table of old results, or null. CSV is one
 * row for each old result converted, one row in all without any. */
SCW_API scw_status scw_report_bridge(scw_context *context,
                                     const scw_bridge_result *result,
                                     const scw_table *table,
                                     const scw_table *old,
                                     scw_report_options options,
                                     scw_sink sink);

/* CSV has a row for each comparison. */
SCW_API scw_status scw_report_compare(scw_context *context,
                                      const scw_compare_result *result,
                                      const scw_table *table,
                                      scw_report_options options,
                                      scw_sink sink);

/* `looks` is the account of a table of looks, or null. CSV has a row for each
 * product. */
SCW_API scw_status scw_report_score(scw_context *context,
                                    const scw_score_result *result,
                                    const scw_score_table *tables,
                                    size_t n_tables, const scw_table *looks,
                                    scw_report_options options, scw_sink sink);

/* An audit, one claim at a time. `table` holds raw readings, or is null. Text
 * cuts long lists unless `all`. CSV is one row for each claim. */
SCW_API scw_status scw_report_audit(scw_context *context,
                                    const scw_audit *audit,
                                    const scw_table *table, bool all,
                                    scw_report_options options, scw_sink sink);

/* `for_budget` are the inputs shown for a bench file; null for none. */
SCW_API scw_status scw_report_drift(scw_context *context,
                                    const scw_drift_result *result,
                                    const scw_drift_inputs *for_budget,
                                    const scw_table *table,
                                    scw_report_options options, scw_sink sink);

/* Live taking: one thing that happened and the state after it. Text leaves out
 * the notes that stood in the state before (null: none); JSON is one object on
 * one line. CSV is not for this. */
typedef enum scw_take_event {
  SCW_TAKEN_READING,
  SCW_TAKEN_AGAIN,
  SCW_TAKEN_UNDO,
  SCW_TAKEN_MARK,
  SCW_TAKEN_RESUMED, /* an earlier run's readings are in */
  SCW_TAKEN_END
} scw_take_event;
SCW_API scw_status scw_report_take(scw_context *context, scw_take_event event,
                                   const scw_take_state *state,
                                   const scw_take_state *before,
                                   scw_report_options options, scw_sink sink);
/* A line that is no reading: what was refused and why, a note, a word of help.
 * `event` is its code in JSON. */
SCW_API scw_status scw_report_take_message(scw_context *context,
                                           const char *event, const char *text,
                                           scw_report_options options,
                                           scw_sink sink);

/* A grid of plans, always as CSV: effect,sd,readings_per_side,spots. */
SCW_API scw_status scw_report_plan_grid(scw_context *context,
                                        const scw_plan_grid_result *result,
                                        scw_sink sink);

/* A spot list; CSV: one row for each spot. With drawn codes for the halves
 * every format tells the key. */
SCW_API scw_status scw_report_layout(scw_context *context,
                                     const scw_layout_result *result,
                                     scw_report_options options,
                                     scw_sink sink);

/* The template to fill in at the bench: CSV, columns in layout.h. */
SCW_API scw_status scw_report_template(scw_context *context,
                                       const scw_layout_result *result,
                                       scw_sink sink);

#ifdef __cplusplus
}
#endif
#endif
