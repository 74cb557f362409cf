/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "message.h"

#include <stdarg.h>
#include <stdio.h>

static void say(const char *format, va_list arguments) {
  fputs("scatterwise: ", stderr);
  vfprintf(stderr, format, arguments);
  fputc('\n', stderr);
}

static void hint(const cli_command *command) {
  fprintf(stderr, "Try: scatterwise %s%s--help\n",
          command != NULL ? command->name : "", command != NULL ? " " : "");
}

void cli_say(const char *format, ...) {
  va_list arguments;
  va_start(arguments, format);
  say(format, arguments);
  va_end(arguments);
}

cli_exit cli_usage(const cli_command *command, const char *format, ...) {
  va_list arguments;
  va_start(arguments, format);
  say(format, arguments);
  va_end(arguments);
  hint(command);
  return CLI_BAD_USAGE;
}

static cli_exit exit_of(scw_status status) {
  switch (status) {
    case SCW_OK:
      return CLI_ANSWERED;
    case SCW_BAD_ARGUMENT:
      return CLI_BAD_USAGE;
    case SCW_BAD_INPUT:
      return CLI_BAD_INPUT;
    case SCW_NOT_WRITTEN:
      return CLI_NOT_WRITTEN;
    default:
      return CLI_NO_FIGURE;
  }
}

cli_exit cli_failed(const cli_run *run, scw_status status) {
  cli_exit code = exit_of(status);
  const char *message = scw_context_message(run->context);
  /* A refused write is reported once, by the output itself. */
  if (code != CLI_NOT_WRITTEN) {
    cli_say("%s", *message != '\0' ? message : scw_status_text(status));
  }
  if (code == CLI_BAD_USAGE) {
    hint(run->command);
  }
  return code;
}
