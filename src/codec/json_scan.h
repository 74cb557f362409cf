/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Walking over JSON text with line and column; its texts and numbers. */
#ifndef SCWI_JSON_SCAN_H
#define SCWI_JSON_SCAN_H

#include "json_in.h"

typedef struct scwi_json_scan {
  scw_context *context;
  const char *name;
  char *at, *end;
  scwi_json_place place; /* of `at` */
} scwi_json_scan;

static inline char scwi_json_peek(const scwi_json_scan *scan) {
  return scan->at < scan->end ? *scan->at : 0;
}

/* Passes `bytes` bytes that are one character and no line end. */
void scwi_json_pass(scwi_json_scan *scan, size_t bytes);
void scwi_json_pass_space(scwi_json_scan *scan);

/* The failure of whatever stands at the present place: "'x' stands where
 * EXPECTED is expected". */
scw_status scwi_json_unexpected(scwi_json_scan *scan, const char *expected);

/* At a quote: decodes the text in its own place, closed by a zero. */
scw_status scwi_json_scan_text(scwi_json_scan *scan, const char **out);
/* At a digit or a minus; *digits are the decimals it is written with, below 0
 * for 12e3. */
scw_status scwi_json_scan_number(scwi_json_scan *scan, double *out,
                                 int *digits);

#endif
