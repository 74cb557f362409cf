/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A command and its options. One table per command gives the parsing, the
 * help, the shell completion and the man page. */
#ifndef CLI_COMMAND_H
#define CLI_COMMAND_H

#include "exit_status.h"
#include "request.h"

/* Puts the text of an option into its field; returns null, or words that
 * follow `--name TEXT` in the message ("is not a number"). `text` is null for
 * an option without an argument. */
typedef const char *(*cli_store)(char *text, void *field);

typedef struct cli_option {
  const char *name;
  const char *argument; /* the word for its value in the help; null: none */
  const char *fallback; /* what holds without it; null: nothing to say */
  const char *help;
  cli_store store;
  size_t field; /* offset within cli_request */
} cli_option;

/* A row of an option table. */
#define CLI_OPTION(name, argument, fallback, store, field, help)               \
  { name, argument, fallback, help, store, offsetof(cli_request, field) }

typedef struct cli_group {
  const char *title;
  const char *about; /* null: the title says it all */
  const cli_option *options;
  size_t n;
} cli_group;

#define CLI_COUNT(array) (sizeof(array) / sizeof((array)[0]))

/* Where a command's output goes and how it may look there. */
typedef struct cli_host {
  scw_sink sink;
  bool ascii, colour;
  bool built_in; /* files are those of `scatterwise demo` */
} cli_host;

typedef struct cli_command cli_command;

typedef struct cli_run {
  const cli_command *command;
  const cli_host *host;
  scw_context *context;
  cli_request request;
  scw_bench bench; /* of --scatter; freed by the dispatcher */
  scw_bench instruments; /* of change --bench; likewise */
} cli_run;

struct cli_command {
  const char *name;
  const char *operands;           /* "FILE..."; "" when it takes none */
  size_t least, most;             /* number of operands */
  const char *question;           /* one line */
  const char *about;              /* paragraphs, parted by blank lines */
  const char *example;            /* its arguments on the demo's own files */
  const cli_group *const *groups; /* ends with null */
  cli_exit (*run)(cli_run *run);
};

/* All commands, in the order the help shows them; ends with null. */
extern const cli_command *const cli_commands[];
const cli_command *cli_find_command(const char *name);

/* Options that several commands share. */
extern const cli_group cli_file_options, cli_everywhere_options;
extern const cli_group cli_scatter_options;

/* argv[0] is the program, argv[1] the command or --help or --version. */
cli_exit cli_dispatch(const cli_host *host, int argc, char **argv);

#endif
