/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 3, first half: how uneven is this panel, where does its scatter come
 * from, and what would another spot or another repeat buy? */
#ifndef SCATTERWISE_PANEL_H
#define SCATTERWISE_PANEL_H

#include "scatterwise/components.h"
#include "scatterwise/place.h"
#include "scatterwise/pooling.h"
#include "scatterwise/readings.h"

#ifdef __cplusplus
extern "C" {
#endif

typedef struct scw_panel_options {
  bool each;  /* every panel (without panels: every set) alone */
} scw_panel_options;

/* How the scatter of a part was taken apart. */
#define SCW_PANEL_DESIGN_LIST(X)                                               \
  X(SCW_PANEL_NESTED, "nested")                                                \
  X(SCW_PANEL_CROSSED, "crossed")    /* operators who all read the same spots */ \
  X(SCW_PANEL_PRECISION, "precision") /* operators who read one thing each */

typedef enum scw_panel_design {
#define SCW_PANEL_DESIGN_ENUM(code, text) code,
  SCW_PANEL_DESIGN_LIST(SCW_PANEL_DESIGN_ENUM)
#undef SCW_PANEL_DESIGN_ENUM
      SCW_PANEL_DESIGN_END
} scw_panel_design;

SCW_API const char *scw_panel_design_code(scw_panel_design design);

/* A source of scatter by its name: "panel", "set", "session", "spot",
 * "repeat", "reading" (where no spots are named), "operator", "interaction". */
typedef struct scw_panel_component {
  const char *level;     /* static */
  scw_component figures;
  scw_figure reml_sd;    /* unbalanced: by restricted maximum likelihood */
  bool reml_at_zero;
  /* What twice as many of it would make of the standard uncertainty of the
   * mean, everything below it going along; missing where not told. */
  scw_figure twice;
} scw_panel_component;

enum { SCW_PANEL_COMPONENTS = 6 };

/* An operator or laboratory of a part. */
typedef struct scw_panel_operator {
  char *label;
  size_t n;
  scw_figure mean;
} scw_panel_operator;

/* Where positions come from. */
#define SCW_POSITIONS_LIST(X)                                                  \
  X(SCW_POSITIONS_NONE, "none")                                                \
  X(SCW_POSITIONS_XY, "x_y")                                                   \
  X(SCW_POSITIONS_GRID, "row_column") /* x counts columns, y rows */           \
  X(SCW_POSITIONS_SPOTS, "spot_labels") /* the same, from labels such as A1 */

typedef enum scw_positions {
#define SCW_POSITIONS_ENUM(code, text) code,
  SCW_POSITIONS_LIST(SCW_POSITIONS_ENUM)
#undef SCW_POSITIONS_ENUM
      SCW_POSITIONS_END
} scw_positions;

SCW_API const char *scw_positions_code(scw_positions positions);

/* Readings of one product in one state (with `each` of one panel). */
typedef struct scw_panel_part {
  char *label;           /* what tells it from the other parts */
  char *sentence;        /* the answer, fit to publish */
  size_t readings;
  size_t panels, sessions, spots; /* 0: no such labels. Spots are counted in
                                     every session of every panel */
  size_t least_repeats, most_repeats; /* readings at a spot */
  scw_panel_design design;
  bool balanced;
  scw_panel_component component[SCW_PANEL_COMPONENTS]; /* highest level first */
  size_t n_components;
  scw_figure total_sd;   /* of one reading */
  scw_estimate mean;
  scw_figure repeats_worth; /* repeats at a spot that make the mean surest where
                            a spot costs as much as a repeat: root of repeat
                            over spot variance, at least 1 */
  /* Null where the readings do not carry them; owned. */
  scw_nested *nested;
  scw_reml *reml;        /* unbalanced */
  scw_crossed *crossed;
  scw_precision *precision;
  scw_place *place;      /* of one panel */
  scw_panel_operator *by;
  size_t n_by;           /* 0: no operators named */
  scw_positions positions;
  bool letter_rows, letter_columns; /* counted by letters: A, B ... */
  char *length_unit;     /* of the positions: "mm"; "" when not said */
  /* Neighbours resemble each other: Moran's p below 0.05, I above what is
   * expected. The model then meant is that about the plane where its p is below
   * 0.05, else that about one mean; range and effective_spots are its own,
   * SCW_NO_DEPENDENCE where neighbours do not. */
  bool neighbours, about_plane;
  scw_figure range, effective_spots;
  scw_estimate neighbours_mean;
  scw_note *notes;
  size_t n_notes;
} scw_panel_part;

typedef struct scw_panel_result {
  scw_settings settings;
  scw_panel_options options;
  scw_step step;
  char *unit;            /* "" when not said */
  char *quantity;        /* "gloss"; "" */
  char *geometry;        /* "60"; "" when not said */
  char *sentence;        /* of the only part, else of the pool */
  scw_panel_part *parts;
  size_t n_parts;
  /* The scatter within sets, pooled (spot means where there are spots); a set is
   * that of scw_readings. */
  scw_pool pool;
  char **set_label;      /* pool.n_sets of them */
  scw_note *notes;
  size_t n_notes;
} scw_panel_result;

/* Takes the scatter of the readings apart. Parts are told from each other by
 * product and state, files without panels by file. SCW_BAD_INPUT for mixed
 * geometries, two units, no readings, or pulls in two directions. Cost: sorting
 * the readings; place from 30 spots on: see scwi_place. Free with
 * scw_panel_result_free. */
SCW_API scw_status scw_panel(scw_context *context, const scw_table *table,
                             const scw_settings *settings,
                             const scw_panel_options *options,
                             scw_panel_result *out);
SCW_API void scw_panel_result_free(scw_panel_result *result);

#ifdef __cplusplus
}
#endif
#endif
