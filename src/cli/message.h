/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What goes to standard error. */
#ifndef CLI_MESSAGE_H
#define CLI_MESSAGE_H

#include "command.h"

/* `scatterwise: ...` and a line end. */
void cli_say(const char *format, ...) __attribute__((format(printf, 1, 2)));

/* A message and the line that says where to look; returns CLI_BAD_USAGE. The
 * command may be null: the hint then names the general help. */
cli_exit cli_usage(const cli_command *command, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* Says what the context says, with a hint where the usage was wrong, and turns
 * the status of a failed call into an exit status. */
cli_exit cli_failed(const cli_run *run, scw_status status);

#endif
