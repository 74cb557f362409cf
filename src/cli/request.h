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

typedef struct cli_request {
  /* everywhere */
  bool help, version, json, csv, plain;
  size_t threads; /* 0: the library's own choice */
  scw_settings settings;
  /* reading the files */
  scw_table_options table;
  cli_quantity step;
  /* readings */
  bool brief;
  cli_leave_outs leave_outs;
  /* change */
  cli_quantity margin, block;
  /* plan */
  bool paired;
  cli_quantity half_width, detect, within, sd, sd_after;
  size_t readings;
  const char *pilot;
  /* demo */
  const char *write_to;
  /* what is left of the command line: files or names */
  char **operands;
  size_t n_operands;
} cli_request;

#endif
