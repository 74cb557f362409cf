/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Help, from the command table. */
#ifndef CLI_HELP_H
#define CLI_HELP_H

#include "command.h"
#include "output.h"

/* The program in one paragraph. */
extern const char cli_purpose[];

void cli_help_all(const cli_host *host);
void cli_help_command(const cli_host *host, const cli_command *command);

/* Runs the command's example on the demo's own files and keeps the first
 * paragraph of its output: the answer. False where there is no example. */
bool cli_example_answer(const cli_command *command, cli_capture *answer);

/* One way to call a command after another: "FILE | BEFORE AFTER" has two.
 * Starts with *rest = command->operands; false at the end. */
bool cli_next_form(const char **rest, const char **form, size_t *size);

#endif
