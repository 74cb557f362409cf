/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the user asked for: every option of every command is stored in one
 * field of this struct. Texts are borrowed from the command line. */
#ifndef CLI_REQUEST_H
#define CLI_REQUEST_H

#include "scatterwise/scatterwise.h"

#include "number.h"

/* --leave-out PLACE --because TEXT, as often as wanted. */
typedef struct cli_leave_outs {
  scw_leave_out *items;
  size_t n;
} cli_leave_outs;

/* A side given as MEAN,SD,N. */
typedef struct cli_given {
  scw_given_side side;
  bool given;
} cli_given;

/* The ratio of readings after to before; 0 asks for the best. */
typedef struct cli_ratio {
  double value;
  bool given;
} cli_ratio;

/* A panel's size. */
typedef struct cli_size {
  double width, height;
  const char *unit; /* null: not said */
  bool given;
} cli_size;

typedef struct cli_taking {
  const char *keep, *follow, *spots, *baseline;
  const char *quantity, *product, *panel, *session, *by, *meter;
  bool resume, unpaired, anytime;
  size_t top_up;
  cli_quantity g;
} cli_taking;

typedef struct cli_panel_request {
  bool each;
  const char *bank, *panel_type, *meter, *date;
} cli_panel_request;

typedef struct cli_budget_request {
  const char *quantity;
  bool example, no_trials;
  size_t trials, seed;
  int digits; /* 0: not said */
} cli_budget_request;

/* Options that may come several times; items are freed with the request. */
typedef struct cli_names {
  const char **items;
  size_t n;
} cli_names;

typedef struct cli_fences {
  scw_bridge_fence *items;
  size_t n;
} cli_fences;

typedef struct cli_converts {
  scw_old_result *items;
  size_t n;
  const char *file; /* null: none */
} cli_converts;

typedef struct cli_bridge_request {
  cli_names baseline;
  cli_fences fence;
  cli_converts convert;
  cli_quantity error_ratio;
  bool weighted;
} cli_bridge_request;

typedef struct cli_drift_request {
  cli_quantity assigned, assigned_u, assigned_k, limit;
  cli_names recalibrated;
  const char *into, *name;
} cli_drift_request;

/* The line that puts an old method's values on the new scale. */
typedef struct cli_conversion {
  double offset, factor;
  bool given;
} cli_conversion;

typedef struct cli_audit_request {
  cli_names readings;
  const char *rule, *old_method, *against;
  cli_conversion conversion;
  bool all;
} cli_audit_request;

typedef struct cli_compare_request {
  const char *untreated;
  bool equal_sd, shared_spots, smaller_is_better;
} cli_compare_request;

typedef struct cli_score_request {
  const char *name, *looks;
  size_t trials;
} cli_score_request;

typedef struct cli_request {
  /* everywhere */
  bool help, version, json, csv, plain;
  size_t threads; /* 0: the library's own choice */
  scw_settings settings;
  /* reading the files */
  scw_table_options table;
  cli_quantity step;
  cli_panel_request panel;
  cli_budget_request budget;
  cli_bridge_request bridge;
  cli_drift_request drift;
  cli_audit_request audit;
  cli_score_request score;
  cli_compare_request compare;
  /* readings */
  bool brief;
  cli_leave_outs leave_outs;
  /* change */
  cli_quantity margin, block;
  const char *control;
  bool paired_halves, retention;
  cli_quantity baseline, baseline_sd, baseline_step, tile;
  size_t baseline_n;
  cli_given before_summary, after_summary;
  const char *scatter, *panel_type, *meter; /* plan as well */
  const char *summaries;
  const char *bench, *bench_quantity;
  const char *say; /* "verdict", "sentence"; null: the whole report */
  /* plan */
  bool paired;
  cli_quantity half_width, detect, within, sd, sd_after;
  size_t readings;
  const char *pilot;
  cli_ratio ratio;
  const char *grid;
  cli_quantity cost_spot, cost_repeat, cost_session, cost_panel;
  bool control_half;
  size_t fits;
  cli_size size;
  cli_quantity margin_from_edge, apart;
  size_t spots, panels, repeats;
  scw_layout_kind layout;
  scw_reading_order reading_order;
  bool halves, blind;
  size_t seed;
  const char *template_file;
  /* take */
  cli_taking take;
  /* demo */
  const char *write_to;
  /* what is left of the command line: files or names */
  char **operands;
  size_t n_operands;
} cli_request;

#endif
