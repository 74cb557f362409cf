/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "parse.h"

#include <getopt.h>
#include <stdlib.h>
#include <string.h>

#include "message.h"

enum { MOST_OPTIONS = 96, FIRST_CODE = 256 };

const cli_option *cli_next_option(const cli_command *command, size_t *cursor) {
  size_t skipped = 0;
  for (const cli_group *const *g = command->groups; *g != NULL; g++) {
    if (*cursor < skipped + (*g)->n) {
      return &(*g)->options[(*cursor)++ - skipped];
    }
    skipped += (*g)->n;
  }
  return NULL;
}

/* The table in getopt's form; returns how many options there are. */
static size_t gather(const cli_command *command, const cli_option **options,
                     struct option *longs) {
  size_t n = 0;
  const cli_option *option;
  for (size_t cursor = 0;
       n < MOST_OPTIONS && (option = cli_next_option(command, &cursor)) != NULL;
       n++) {
    options[n] = option;
    longs[n] = (struct option){
        option->name,
        option->argument != NULL ? required_argument : no_argument, NULL,
        FIRST_CODE + (int)n};
  }
  longs[n] = (struct option){0};
  return n;
}

static cli_exit refuse(const cli_command *command, const cli_option *option,
                       int code, const char *word) {
  if (code == ':') {
    return cli_usage(command, "--%s needs a value after it: --%s %s",
                     option->name, option->name, option->argument);
  }
  if (option != NULL) {
    return cli_usage(command, "--%s takes no value", option->name);
  }
  if (optopt > 0 && optopt < FIRST_CODE) {
    return cli_usage(command,
                     "unknown option -%c; options are written out, "
                     "such as --help",
                     optopt);
  }
  return cli_usage(command, "unknown option %s", word);
}

static cli_exit store(const cli_command *command, const cli_option *option,
                      char *text, cli_request *request) {
  const char *wrong = option->store(text, (char *)request + option->field);
  if (wrong == NULL) {
    return CLI_ANSWERED;
  }
  return cli_usage(command, "--%s \"%s\" %s", option->name, text, wrong);
}

static cli_exit check(const cli_command *command, const cli_request *request) {
  const cli_leave_outs *left = &request->leave_outs;
  if (left->n > 0 && left->items[left->n - 1].because == NULL) {
    return cli_usage(command,
                     "--leave-out needs a reason after it: --because "
                     "TEXT; it is printed with the result");
  }
  if (request->json && request->csv) {
    return cli_usage(command, "--json and --csv exclude each other");
  }
  if (request->table.separator == ',' && request->table.decimal_mark == ',') {
    return cli_usage(command,
                     "a comma cannot be both the separator and the "
                     "decimal mark");
  }
  if (request->n_operands < command->least) {
    return cli_usage(command, "%s needs a file; - reads standard input",
                     command->name);
  }
  if (request->n_operands > command->most) {
    return cli_usage(command, "%s cannot use \"%s\"", command->name,
                     request->operands[command->most]);
  }
  return CLI_ANSWERED;
}

cli_exit cli_parse(const cli_command *command, int argc, char **argv,
                   cli_request *request) {
  const cli_option *options[MOST_OPTIONS];
  struct option longs[MOST_OPTIONS + 1];
  size_t n = gather(command, options, longs);
  int code;
  opterr = 0;
  optind = 0; /* start anew, whatever was read before */
  while ((code = getopt_long(argc, argv, ":", longs, NULL)) != -1) {
    int index = (code == ':' || code == '?' ? optopt : code) - FIRST_CODE;
    const cli_option *option =
        index >= 0 && (size_t)index < n ? options[index] : NULL;
    cli_exit result = code == ':' || code == '?'
                          ? refuse(command, option, code, argv[optind - 1])
                          : store(command, option, optarg, request);
    if (result != CLI_ANSWERED) {
      return result;
    }
  }
  request->operands = argv + optind;
  request->n_operands = (size_t)(argc - optind);
  return request->help || request->version ? CLI_ANSWERED
                                           : check(command, request);
}

void cli_request_free(cli_request *request) {
  free(request->leave_outs.items);
  free(request->bridge.baseline.items);
  free(request->bridge.fence.items);
  free(request->bridge.convert.items);
  free(request->drift.recalibrated.items);
  free(request->audit.readings.items);
  request->leave_outs = (cli_leave_outs){0};
  request->bridge = (cli_bridge_request){.weighted = false};
  request->drift = (cli_drift_request){.into = NULL};
}
