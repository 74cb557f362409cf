/* SPDX-License-Identifier: GPL-3.0-or-later */
/* scatterwise score: points, and which ranks are real? */
#include <stdlib.h>
#include <string.h>

#include "bench_file.h"
#include "commands.h"
#include "input.h"
#include "message.h"
#include "output.h"
#include "store.h"

static const cli_option own_options[] = {
    CLI_OPTION("bench", "FILE", NULL, cli_store_text, bench,
               "the bench file with the rules and scores; needed"),
    CLI_OPTION("score", "NAME", "the only one", cli_store_text, score.name,
               "the score of the bench file"),
    CLI_OPTION("looks", "FILE", NULL, cli_store_text, score.looks,
               "for a ladder: a table product, ok at, gone by (passes; blank: "
               "still fine at the last look), and rule if there are several"),
    CLI_OPTION("category", "C", NULL, cli_store_text,
               table.column[SCW_ROLE_KIND],
               "the column that says of which category a product is"),
    CLI_OPTION("trials", "N", "100000", cli_store_trials, score.trials,
               "trials for sums, places and chances, 10000 to 1000000"),
    CLI_OPTION("seed", "N", "1", cli_store_count, seed,
               "seed of the trials; the same seed gives the same answer"),
};

static const cli_group own_group = {"Score", NULL, own_options,
                                    CLI_COUNT(own_options)};
static const cli_group *const groups[] = {&own_group, &cli_file_options,
                                          &cli_everywhere_options, NULL};

typedef struct files {
  scw_score_table *tables;
  scw_table **owned;
  size_t n;
  scw_looks looks;
} files;

/* READING=FILE, where READING is the word of a rule of the bench. */
static const char *reading_of(const scw_bench *bench, char *operand,
                              char **file) {
  char *equals = strchr(operand, '=');
  *file = operand;
  for (size_t i = 0; equals != NULL && i < bench->n_rules; i++) {
    const char *words[] = {bench->rule[i].reading, bench->rule[i].name};
    for (size_t k = 0; k < 2; k++) {
      size_t n = strlen(words[k]);
      if ((size_t)(equals - operand) == n &&
          strncmp(operand, words[k], n) == 0) {
        *file = equals + 1;
        return words[k];
      }
    }
  }
  return NULL;
}

static cli_exit read_looks(cli_run *run, files *to) {
  const char *path = run->request.score.looks;
  const scw_table_options options = {
      .separator = run->request.table.separator,
      .decimal_mark = run->request.table.decimal_mark};
  cli_input input;
  if (path == NULL) {
    return CLI_ANSWERED;
  }
  cli_exit code = cli_input_open(&input, run->host, path);
  if (code != CLI_ANSWERED) {
    return code;
  }
  scw_status status =
      scw_looks_read(run->context, &options, input.source, &to->looks);
  cli_input_close(&input);
  return status == SCW_OK ? CLI_ANSWERED : cli_failed(run, status);
}

static cli_exit read_files(cli_run *run, files *to) {
  size_t n = run->request.n_operands;
  cli_exit code = CLI_ANSWERED;
  to->tables = calloc(n + 1, sizeof *to->tables);
  to->owned = calloc(n + 1, sizeof *to->owned);
  if (to->tables == NULL || to->owned == NULL) {
    return cli_failed(run, SCW_OUT_OF_MEMORY);
  }
  for (size_t i = 0; i < n && code == CLI_ANSWERED; i++) {
    char *file;
    const char *reading =
        reading_of(&run->instruments, run->request.operands[i], &file);
    code = cli_read_tables(run, &file, NULL, 1, &to->owned[i]);
    to->tables[i] = (scw_score_table){to->owned[i], reading};
    to->n = i + 1;
  }
  return code == CLI_ANSWERED ? read_looks(run, to) : code;
}

static void drop(files *of) {
  for (size_t i = 0; i < of->n; i++) {
    scw_table_free(of->owned[i]);
  }
  free(of->owned);
  free(of->tables);
  scw_looks_free(&of->looks);
}

static bool any_ranked(const scw_score_result *result) {
  for (size_t i = 0; i < result->n_products; i++) {
    if (result->product[i].of > 0) {
      return true;
    }
  }
  return false;
}

static cli_exit answer(cli_run *run, const files *from) {
  const scw_score_options options = {
      .bench = &run->instruments,
      .score = run->request.score.name,
      .looks = from->looks.account != NULL ? &from->looks : NULL,
      .trials = run->request.score.trials};
  scw_score_result result = {.n_products = 0};
  cli_exit code = CLI_ANSWERED;
  if (run->request.seed > 0) {
    run->request.settings.seed = run->request.seed;
  }
  scw_status status = scw_score(run->context, from->tables, from->n,
                                &run->request.settings, &options, &result);
  if (status == SCW_OK) {
    code = any_ranked(&result) ? CLI_ANSWERED : CLI_NO_FIGURE;
    status = scw_report_score(run->context, &result, from->tables, from->n,
                              from->looks.account, cli_report_options(run),
                              run->host->sink);
  }
  scw_score_result_free(&result);
  return status == SCW_OK ? code : cli_failed(run, status);
}

static cli_exit run_score(cli_run *run) {
  files from = {.n = 0};
  if (run->request.bench == NULL) {
    return cli_usage(run->command,
                     "points need rules; give a bench file: --bench FILE");
  }
  if (run->request.n_operands == 0 && run->request.score.looks == NULL) {
    return cli_usage(run->command, "give files of readings, or --looks FILE");
  }
  cli_exit code = cli_bench_read(run, run->request.bench, &run->instruments);
  if (code == CLI_ANSWERED) {
    code = read_files(run, &from);
  }
  if (code == CLI_ANSWERED) {
    code = answer(run, &from);
  }
  drop(&from);
  return code;
}

const cli_command cli_score = {
    .name = "score",
    .operands = "[READING=]FILE...",
    .least = 0,
    .most = 200,
    .question = "how many points, and which ranks are real?",
    .about =
        "The bench file says how quantities become points: rules (points per "
        "unit of a difference, a ladder of passes, marks by eye) and scores "
        "(sums of weighted rules, with caps). Each FILE holds readings of all "
        "products for the rule whose word heads them; READING=FILE says it "
        "where a header does not.\n\n"
        "Points are made from unrounded means; beside them stands the figure "
        "in the publisher's own order of rounding. Every product gets points "
        "with an interval, the places it could hold, the chance of the first, "
        "and the products it is tied with.",
    .example = "score dressings.csv marks.csv --looks wash.csv --bench scores.json",
    .groups = groups,
    .run = run_score,
};
