/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "example_files.h"

#include <example_bytes.h> /* made at build from src/cli/examples */

#define EXAMPLE(array, name, words)                                            \
  { name, words, array, sizeof array }

const cli_demo_file cli_example_files[] = {
    EXAMPLE(demo_friction_json, "friction",
            "static coefficient by block pulls, one way and both ways"),
    EXAMPLE(demo_gloss_json, "gloss",
            "gloss corrected by trap and tile; a tile by its refractive index"),
    EXAMPLE(demo_retention_json, "retention",
            "gloss left after exposure, and the change against a tile"),
};
const size_t cli_example_file_count =
    sizeof cli_example_files / sizeof cli_example_files[0];

const cli_demo_file *cli_find_example(const char *name) {
  return cli_find_built_in(cli_example_files, cli_example_file_count, name);
}
