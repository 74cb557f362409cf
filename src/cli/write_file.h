/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A new file, whole or not at all. */
#ifndef CLI_WRITE_FILE_H
#define CLI_WRITE_FILE_H

#include "command.h"

typedef struct cli_new_file {
  const char *name;
  int descriptor;
  int error; /* errno of the first failure */
} cli_new_file;

/* Refuses a name that is taken: what stands there may hold readings. */
cli_exit cli_new_file_open(cli_new_file *file, const char *name);
/* Its sink; takes what it is given at once. */
scw_sink cli_new_file_sink(cli_new_file *file);
/* `keep` false, or a write that failed: the file is taken away again. */
cli_exit cli_new_file_close(cli_new_file *file, bool keep);

#endif
