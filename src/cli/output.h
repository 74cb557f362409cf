/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Standard output: buffered, watched for failure, and how it may look. */
#ifndef CLI_OUTPUT_H
#define CLI_OUTPUT_H

#include "command.h"

/* A sink on standard output; `error` keeps the errno of the first failure.
 * Nothing at all as data has it write out what it holds back. */
typedef struct cli_output {
  int error;
} cli_output;

scw_sink cli_output_sink(cli_output *output);
/* The last act: writes out what is left. 0, or the errno of the first
 * failure. */
int cli_output_close(cli_output *output);

/* A sink that keeps the first bytes in memory, for the help's examples. */
typedef struct cli_capture {
  char text[4096];
  size_t size; /* never above sizeof text - 1; text ends with '\0' */
} cli_capture;

scw_sink cli_capture_sink(cli_capture *capture);

/* Whether standard output takes colour, and characters beyond ASCII. */
bool cli_wants_colour(void);
bool cli_wants_ascii(void);

/* Format and looks of a report, from the host and the options. */
scw_report_options cli_report_options(const cli_run *run);

#endif
