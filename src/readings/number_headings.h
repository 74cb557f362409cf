/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a heading says in a table of numbers made from readings: of which
 * figure, which side, in which unit. The words are in docs/manual/change.md. */
#ifndef SCWI_NUMBER_HEADINGS_H
#define SCWI_NUMBER_HEADINGS_H

#include "heading.h"

typedef enum scwi_named {
  SCWI_NAMED_UNKNOWN, /* nothing we know */
  SCWI_NAMED_ASIDE,   /* known, and no figure: spot, remark, points */
  /* texts */
  SCWI_NAMED_PRODUCT,
  SCWI_NAMED_STATE,
  SCWI_NAMED_GEOMETRY,
  SCWI_NAMED_UNIT,
  SCWI_NAMED_CLAIM,    /* its label */
  SCWI_NAMED_CATEGORY,
  SCWI_NAMED_DATE,
  SCWI_NAMED_RULE,     /* by which points are made */
  SCWI_NAMED_METHOD,
  SCWI_NAMED_PANEL,    /* from here on of one side, or of both */
  SCWI_NAMED_METER,
  SCWI_NAMED_SESSION,
  /* numbers */
  SCWI_NAMED_N,
  SCWI_NAMED_MEAN,
  SCWI_NAMED_EFFECT,
  SCWI_NAMED_SD,
  SCWI_NAMED_SE,
  SCWI_NAMED_STEP,
  SCWI_NAMED_POINTS,
  SCWI_NAMED_OK_AT,    /* passes after which a coat was still fine */
  SCWI_NAMED_GONE_BY,  /* and after which it was not */
  SCWI_NAMED_READING,  /* one of several of its side: "before 3" */
  /* scatters that are no SD or SE, or do not say which of them they are */
  SCWI_NAMED_UNSAID,
  SCWI_NAMED_RELATIVE,
  SCWI_NAMED_VARIANCE,
  SCWI_NAMED_END
} scwi_named;

typedef struct scwi_named_heading {
  scwi_named what;
  scw_side side;
  scwi_span text, unit, angle;
  const char *quantity; /* "gloss"; null when none is named */
  size_t line, column;
} scwi_named_heading;

/* A mean of one side may be headed by the side alone: "before". The texts are
 * those of `heading`. */
scwi_named_heading scwi_named_heading_of(const scwi_heading *heading);

/* "mean", "sd", ...: what the column is called in messages. */
const char *scwi_named_word(scwi_named what);

#endif
