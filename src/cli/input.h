/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files, standard input and the demo's own files as one kind of source. */
#ifndef CLI_INPUT_H
#define CLI_INPUT_H

#include "command.h"
#include "demo_files.h"

typedef struct cli_input {
  scw_source source; /* points into this struct: do not copy it */
  int descriptor;    /* -1 for a demo file */
  const cli_demo_file *demo;
  size_t offset;
} cli_input;

/* Opens `name` ("-" is standard input); says why when it cannot. */
cli_exit cli_input_open(cli_input *input, const cli_host *host,
                        const char *name);
void cli_input_close(cli_input *input);

/* Reads the files into one table, each with its own side (null: as the
 * options say). On failure *out is null and the message has been said. */
cli_exit cli_read_tables(cli_run *run, char *const *names,
                         const scw_side *sides, size_t n, scw_table **out);

/* Refuses a value whose unit is not that of the readings. */
cli_exit cli_check_unit(const cli_run *run, const scw_table *table,
                        const char *option, const cli_quantity *quantity);

#endif
