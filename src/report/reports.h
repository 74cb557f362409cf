/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The reports, by format. `inputs` may be empty. */
#ifndef SCWI_REPORTS_H
#define SCWI_REPORTS_H

#include "inputs.h"
#include "scatterwise/report.h"

scw_status scwi_text_readings(scw_context *context,
                              const scw_readings_result *result,
                              const scwi_inputs *inputs,
                              scw_report_options options, scw_sink sink);
scw_status scwi_text_brief(scw_context *context, const scw_brief_result *result,
                           const scwi_inputs *inputs,
                           scw_report_options options, scw_sink sink);
scw_status scwi_text_change(scw_context *context,
                            const scw_change_result *result,
                            const scwi_inputs *inputs,
                            scw_report_options options, scw_sink sink);
scw_status scwi_text_plan(scw_context *context, const scw_plan_result *result,
                          const scwi_inputs *inputs, scw_report_options options,
                          scw_sink sink);

scw_status scwi_json_readings(scw_context *context,
                              const scw_readings_result *result,
                              const scwi_inputs *inputs, scw_sink sink);
scw_status scwi_json_brief(scw_context *context, const scw_brief_result *result,
                           const scwi_inputs *inputs, scw_sink sink);
scw_status scwi_json_change(scw_context *context,
                            const scw_change_result *result,
                            const scwi_inputs *inputs, scw_sink sink);
scw_status scwi_json_plan(scw_context *context, const scw_plan_result *result,
                          const scwi_inputs *inputs, scw_sink sink);

scw_status scwi_csv_readings(scw_context *context,
                             const scw_readings_result *result, scw_sink sink);
scw_status scwi_csv_brief(scw_context *context, const scw_brief_result *result,
                          scw_sink sink);
scw_status scwi_csv_change(scw_context *context,
                           const scw_change_result *result, scw_sink sink);
scw_status scwi_csv_plan(scw_context *context, const scw_plan_result *result,
                         scw_sink sink);

scw_status scwi_text_panel(scw_context *context, const scw_panel_result *result,
                           const scwi_inputs *inputs,
                           scw_report_options options, scw_sink sink);
scw_status scwi_json_panel(scw_context *context, const scw_panel_result *result,
                           const scwi_inputs *inputs, scw_sink sink);
scw_status scwi_csv_panel(scw_context *context, const scw_panel_result *result,
                          scw_sink sink);

scw_status scwi_text_budget(scw_context *context,
                            const scw_bench_budget *result,
                            const scwi_inputs *inputs,
                            scw_report_options options, scw_sink sink);
scw_status scwi_json_budget(scw_context *context,
                            const scw_bench_budget *result,
                            const scwi_inputs *inputs, scw_sink sink);
scw_status scwi_csv_budget(scw_context *context,
                           const scw_bench_budget *result, scw_sink sink);

scw_status scwi_text_bridge(scw_context *context,
                            const scw_bridge_result *result,
                            const scwi_inputs *inputs,
                            scw_report_options options, scw_sink sink);
scw_status scwi_json_bridge(scw_context *context,
                            const scw_bridge_result *result,
                            const scwi_inputs *inputs, scw_sink sink);
scw_status scwi_csv_bridge(scw_context *context,
                           const scw_bridge_result *result, scw_sink sink);

scw_status scwi_text_compare(scw_context *context,
                             const scw_compare_result *result,
                             const scwi_inputs *inputs,
                             scw_report_options options, scw_sink sink);
scw_status scwi_json_compare(scw_context *context,
                             const scw_compare_result *result,
                             const scwi_inputs *inputs, scw_sink sink);
scw_status scwi_csv_compare(scw_context *context,
                            const scw_compare_result *result, scw_sink sink);

scw_status scwi_text_score(scw_context *context, const scw_score_result *result,
                           const scwi_inputs *inputs,
                           scw_report_options options, scw_sink sink);
scw_status scwi_json_score(scw_context *context, const scw_score_result *result,
                           const scwi_inputs *inputs, scw_sink sink);
scw_status scwi_csv_score(scw_context *context, const scw_score_result *result,
                          scw_sink sink);

scw_status scwi_text_audit(scw_context *context, const scw_audit *audit,
                           const scwi_inputs *inputs, bool all,
                           scw_report_options options, scw_sink sink);
scw_status scwi_json_audit(scw_context *context, const scw_audit *audit,
                           const scwi_inputs *inputs, scw_sink sink);
scw_status scwi_csv_audit(scw_context *context, const scw_audit *audit,
                          scw_sink sink);

scw_status scwi_text_drift(scw_context *context, const scw_drift_result *result,
                           const scw_drift_inputs *for_budget,
                           const scwi_inputs *inputs,
                           scw_report_options options, scw_sink sink);
scw_status scwi_json_drift(scw_context *context, const scw_drift_result *result,
                           const scw_drift_inputs *for_budget,
                           const scwi_inputs *inputs, scw_sink sink);
scw_status scwi_csv_drift(scw_context *context, const scw_drift_result *result,
                          scw_sink sink);

#endif
