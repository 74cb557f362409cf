/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exit status: one list for the program, the help and the man pages. */
#ifndef CLI_EXIT_STATUS_H
#define CLI_EXIT_STATUS_H

#define CLI_EXIT_LIST(X)                                                       \
  X(CLI_ANSWERED, 0, "answered; \"cannot tell\" is an answer")                 \
  X(CLI_NO_FIGURE, 1,                                                          \
    "no figure or interval can be given, or the plan is impossible")           \
  X(CLI_BAD_USAGE, 2, "the command line cannot be used")                       \
  X(CLI_BAD_INPUT, 3, "an input cannot be read or does not make sense")        \
  X(CLI_NOT_WRITTEN, 4, "the output could not be written")

typedef enum cli_exit {
#define CLI_EXIT_ENUM(name, number, text) name = number,
  CLI_EXIT_LIST(CLI_EXIT_ENUM)
#undef CLI_EXIT_ENUM
} cli_exit;

#endif
