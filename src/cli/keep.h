/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file that readings are kept in: only ever added to, one writer at a time,
 * and nothing counts as written before it is on the disk. */
#ifndef CLI_KEEP_H
#define CLI_KEEP_H

#include <sys/types.h>

#include "command.h"

typedef struct cli_keep {
  const char *path;
  int descriptor; /* -1: nothing is kept */
  bool is_new;
  off_t size;     /* of what is kept */
  int error;      /* errno of the write that failed, or ... */
  const char *why; /* ... what else was wrong; null: nothing */
} cli_keep;

/* Makes the file (and its name in the folder) safe, or opens the one of an
 * earlier run. Says why when it cannot. */
cli_exit cli_keep_open(cli_keep *keep, const char *path, bool resume);

/* A sink that returns once what it was given is on the disk, or at once where
 * nothing is kept. After a failure the file is what it was before, as far as the
 * disk allows. */
scw_sink cli_keep_sink(cli_keep *keep);

/* Why the sink refused. */
const char *cli_keep_reason(const cli_keep *keep);

/* A source of everything the file holds. */
scw_source cli_keep_source(cli_keep *keep);

/* Turns what stands behind the first `whole` bytes, a line that was cut off,
 * into a remark. */
cli_exit cli_keep_set_aside(cli_keep *keep, size_t whole);

/* A new file in which nothing was kept is taken away again. */
void cli_keep_close(cli_keep *keep);

#endif
