/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tables of readings that a bench file names. */
#ifndef CLI_BENCH_TABLES_H
#define CLI_BENCH_TABLES_H

#include "command.h"

typedef struct cli_bench_tables {
  scw_table **table; /* in the order of the bench's inputs */
  size_t n;
} cli_bench_tables;

/* Reads the table of every input that has its readings in one, its path taken
 * from the folder that the bench file `path` is in, and hands the readings to
 * the bench. Free *out, also after a failure. */
cli_exit cli_bench_take_tables(cli_run *run, scw_bench *bench, const char *path,
                               cli_bench_tables *out);
void cli_bench_tables_free(cli_bench_tables *tables);

#endif
