/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The jobs by their functions, for the list of them in jobs.c. */
#ifndef JOBS_INSIDE_H
#define JOBS_INSIDE_H

#include "jobs.h"

scw_status job_reads_pairs(scw_context *context, job_output *out);
scw_status job_reads_long(scw_context *context, job_output *out);
scw_status job_reads_commas(scw_context *context, job_output *out);
scw_status job_reads_quoted(scw_context *context, job_output *out);
scw_status job_reads_file(scw_context *context, job_output *out);
scw_status job_appends(scw_context *context, job_output *out);
scw_status job_readings_of_pairs(scw_context *context, job_output *out);
scw_status job_readings_of_list(scw_context *context, job_output *out);
scw_status job_readings_left_out(scw_context *context, job_output *out);
scw_status job_readings_degenerate(scw_context *context, job_output *out);
scw_status job_brief(scw_context *context, job_output *out);
scw_status job_brief_long(scw_context *context, job_output *out);
scw_status job_change_paired(scw_context *context, job_output *out);
scw_status job_change_products(scw_context *context, job_output *out);
scw_status job_change_friction(scw_context *context, job_output *out);
scw_status job_panel_grid(scw_context *context, job_output *out);
scw_status job_panel_sets(scw_context *context, job_output *out);
scw_status job_panel_operators(scw_context *context, job_output *out);
scw_status job_plans(scw_context *context, job_output *out);
scw_status job_change_control(scw_context *context, job_output *out);
scw_status job_change_baseline(scw_context *context, job_output *out);
scw_status job_change_from_numbers(scw_context *context, job_output *out);
scw_status job_change_summaries(scw_context *context, job_output *out);
scw_status job_take_change(scw_context *context, job_output *out);
scw_status job_take_spots(scw_context *context, job_output *out);
scw_status job_change_scatter(scw_context *context, job_output *out);
scw_status job_change_instruments(scw_context *context, job_output *out);
scw_status job_budget(scw_context *context, job_output *out);
scw_status job_gloss(scw_context *context, job_output *out);
scw_status job_bench(scw_context *context, job_output *out);
scw_status job_plan_grid(scw_context *context, job_output *out);
scw_status job_plan_split(scw_context *context, job_output *out);
scw_status job_plan_spots(scw_context *context, job_output *out);
scw_status job_layout(scw_context *context, job_output *out);
scw_status job_bridge(scw_context *context, job_output *out);
scw_status job_drift(scw_context *context, job_output *out);
scw_status job_compare(scw_context *context, job_output *out);
scw_status job_score(scw_context *context, job_output *out);
scw_status job_audit(scw_context *context, job_output *out);
scw_status job_audit_raw(scw_context *context, job_output *out);
scw_status job_audit_against(scw_context *context, job_output *out);

#endif
