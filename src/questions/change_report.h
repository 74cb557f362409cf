/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The report of one product's change. */
#ifndef SCWI_CHANGE_REPORT_H
#define SCWI_CHANGE_REPORT_H

#include "arm.h"
#include "bank.h"
#include "change_words.h"
#include "notes.h"
#include "scatterwise/change.h"

/* What one product's report is made from. */
typedef struct scwi_change_case {
  const scw_table *table;
  scwi_compared compared;
  const char *control;    /* its label; null: none */
  const scwi_arm *view;   /* what the other views look at; null: nothing */
  scwi_change_subject subject;
  const char *unit;       /* of the change */
  const char *tile_unit;  /* of the tile's readings; null: no tile */
  scw_step step;          /* in that unit */
  double margin;          /* 0: none */
  const scwi_compared *worn_in; /* friction: without first pulls; or null */
  const scwi_compared *again; /* with readings taken again, if `replaced` */
  size_t replaced;
  const scw_tile *tile;   /* or null */
  size_t family;          /* products judged together; 1: this one alone */
  bool retention;         /* asked for */
  const scw_settings *settings;
  const scwi_bank *bank;  /* in the unit of the change; null: none */
} scwi_change_case;

scw_status scwi_change_report(scw_context *context,
                              const scwi_change_case *one,
                              scw_change_report *out);
void scwi_change_report_free(scw_change_report *report);

#endif
