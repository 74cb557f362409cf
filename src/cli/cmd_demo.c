/* SPDX-License-Identifier: GPL-3.0-or-later */
/* scatterwise demo: the whole job on built-in readings, and the files it
 * works on. */
#include "commands.h"
#include "demo_files.h"
#include "demo_write.h"
#include "dispatch.h"
#include "message.h"
#include "output.h"
#include "print.h"
#include "store.h"

static const cli_option own_options[] = {
    CLI_OPTION("write", "DIR", NULL, cli_store_text, write_to,
               "write the files into this folder, which is made if need be; "
               "files that are there already are left alone"),
    CLI_OPTION("plain", NULL, NULL, cli_store_yes, plain,
               "write text in ASCII and without colour"),
    CLI_OPTION("help", NULL, NULL, cli_store_yes, help, "show this help"),
    CLI_OPTION("version", NULL, NULL, cli_store_yes, version,
               "show the version"),
};
static const cli_group own_group = {"Demo", NULL, own_options,
                                    CLI_COUNT(own_options)};
static const cli_group *const groups[] = {&own_group, NULL};

/* One stop of the tour: what is asked, and the command that answers. */
typedef struct stop {
  const char *asks, *line;
} stop;

static const stop stops[] = {
    {"What do the readings of the bare panel say?", "readings panel-a.csv"},
    {"How uneven is a hull panel, and what makes its mean surer?",
     "panel hull-map.csv"},
    {"Did dressing K1 move the gloss by more than 0.5 GU?",
     "change gloss-k1.csv --margin 0.5"},
    {"And K2?", "change gloss-k2.csv --margin 0.5"},
    {"And if K1 is judged while it is being read?",
     "take bench-k1.txt --baseline gloss-k1.csv --anytime --brief"},
    {"How many spots would show a change of 0.5 GU on such a panel?",
     "plan --detect 0.5 --paired --pilot gloss-k2.csv"},
    {"Did K1 make the panel slicker?", "change pulls.csv --block 500g"},
    {"How sure is a coefficient of the bare panel, and where from?",
     "budget bench.json --quantity friction"},
    {"And with that in the change?", "change pulls.csv --bench bench.json"},
    {"Is the meter drifting?",
     "drift tile-log.csv --assigned 92.4 --assigned-u 0.8 --assigned-k 2"},
    {"May results of the old meter stand beside those of the new one?",
     "bridge two-meters.csv --margin 2"},
    {"Four dressings at once?", "change products.csv --margin 0.5"},
    {"Which of them differ from each other, and from a bare panel?",
     "compare dressings.csv --margin 0.5"},
    {"How many points are they worth, and which ranks are real?",
     "score dressings.csv marks.csv --looks wash.csv --bench scores.json"},
    {"Which of the shed's published scores rest on changes inside the noise?",
     "audit archive.csv --bench scores.json"},
    {"And less what the bare half did?",
     "change halves.csv --control K0 --tile 95.2 --margin 0.5"},
};

static cli_exit tour(const cli_run *run) {
  cli_host host = *run->host;
  host.built_in = true;
  host.ascii = host.ascii || run->request.plain;
  host.colour = host.colour && !run->request.plain;
  cli_print(host.sink,
            "Readings from an invented boat shed: painted hull "
            "panels, dressings K1 to K4.\n");
  for (size_t i = 0; i < CLI_COUNT(stops); i++) {
    cli_print(host.sink, "\n%s\n$ scatterwise %s\n\n", stops[i].asks,
              stops[i].line);
    cli_exit code = cli_run_line(&host, stops[i].line);
    if (code != CLI_ANSWERED) {
      return code;
    }
  }
  cli_print(host.sink,
            "\nThe files, to try these yourself: scatterwise demo --write DIR\n"
            "One of them on the screen:       scatterwise demo NAME\n");
  for (size_t i = 0; i < cli_demo_file_count; i++) {
    cli_print(host.sink, "  %-14s %s\n", cli_demo_files[i].name,
              cli_demo_files[i].about);
  }
  return CLI_ANSWERED;
}

static cli_exit show(const cli_run *run) {
  const char *name = run->request.operands[0];
  const cli_demo_file *file = cli_find_demo_file(name);
  if (file == NULL) {
    return cli_usage(run->command,
                     "the demo has no file \"%s\"; scatterwise demo lists them",
                     name);
  }
  (void)run->host->sink.write(run->host->sink.user, (const char *)file->bytes,
                              file->size);
  return CLI_ANSWERED;
}

static cli_exit run_demo(cli_run *run) {
  if (run->request.write_to != NULL && run->request.n_operands > 0) {
    return cli_usage(run->command, "--write writes all files; leave out \"%s\"",
                     run->request.operands[0]);
  }
  if (run->request.write_to != NULL) {
    return cli_demo_write(run->host->sink, run->request.write_to);
  }
  return run->request.n_operands > 0 ? show(run) : tour(run);
}

const cli_command cli_demo = {
    .name = "demo",
    .operands = "[NAME]",
    .least = 0,
    .most = 1,
    .question = "what does all this look like?",
    .about =
        "Does the whole job on built-in readings and shows each command "
        "before its answer. With NAME it shows one of the files; with --write "
        "it writes all of them. The readings are invented: a boat shed's "
        "painted hull panels and the dressings K1, K2 and so on.",
    .example = NULL,
    .groups = groups,
    .run = run_demo,
};
