/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bench file on disk. */
#ifndef CLI_BENCH_FILE_H
#define CLI_BENCH_FILE_H

#include "command.h"

/* Reads the bench file `path`; says why when it cannot. */
cli_exit cli_bench_read(cli_run *run, const char *path, scw_bench *out);

/* Reads the bench of --scatter into run->bench; without one, refuses options
 * that tell of it. */
cli_exit cli_bench_open(cli_run *run);

/* Adds or replaces one entry of the bench file `path`, which is made when it
 * is not there. The file is the old one or the new one at every moment:
 * written beside it, synced, renamed. */
cli_exit cli_bench_put(cli_run *run, const char *path,
                       const scw_bench_scatter *entry);

/* The same for inputs of a budget. */
cli_exit cli_bench_put_inputs(cli_run *run, const char *path,
                              const scw_bench_input *inputs, size_t n);

#endif
