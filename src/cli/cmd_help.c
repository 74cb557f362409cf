/* SPDX-License-Identifier: GPL-3.0-or-later */
/* scatterwise help, manual and completion: the command tables for people, for
 * man and for the shell. */
#include <string.h>

#include "commands.h"
#include "completion.h"
#include "help.h"
#include "manual.h"
#include "message.h"
#include "store.h"

static const cli_option own_options[] = {
    CLI_OPTION("help", NULL, NULL, cli_store_yes, help, "show this help"),
    CLI_OPTION("version", NULL, NULL, cli_store_yes, version,
               "show the version"),
};
static const cli_group own_group = {"Options", NULL, own_options,
                                    CLI_COUNT(own_options)};
static const cli_group *const groups[] = {&own_group, NULL};

/* The command the only operand names; null where there is none. */
static cli_exit find_operand(const cli_run *run, const cli_command **command) {
  *command = NULL;
  if (run->request.n_operands == 0) {
    return CLI_ANSWERED;
  }
  *command = cli_find_command(run->request.operands[0]);
  return *command != NULL ? CLI_ANSWERED
                          : cli_usage(NULL, "there is no command \"%s\"",
                                      run->request.operands[0]);
}

static cli_exit run_help(cli_run *run) {
  const cli_command *command;
  cli_exit code = find_operand(run, &command);
  if (code == CLI_ANSWERED && command != NULL) {
    cli_help_command(run->host, command);
  } else if (code == CLI_ANSWERED) {
    cli_help_all(run->host);
  }
  return code;
}

static cli_exit run_manual(cli_run *run) {
  const cli_command *command;
  cli_exit code = find_operand(run, &command);
  if (code == CLI_ANSWERED && command != NULL) {
    cli_manual_command(run->host->sink, command);
  } else if (code == CLI_ANSWERED) {
    cli_manual_all(run->host->sink);
  }
  return code;
}

static cli_exit run_completion(cli_run *run) {
  const char *shell = run->request.operands[0];
  if (strcmp(shell, "bash") != 0) {
    return cli_usage(run->command,
                     "there is no completion for \"%s\", only "
                     "for bash",
                     shell);
  }
  cli_completion_bash(run->host->sink);
  return CLI_ANSWERED;
}

const cli_command cli_help = {
    .name = "help",
    .operands = "[COMMAND]",
    .least = 0,
    .most = 1,
    .question = "how is this used?",
    .about = "Shows all commands, or teaches one.",
    .groups = groups,
    .run = run_help,
};

const cli_command cli_manual = {
    .name = "manual",
    .operands = "[COMMAND]",
    .least = 0,
    .most = 1,
    .question = "the manual page",
    .about =
        "Writes the manual page of the program, or of one command, in "
        "the form that man reads: scatterwise manual change | man -l -",
    .groups = groups,
    .run = run_manual,
};

const cli_command cli_completion = {
    .name = "completion",
    .operands = "bash",
    .least = 1,
    .most = 1,
    .question = "completion for the shell",
    .about =
        "Writes the completion rules for bash. For the running shell: "
        "source <(scatterwise completion bash)",
    .groups = groups,
    .run = run_completion,
};
