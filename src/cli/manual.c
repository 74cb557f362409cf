/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "manual.h"

#include <string.h>

#include "help.h"
#include "print.h"

/* Text with what roff takes for itself escaped. An empty line parts
 * paragraphs. */
static void escape(scw_sink sink, const char *text) {
  bool at_start = true;
  for (; *text != '\0'; text++) {
    if (strncmp(text, "\n\n", 2) == 0) {
      cli_print(sink, "\n.PP");
      text++;
    }
    if (at_start && (*text == '.' || *text == '\'')) {
      cli_print(sink, "\\&");
    }
    at_start = *text == '\n';
    if (*text == '\\') {
      cli_print(sink, "\\e");
    } else if (*text == '-') {
      cli_print(sink, "\\-");
    } else {
      cli_print(sink, "%c", *text);
    }
  }
}

static void print_text(scw_sink sink, const char *text) {
  escape(sink, text);
  cli_print(sink, "\n");
}

static void print_title(scw_sink sink, const char *dash, const char *name,
                        const char *question) {
  cli_print(sink, ".TH SCATTERWISE");
  for (const char *c = name; *c != '\0'; c++) {
    if (c == name) {
      cli_print(sink, "\\-");
    }
    cli_print(sink, "%c", *c >= 'a' && *c <= 'z' ? *c - 'a' + 'A' : *c);
  }
  cli_print(sink, " 1 \"\" \"scatterwise %s\"\n.SH NAME\nscatterwise%s%s \\- ",
            scw_version(), dash, name);
  print_text(sink, question);
}

static void print_forms(scw_sink sink, const cli_command *command) {
  const char *rest = command->operands, *form;
  size_t size;
  cli_print(sink, ".SH SYNOPSIS\n");
  while (cli_next_form(&rest, &form, &size)) {
    cli_print(sink, ".B scatterwise %s\n%.*s%s[option...]\n.br\n",
              command->name, (int)size, form, size > 0 ? " " : "");
  }
}

static void print_option(scw_sink sink, const cli_option *option) {
  cli_print(sink, ".TP\n.B ");
  escape(sink, "--");
  escape(sink, option->name);
  if (option->argument != NULL) {
    cli_print(sink, " ");
    escape(sink, option->argument);
  }
  cli_print(sink, "\n");
  escape(sink, option->help);
  if (option->fallback != NULL) {
    cli_print(sink, " (without it: ");
    escape(sink, option->fallback);
    cli_print(sink, ")");
  }
  cli_print(sink, "\n");
}

static void print_options(scw_sink sink, const cli_command *command) {
  cli_print(sink, ".SH OPTIONS\n");
  for (const cli_group *const *g = command->groups; *g != NULL; g++) {
    cli_print(sink, ".SS %s\n", (*g)->title);
    if ((*g)->about != NULL) {
      print_text(sink, (*g)->about);
    }
    for (size_t i = 0; i < (*g)->n; i++) {
      print_option(sink, &(*g)->options[i]);
    }
  }
}

static void print_example(scw_sink sink, const cli_command *command) {
  cli_capture answer;
  if (!cli_example_answer(command, &answer)) {
    return;
  }
  cli_print(sink,
            ".SH EXAMPLE\nOn files that\n.B scatterwise demo \\-\\-write "
            "DIR\nwrites:\n.PP\n.nf\n$ scatterwise ");
  print_text(sink, command->example);
  print_text(sink, answer.text);
  cli_print(sink, ".fi\n");
}

static void print_exit_status(scw_sink sink) {
  cli_print(sink, ".SH EXIT STATUS\n");
#define PRINT_EXIT(name, number, text)                                         \
  cli_print(sink, ".TP\n.B %d\n", number);                                     \
  print_text(sink, text);
  CLI_EXIT_LIST(PRINT_EXIT)
#undef PRINT_EXIT
}

static void print_environment(scw_sink sink) {
  cli_print(sink,
            ".SH ENVIRONMENT\n.TP\n.B NO_COLOR\nWhen set, no colour is "
            "used; none is used away from a terminal either.\n.TP\n.B LC_ALL, "
            "LC_CTYPE, LANG\nThe first one set decides whether text may go "
            "beyond ASCII.\n");
}

void cli_manual_command(scw_sink sink, const cli_command *command) {
  print_title(sink, "-", command->name, command->question);
  print_forms(sink, command);
  cli_print(sink, ".SH DESCRIPTION\n");
  print_text(sink, command->about);
  print_options(sink, command);
  print_example(sink, command);
  print_exit_status(sink);
  print_environment(sink);
  cli_print(sink, ".SH SEE ALSO\n.BR scatterwise (1)\n");
}

void cli_manual_all(scw_sink sink) {
  print_title(sink, "", "", "a change of the readings, or scatter?");
  cli_print(sink,
            ".SH SYNOPSIS\n.B scatterwise\nCOMMAND [option...]\n"
            ".SH DESCRIPTION\n");
  print_text(sink, cli_purpose);
  cli_print(sink, ".SH COMMANDS\n");
  for (const cli_command *const *c = cli_commands; *c != NULL; c++) {
    cli_print(sink, ".TP\n.B %s\n", (*c)->name);
    print_text(sink, (*c)->question);
  }
  print_exit_status(sink);
  print_environment(sink);
  cli_print(sink, ".SH SEE ALSO\n");
  for (const cli_command *const *c = cli_commands; *c != NULL; c++) {
    if ((*c)->example != NULL) {
      cli_print(sink, ".BR scatterwise\\-%s (1)\n", (*c)->name);
    }
  }
}
