/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bench files to start from, built into the program from src/cli/examples:
 * the measurements of the trade as models, every number to be replaced. */
#ifndef CLI_EXAMPLE_FILES_H
#define CLI_EXAMPLE_FILES_H

#include "demo_files.h"

extern const cli_demo_file cli_example_files[];
extern const size_t cli_example_file_count;

/* By its name without an ending: "friction". Null when there is none. */
const cli_demo_file *cli_find_example(const char *name);

#endif
