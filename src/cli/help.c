/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "help.h"

#include <stdio.h>
#include <string.h>

#include "dispatch.h"
#include "print.h"

enum { MARGIN = 2, HELP_COLUMN = 28 };

const char cli_purpose[] =
    "scatterwise works for those who test surface-care products on painted "
    "panels: from a few readings it says what they are worth, whether a change "
    "is real or the panel's own scatter, and how many readings it takes.";

bool cli_next_form(const char **rest, const char **form, size_t *size) {
  if (*rest == NULL) {
    return false;
  }
  const char *bar = strstr(*rest, " | ");
  *form = *rest;
  *size = bar != NULL ? (size_t)(bar - *rest) : strlen(*rest);
  *rest = bar != NULL ? bar + 3 : NULL;
  return true;
}

bool cli_example_answer(const cli_command *command, cli_capture *answer) {
  if (command->example == NULL) {
    return false;
  }
  const cli_host host = {
      .sink = cli_capture_sink(answer), .ascii = true, .built_in = true};
  cli_run_line(&host, command->example);
  char *end = strstr(answer->text, "\n\n");
  if (end != NULL) {
    *end = '\0';
  }
  return *answer->text != '\0';
}

static void print_forms(scw_sink sink, const cli_command *command) {
  const char *rest = command->operands, *form;
  size_t size;
  while (cli_next_form(&rest, &form, &size)) {
    cli_print(sink, "  scatterwise %s%s%.*s [option...]\n", command->name,
              size > 0 ? " " : "", (int)size, form);
  }
}

static void print_option(scw_sink sink, const cli_option *option) {
  char left[64], right[512];
  int size = snprintf(left, sizeof left, "--%s%s%s", option->name,
                      option->argument != NULL ? " " : "",
                      option->argument != NULL ? option->argument : "");
  snprintf(right, sizeof right, "%s%s%s%s", option->help,
           option->fallback != NULL ? " (without it: " : "",
           option->fallback != NULL ? option->fallback : "",
           option->fallback != NULL ? ")" : "");
  cli_print(sink, "  %s", left);
  cli_print_wrapped(sink, right, MARGIN + (size_t)size, HELP_COLUMN);
}

static void print_group(scw_sink sink, const cli_group *group) {
  cli_print(sink, "\n%s\n", group->title);
  if (group->about != NULL) {
    cli_print_wrapped(sink, group->about, 0, MARGIN);
  }
  for (size_t i = 0; i < group->n; i++) {
    print_option(sink, &group->options[i]);
  }
}

static void print_example(scw_sink sink, const cli_command *command) {
  cli_capture answer;
  if (!cli_example_answer(command, &answer)) {
    return;
  }
  cli_print(sink,
            "\nExample, on files that `scatterwise demo --write DIR` "
            "writes\n  $ scatterwise %s\n",
            command->example);
  cli_print_wrapped(sink, answer.text, 0, MARGIN);
}

void cli_help_command(const cli_host *host, const cli_command *command) {
  scw_sink sink = host->sink;
  cli_print(sink, "scatterwise %s: ", command->name);
  cli_print_wrapped(sink, command->question, 14 + strlen(command->name), 0);
  cli_print(sink, "\n");
  print_forms(sink, command);
  cli_print(sink, "\n");
  cli_print_wrapped(sink, command->about, 0, 0);
  print_example(sink, command);
  for (const cli_group *const *g = command->groups; *g != NULL; g++) {
    print_group(sink, *g);
  }
}

void cli_help_all(const cli_host *host) {
  scw_sink sink = host->sink;
  cli_print_wrapped(sink, cli_purpose, 0, 0);
  cli_print(sink, "\n  scatterwise COMMAND [option...]\n\nCommands\n");
  for (const cli_command *const *c = cli_commands; *c != NULL; c++) {
    cli_print(sink, "  %s", (*c)->name);
    cli_print_wrapped(sink, (*c)->question, MARGIN + strlen((*c)->name), 14);
  }
  cli_print(sink,
            "\n`scatterwise COMMAND --help` teaches a command with an "
            "example.\n`scatterwise demo` shows the whole job on built-in "
            "readings.\n\nExit status\n");
#define PRINT_EXIT(name, number, text)                                         \
  cli_print(sink, "  %d  ", number);                                           \
  cli_print_wrapped(sink, text, 5, 5);
  CLI_EXIT_LIST(PRINT_EXIT)
#undef PRINT_EXIT
}
