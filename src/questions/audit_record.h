/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is kept of a claim: a record of as few bytes as its figures need. Numbers
 * as printed take five bytes (mantissa and decimals) where they fit. */
#ifndef SCWI_AUDIT_RECORD_H
#define SCWI_AUDIT_RECORD_H

#include "scatterwise/audit.h"
#include "text.h"

typedef struct scwi_record_side {
  size_t n;        /* 0: no readings */
  double mean, sd;
} scwi_record_side;

typedef struct scwi_record {
  const char *id;  /* "" when the row has none */
  scw_stated mean[2], scatter[2], change, points;
  bool standard_error;
  size_t n[2];     /* as stated; 0: not said */
  scwi_record_side readings[2];
  bool paired;     /* spot by spot: the change of the readings is this one */
  double paired_change, paired_u, paired_df;
} scwi_record;

/* Appends the record; read back from where it begins. Texts stay in place. */
void scwi_record_write(scwi_text *to, const scwi_record *record);
void scwi_record_read(const char *from, scwi_record *record);

#endif
