/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "demo_files.h"

#include <demo_bytes.h> /* made at build from src/cli/demo */
#include <string.h>

#define DEMO(array, file, words)                                               \
  { file, words, array, sizeof array }

const cli_demo_file cli_demo_files[] = {
    DEMO(demo_panel_a_csv, "panel-a.csv",
         "gloss over bare panel A, twelve spots"),
    DEMO(demo_hull_map_csv, "hull-map.csv",
         "gloss over a hull panel of 6 x 8 spots, read twice each"),
    DEMO(demo_operators_csv, "operators.csv",
         "gloss at eight spots, read twice by three of the crew"),
    DEMO(demo_sets_csv, "sets.csv",
         "gloss on sixteen hull panels of one kind, five readings each"),
    DEMO(demo_gloss_k1_csv, "gloss-k1.csv",
         "gloss at ten spots before and after dressing K1"),
    DEMO(demo_gloss_k2_csv, "gloss-k2.csv",
         "gloss at ten spots before and after dressing K2"),
    DEMO(demo_pulls_csv, "pulls.csv",
         "pulls of a 500 g block on six tracks, before and after K1"),
    DEMO(demo_products_csv, "products.csv",
         "gloss before and after four dressings, six spots each"),
    DEMO(demo_dressings_csv, "dressings.csv",
         "gloss before and after K1 to K4 and on a bare panel"),
    DEMO(demo_marks_csv, "marks.csv", "beading of the same by three of the crew"),
    DEMO(demo_wash_csv, "wash.csv", "looks at the same after wash passes"),
    DEMO(demo_scores_json, "scores.json", "how the shed makes its points"),
    DEMO(demo_archive_csv, "archive.csv",
         "three years of gloss scores the shed has published"),
    DEMO(demo_halves_csv, "halves.csv",
         "gloss on a half with K1 and a bare half K0, with a tile"),
    DEMO(demo_two_meters_csv, "two-meters.csv",
         "gloss of nine dressings by an old meter and a new one"),
    DEMO(demo_old_meter_csv, "old-meter.csv",
         "results of the old meter, to be carried over"),
    DEMO(demo_bench_k1_txt, "bench-k1.txt",
         "what was typed at the panel while K1 was read"),
    DEMO(demo_tile_log_csv, "tile-log.csv",
         "tile T1 on gloss meter M1, two readings a week for seven months"),
    DEMO(demo_bench_json, "bench.json",
         "what the shed knows of its gauge, block, gloss meter and tile"),
};
const size_t cli_demo_file_count =
    sizeof cli_demo_files / sizeof cli_demo_files[0];

const cli_demo_file *cli_find_built_in(const cli_demo_file *files, size_t n,
                                       const char *name) {
  for (size_t i = 0; i < n; i++) {
    if (strcmp(files[i].name, name) == 0) {
      return &files[i];
    }
  }
  return NULL;
}

const cli_demo_file *cli_find_demo_file(const char *name) {
  return cli_find_built_in(cli_demo_files, cli_demo_file_count, name);
}
