/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the words of a command line to the command that answers. */
#include "dispatch.h"

#include <string.h>

#include "help.h"
#include "message.h"
#include "parse.h"
#include "print.h"

static void settle_defaults(cli_request *request) {
  scw_settings_init(&request->settings);
}

/* What the options say together goes into the settings of the library. */
static cli_exit prepare(cli_run *run) {
  cli_request *request = &run->request;
  if (request->step.given) {
    request->settings.step = (scw_step){request->step.value, SCW_STEP_GIVEN};
  }
  scw_status status = SCW_OK;
  if (request->threads > 0) {
    status = scw_context_set_threads(run->context, (unsigned)request->threads);
  }
  return status == SCW_OK ? CLI_ANSWERED : cli_failed(run, status);
}

static cli_exit answer(cli_run *run) {
  scw_status status = scw_context_new(&run->context);
  if (status != SCW_OK) {
    cli_say("%s", scw_status_text(status));
    return CLI_NO_FIGURE;
  }
  cli_exit code = prepare(run);
  if (code == CLI_ANSWERED) {
    code = run->command->run(run);
  }
  scw_bench_free(&run->bench);
  scw_bench_free(&run->instruments);
  scw_context_free(run->context);
  return code;
}

static void print_version(const cli_host *host) {
  cli_print(host->sink, "scatterwise %s\n", scw_version());
}

static cli_exit run_command(const cli_host *host, const cli_command *command,
                            int argc, char **argv) {
  cli_run run = {.command = command, .host = host};
  settle_defaults(&run.request);
  cli_exit code = cli_parse(command, argc, argv, &run.request);
  if (code == CLI_ANSWERED && run.request.help) {
    cli_help_command(host, command);
  } else if (code == CLI_ANSWERED && run.request.version) {
    print_version(host);
  } else if (code == CLI_ANSWERED) {
    code = answer(&run);
  }
  cli_request_free(&run.request);
  return code;
}

cli_exit cli_dispatch(const cli_host *host, int argc, char **argv) {
  if (argc < 2) {
    return cli_usage(NULL, "say what you want to know: scatterwise COMMAND");
  }
  if (strcmp(argv[1], "--help") == 0) {
    cli_help_all(host);
    return CLI_ANSWERED;
  }
  if (strcmp(argv[1], "--version") == 0) {
    print_version(host);
    return CLI_ANSWERED;
  }
  const cli_command *command = cli_find_command(argv[1]);
  if (command == NULL) {
    return cli_usage(NULL, "there is no command \"%s\"", argv[1]);
  }
  return run_command(host, command, argc - 1, argv + 1);
}

enum { LONGEST_LINE = 256, MOST_WORDS = 32 };

/* Cuts `line` into words in place; the last word is followed by null. */
static int cut(char *line, char **words) {
  int n = 0;
  while (*(line += strspn(line, " ")) != '\0' && n < MOST_WORDS) {
    bool quoted = *line == '\'';
    words[n++] = line += quoted;
    line += strcspn(line, quoted ? "'" : " ");
    if (*line != '\0') {
      *line++ = '\0';
    }
  }
  words[n] = NULL;
  return n;
}

cli_exit cli_run_line(const cli_host *host, const char *line) {
  char text[LONGEST_LINE], name[] = "scatterwise";
  char *words[MOST_WORDS + 2] = {name};
  strncpy(text, line, sizeof text - 1);
  text[sizeof text - 1] = '\0';
  return cli_dispatch(host, 1 + cut(text, words + 1), words);
}
