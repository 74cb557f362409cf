/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The public reports: the account from the table, the format chosen. */
#include "scatterwise/report.h"

#include "context.h"
#include "reports.h"

static const scw_input *input_of_table(const void *source, size_t index) {
  return scw_table_input(source, index);
}

static scwi_inputs inputs_of_table(const scw_table *table) {
  return (scwi_inputs){table ? scw_table_inputs(table) : 0, input_of_table,
                       table};
}

static scw_status unknown_format(scw_context *context) {
  return scwi_fail(context, SCW_BAD_ARGUMENT,
                   "unknown report format: choose text, JSON or CSV");
}

scw_status scw_report_readings(scw_context *context,
                               const scw_readings_result *result,
                               const scw_table *table,
                               scw_report_options options, scw_sink sink) {
  scwi_inputs inputs = inputs_of_table(table);
  switch (options.format) {
    case SCW_TEXT:
      return scwi_text_readings(context, result, &inputs, options, sink);
    case SCW_JSON:
      return scwi_json_readings(context, result, &inputs, sink);
    case SCW_CSV:
      return scwi_csv_readings(context, result, sink);
    default:
      return unknown_format(context);
  }
}

scw_status scw_report_brief(scw_context *context,
                            const scw_brief_result *result,
                            scw_report_options options, scw_sink sink) {
  scwi_inputs inputs = scwi_inputs_of_one(&result->input);
  switch (options.format) {
    case SCW_TEXT:
      return scwi_text_brief(context, result, &inputs, options, sink);
    case SCW_JSON:
      return scwi_json_brief(context, result, &inputs, sink);
    case SCW_CSV:
      return scwi_csv_brief(context, result, sink);
    default:
      return unknown_format(context);
  }
}

scw_status scw_report_change(scw_context *context,
                             const scw_change_result *result,
                             const scw_table *table, scw_report_options options,
                             scw_sink sink) {
  scwi_inputs inputs = inputs_of_table(table);
  switch (options.format) {
    case SCW_TEXT:
      return scwi_text_change(context, result, &inputs, options, sink);
    case SCW_JSON:
      return scwi_json_change(context, result, &inputs, sink);
    case SCW_CSV:
      return scwi_csv_change(context, result, sink);
    default:
      return unknown_format(context);
  }
}

scw_status scw_report_plan(scw_context *context, const scw_plan_result *result,
                           const scw_table *table, scw_report_options options,
                           scw_sink sink) {
  scwi_inputs inputs = inputs_of_table(table);
  switch (options.format) {
    case SCW_TEXT:
      return scwi_text_plan(context, result, &inputs, options, sink);
    case SCW_JSON:
      return scwi_json_plan(context, result, &inputs, sink);
    case SCW_CSV:
      return scwi_csv_plan(context, result, sink);
    default:
      return unknown_format(context);
  }
}

scw_status scw_report_panel(scw_context *context,
                            const scw_panel_result *result,
                            const scw_table *table, scw_report_options options,
                            scw_sink sink) {
  scwi_inputs inputs = inputs_of_table(table);
  switch (options.format) {
    case SCW_TEXT:
      return scwi_text_panel(context, result, &inputs, options, sink);
    case SCW_JSON:
      return scwi_json_panel(context, result, &inputs, sink);
    case SCW_CSV:
      return scwi_csv_panel(context, result, sink);
    default:
      return unknown_format(context);
  }
}

/* A bench file, and the tables that it names. */
typedef struct bench_tables {
  const scw_input *bench;
  const scw_table *const *table;
} bench_tables;

static const scw_input *input_of_bench(const void *source, size_t index) {
  const bench_tables *from = source;
  if (index) return scw_table_input(from->table[index - 1], 0);
  return from->bench->name ? from->bench : NULL; /* null: made by a host */
}

scw_status scw_report_budget(scw_context *context,
                             const scw_bench_budget *result,
                             const scw_table *const *tables, size_t n_tables,
                             scw_report_options options, scw_sink sink) {
  const bench_tables from = {&result->bench, tables};
  const scwi_inputs inputs = {1 + n_tables, input_of_bench, &from};
  switch (options.format) {
    case SCW_TEXT:
      return scwi_text_budget(context, result, &inputs, options, sink);
    case SCW_JSON:
      return scwi_json_budget(context, result, &inputs, sink);
    case SCW_CSV:
      return scwi_csv_budget(context, result, sink);
    default:
      return unknown_format(context);
  }
}

