/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 3, where: a list of spots for a panel, in an order to read them,
 * and a CSV template to fill in at the bench. */
#ifndef SCATTERWISE_LAYOUT_H
#define SCATTERWISE_LAYOUT_H

#include "scatterwise/readings.h"

#ifdef __cplusplus
extern "C" {
#endif

/* How spots are laid out in the field, which is the panel less its margin. All
 * three part the field into as many equal areas as there are spots, or as good
 * as that. */
typedef enum scw_layout_kind {
  SCW_LAYOUT_SPREAD, /* every spot as far from the others, and half as far from
                        the border of the field, as can be found; up to the
                        border where `apart` asks for that; no draw */
  SCW_LAYOUT_GRID,   /* in the middle of its own area; no draw */
  SCW_LAYOUT_RANDOM, /* anywhere in its own area, drawn (stratified random) */
  SCW_LAYOUT_END
} scw_layout_kind;

/* "spread", "grid", "random"; never null. */
SCW_API const char *scw_layout_code(scw_layout_kind kind);

/* The order of reading within one panel and state. */
typedef enum scw_reading_order {
  SCW_ORDER_RANDOM, /* drawn */
  SCW_ORDER_WALK    /* a short path: the numbers of the spots */
} scw_reading_order;

/* All lengths in one unit. Zero-initialise; then width, height and spots are
 * all that must be given. */
typedef struct scw_layout_request {
  double width, height;      /* of the panel; > 0 */
  const char *length_unit;   /* "mm"; null: not said */
  const char *unit;          /* of the readings, for the template; null */
  double margin;             /* kept free at every edge; >= 0 */
  double apart;              /* spacing asked for; 0: none. Falling short of it
                                is said, and answered with the number of spots
                                that do fit */
  size_t spots;              /* on each panel, 1 to 10000; even with halves */
  size_t panels;             /* 0 counts as 1, here and in repeats */
  size_t repeats;            /* readings at each spot, one after the other */
  scw_layout_kind layout;
  scw_reading_order reading_order;
  bool halves;        /* the panel is halved across its longer side, one half
                         treated, one a control; which is drawn for each panel.
                         The second half mirrors the first, so the spots of one
                         number make true pairs */
  bool blind;         /* treated and control under drawn codes; the key stands
                         in the report, not in the template */
  bool before_after;  /* every spot is read in both states */
} scw_layout_request;

enum { SCW_SPOT_CODE = 8 };

typedef struct scw_spot {
  size_t panel;      /* from 1 */
  size_t number;     /* from 1 within the panel, or within the half */
  int half;          /* 0: no halves; 1: left or lower, 2: right or upper */
  bool control;      /* with halves: on the control half */
  double x, y;       /* from the panel's lower left corner, whole multiples of
                        `resolution` */
  char code[SCW_SPOT_CODE]; /* drawn; no letters or digits that look alike,
                               unlike every other code of the list */
} scw_spot;

/* One reading to take. */
typedef struct scw_turn {
  size_t spot;   /* index into spots */
  scw_side side; /* SCW_SIDE_NONE without before_after */
  size_t repeat; /* from 1 */
} scw_turn;

typedef struct scw_layout_result {
  scw_settings settings;       /* level and the like are not used; seed is */
  scw_layout_request request;  /* texts are copied into the result */
  char *length_unit, *unit;    /* never null */
  char *sentence;
  double resolution;           /* of x and y */
  scw_figure nearest;          /* smallest distance between two spots of one
                                  panel; SCW_ONE_SPOT */
  scw_figure edge;             /* smallest distance from an edge of the panel */
  scw_figure fits;             /* spots known to fit on a panel `apart` from each
                                  other; with apart */
  bool possible;               /* false: the field is empty, or apart is not
                                  kept; said in words, exit status 1 */
  char treated_code[SCW_SPOT_CODE], control_code[SCW_SPOT_CODE]; /* labels of
                                  the treatment column: "treated" and "control",
                                  or codes when blind; "" without halves */
  scw_spot *spots;
  size_t n_spots;              /* of all panels */
  scw_turn *turns;             /* in the order of reading */
  size_t n_turns;
  scw_note *notes;
  size_t n_notes;
} scw_layout_result;

/* Lays out spots. The same request and seed give the same list, byte for byte.
 * Errors: SCW_BAD_ARGUMENT for sizes, margins and counts that make no sense.
 * Cost: spread is worked out in two seconds for up to 200 spots a panel (a
 * regular arrangement beyond that). Free with scw_layout_result_free. */
SCW_API scw_status scw_layout(scw_context *context,
                              const scw_layout_request *request,
                              const scw_settings *settings,
                              scw_layout_result *out);
SCW_API void scw_layout_result_free(scw_layout_result *result);

/* Spots that are known to fit on a panel, `apart` (> 0) from each other within
 * the margin (>= 0): 0 where nothing is left of the panel. */
SCW_API size_t scw_spots_that_fit(double width, double height, double margin,
                                  double apart);

/* The template: CSV, comma and decimal point, a header row and one row for
 * each reading to take, in the order of reading:
 *
 *   order,code[,panel][,state][,treatment],spot[,repeat],x,y,reading
 *
 *   order      1, 2, 3 ... over the whole file
 *   code       of the spot (scw_spot.code)
 *   panel      1, 2 ...; only with several panels
 *   state      before | after; only with before_after. All rows before come
 *              first
 *   treatment  treated | control, or their codes when blind; only with halves
 *   spot       number of the spot, within the half where there are halves
 *   repeat     1, 2 ...; only with several readings at a spot
 *   x, y       place; the length unit is in the header: x (mm)
 *   reading    empty, to be filled in; the unit is in the header: reading (GU)
 *
 * Every header is a word that the reader of tables knows (code is passed
 * over), so that the filled template goes straight into `readings`, `change`
 * (halves: --control control) and `plan --pilot`. It is written by
 * scw_report_template. */

#ifdef __cplusplus
}
#endif
#endif
