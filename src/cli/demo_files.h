/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The files of `scatterwise demo`, built into the program from src/cli/demo.
 * All of it is invented: a boat shed's painted hull panels and the dressings
 * K1, K2 ... tried on them. */
#ifndef CLI_DEMO_FILES_H
#define CLI_DEMO_FILES_H

#include <stddef.h>

typedef struct cli_demo_file {
  const char *name, *about;
  const unsigned char *bytes;
  size_t size;
} cli_demo_file;

extern const cli_demo_file cli_demo_files[];
extern const size_t cli_demo_file_count;

/* The one of `n` files that has this name, or null. */
const cli_demo_file *cli_find_built_in(const cli_demo_file *files, size_t n,
                                       const char *name);

/* Null when there is no such file. */
const cli_demo_file *cli_find_demo_file(const char *name);

#endif