/* An empty table of old results beside that of the readings. */
static const scw_input *input_of_bridge(const void *source, size_t index) {
  const scw_table *const *tables = source;
  size_t first = tables[0] ? scw_table_inputs(tables[0]) : 0;
  return index < first ? scw_table_input(tables[0], index)
                       : scw_table_input(tables[1], index - first);
}

scw_status scw_report_bridge(scw_context *context,
                             const scw_bridge_result *result,
                             const scw_table *table, const scw_table *old,
                             scw_report_options options, scw_sink sink) {
  const scw_table *const tables[] = {table, old};
  scwi_inputs inputs = {(table ? scw_table_inputs(table) : 0) +
                            (old ? scw_table_inputs(old) : 0),
                        input_of_bridge, tables};
  switch (options.format) {
    case SCW_TEXT:
      return scwi_text_bridge(context, result, &inputs, options, sink);
    case SCW_JSON:
      return scwi_json_bridge(context, result, &inputs, sink);
    case SCW_CSV:
      return scwi_csv_bridge(context, result, sink);
    default:
      return unknown_format(context);
  }
}

scw_status scw_report_compare(scw_context *context,
                              const scw_compare_result *result,
                              const scw_table *table,
                              scw_report_options options, scw_sink sink) {
  scwi_inputs inputs = inputs_of_table(table);
  switch (options.format) {
    case SCW_TEXT:
      return scwi_text_compare(context, result, &inputs, options, sink);
    case SCW_JSON:
      return scwi_json_compare(context, result, &inputs, sink);
    case SCW_CSV:
      return scwi_csv_compare(context, result, sink);
    default:
      return unknown_format(context);
  }
}

/* The tables of readings, then that of looks. */
typedef struct score_inputs {
  const scw_score_table *tables;
  size_t n;
  const scw_table *looks;
} score_inputs;

static const scw_input *input_of_score(const void *source, size_t index) {
  const score_inputs *from = source;
  return scw_table_input(
      index < from->n ? from->tables[index].table : from->looks, 0);
}

scw_status scw_report_score(scw_context *context,
                            const scw_score_result *result,
                            const scw_score_table *tables, size_t n_tables,
                            const scw_table *looks, scw_report_options options,
                            scw_sink sink) {
  const score_inputs from = {tables, n_tables, looks};
  const scwi_inputs inputs = {n_tables + (looks ? 1 : 0), input_of_score,
                              &from};
  switch (options.format) {
    case SCW_TEXT:
      return scwi_text_score(context, result, &inputs, options, sink);
    case SCW_JSON:
      return scwi_json_score(context, result, &inputs, sink);
    case SCW_CSV:
      return scwi_csv_score(context, result, sink);
    default:
      return unknown_format(context);
  }
}

/* The archive, then the files of raw readings. */
typedef struct audit_inputs {
  const scw_input *archive;
  const scw_table *readings;
} audit_inputs;

static const scw_input *input_of_audit(const void *source, size_t index) {
  const audit_inputs *from = source;
  if (from->archive && index-- == 0) return from->archive;
  return scw_table_input(from->readings, index);
}

scw_status scw_report_audit(scw_context *context, const scw_audit *audit,
                            const scw_table *table, bool all,
                            scw_report_options options, scw_sink sink) {
  const audit_inputs from = {scw_audit_input(audit), table};
  const scwi_inputs inputs = {
      (from.archive ? 1 : 0) + (table ? scw_table_inputs(table) : 0),
      input_of_audit, &from};
  switch (options.format) {
    case SCW_TEXT:
      return scwi_text_audit(context, audit, &inputs, all, options, sink);
    case SCW_JSON:
      return scwi_json_audit(context, audit, &inputs, sink);
    case SCW_CSV:
      return scwi_csv_audit(context, audit, sink);
    default:
      return unknown_format(context);
  }
}

scw_status scw_report_drift(scw_context *context,
                            const scw_drift_result *result,
                            const scw_drift_inputs *for_budget,
                            const scw_table *table, scw_report_options options,
                            scw_sink sink) {
  scwi_inputs inputs = inputs_of_table(table);
  switch (options.format) {
    case SCW_TEXT:
      return scwi_text_drift(context, result, for_budget, &inputs, options,
                             sink);
    case SCW_JSON:
      return scwi_json_drift(context, result, for_budget, &inputs, sink);
    case SCW_CSV:
      return scwi_csv_drift(context, result, sink);
    default:
      return unknown_format(context);
  }
}
