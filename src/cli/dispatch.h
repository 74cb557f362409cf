/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs a command line given as one text, as the demo and the help do. */
#ifndef CLI_DISPATCH_H
#define CLI_DISPATCH_H

#include "command.h"

/* `line` holds a command and its arguments, parted by spaces; single quotes
 * keep words together. The word scatterwise is left out. */
cli_exit cli_run_line(const cli_host *host, const char *line);

#endif
