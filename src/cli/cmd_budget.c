/* SPDX-License-Identifier: GPL-3.0-or-later */
/* scatterwise budget: how sure is a figure, and where from? */
#include <stdio.h>
#include <string.h>

#include "bench_file.h"
#include "bench_tables.h"
#include "commands.h"
#include "example_files.h"
#include "message.h"
#include "output.h"
#include "store.h"

static const cli_option own_options[] = {
    CLI_OPTION("quantity", "NAME", "all of them", cli_store_text,
               budget.quantity, "one quantity of the bench file"),
    CLI_OPTION("trials", "N", "until the digits stand", cli_store_trials,
               budget.trials, "draw the inputs exactly N times"),
    CLI_OPTION("digits", "D", "2", cli_store_digits, budget.digits,
               "digits of the uncertainty that the trials must settle, 1 to 3"),
    CLI_OPTION("seed", "N", "1", cli_store_count, budget.seed,
               "another seed draws other trials"),
    CLI_OPTION("no-trials", NULL, NULL, cli_store_yes, budget.no_trials,
               "leave the trials out: the law of propagation alone"),
    CLI_OPTION("example", NULL, NULL, cli_store_yes, budget.example,
               "write a bench file to start from: friction, unless gloss or "
               "retention stands in the place of FILE"),
};

static const cli_group own_group = {"Budget", NULL, own_options,
                                    CLI_COUNT(own_options)};
static const cli_group *const groups[] = {&own_group, &cli_everywhere_options,
                                          NULL};

/* One of the bench files to start from, or what there is. */
static cli_exit write_example(const cli_run *run) {
  const char *name = run->request.n_operands > 0 ? run->request.operands[0]
                                                 : cli_example_files[0].name;
  const cli_demo_file *file = cli_find_example(name);
  if (file != NULL) {
    (void)run->host->sink.write(run->host->sink.user, (const char *)file->bytes,
                                file->size);
    return CLI_ANSWERED;
  }
  char names[256] = "";
  for (size_t i = 0; i < cli_example_file_count; i++) {
    size_t length = strlen(names);
    snprintf(names + length, sizeof names - length, "%s%s",
             length > 0 ? ", " : "", cli_example_files[i].name);
  }
  return cli_usage(run->command, "there is no example \"%s\"; there are %s",
                   name, names);
}

static cli_exit check(const cli_run *run) {
  const cli_budget_request *budget = &run->request.budget;
  bool tells = budget->trials > 0 || budget->digits > 0 || budget->seed > 0;
  if (run->request.n_operands == 0) {
    return cli_usage(run->command,
                     "name the bench file; --example writes one to start from");
  }
  if (budget->no_trials && tells) {
    return cli_usage(run->command,
                     "--no-trials leaves the trials out; leave out --trials, "
                     "--digits and --seed");
  }
  if (budget->trials > 0 && budget->digits > 0) {
    return cli_usage(run->command,
                     "--trials says how many, --digits draws until so many "
                     "digits stand; give one");
  }
  return CLI_ANSWERED;
}

static bool is_exact(const scw_budget *budget) {
  for (size_t i = 0; i < budget->n_lines; i++) {
    if (budget->lines[i].standard_uncertainty > 0) {
      return false;
    }
  }
  return true;
}

static bool has_figure(const scw_bench_budget *result) {
  bool all = true;
  for (size_t i = 0; i < result->n_quantities; i++) {
    const scw_quantity_budget *of = &result->quantities[i];
    bool law = of->budget.expanded.state == SCW_PRESENT;
    bool trials = of->has_trials && of->trials.symmetric.state == SCW_PRESENT;
    all = all && of->why_not == NULL &&
          (law || trials || is_exact(&of->budget));
  }
  return all;
}

static cli_exit answer(cli_run *run, const scw_bench *bench,
                       const cli_bench_tables *tables) {
  const cli_budget_request *asked = &run->request.budget;
  scw_settings *settings = &run->request.settings;
  settings->seed = asked->seed > 0 ? asked->seed : settings->seed;
  const scw_bench_budget_options options = {
      .quantity = asked->quantity,
      .no_trials = asked->no_trials,
      .trials = {.trials = asked->trials,
                 .digits = asked->digits,
                 .seed = settings->seed}};
  scw_bench_budget result = {.n_quantities = 0};
  cli_exit code = CLI_ANSWERED;
  scw_status status = scw_bench_budget_of(
      run->context, bench, settings, &options, &result);
  if (status == SCW_OK) {
    code = has_figure(&result) ? CLI_ANSWERED : CLI_NO_FIGURE;
    status = scw_report_budget(
        run->context, &result, (const scw_table *const *)tables->table,
        tables->n, cli_report_options(run), run->host->sink);
  }
  scw_bench_budget_free(&result);
  return status == SCW_OK ? code : cli_failed(run, status);
}

static cli_exit run_budget(cli_run *run) {
  if (run->request.budget.example) {
    return write_example(run);
  }
  const char *path = run->request.operands[0];
  cli_bench_tables tables = {NULL, 0};
  cli_exit code = check(run);
  if (code == CLI_ANSWERED) {
    code = cli_bench_read(run, path, &run->bench);
  }
  if (code == CLI_ANSWERED) {
    code = cli_bench_take_tables(run, &run->bench, path, &tables);
  }
  if (code == CLI_ANSWERED) {
    code = answer(run, &run->bench, &tables);
  }
  cli_bench_tables_free(&tables);
  return code;
}

const cli_command cli_budget = {
    .name = "budget",
    .operands = "FILE",
    .least = 0,
    .most = 1,
    .question = "how sure is a figure, and where does its uncertainty come from?",
    .about =
        "Reads a bench file: the inputs of a figure, how well each is known, "
        "and the formula that makes the figure of them. Answers with the "
        "figure, its uncertainty, the share of every input in it, and what "
        "would help most.\n\n"
        "The law of propagation (JCGM 100) is checked by trials that draw the "
        "inputs anew (JCGM 101). Limits in the file are answered with the "
        "probability that they hold (JCGM 106). Where readings are among the "
        "inputs, two such results are compared: what one meter shares, and "
        "what cancels.\n\n"
        "Tables named in the bench file are looked for in its folder.",
    .example = "budget bench.json",
    .groups = groups,
    .run = run_budget,
};
