/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command line becomes a request, by the command's option table. */
#ifndef CLI_PARSE_H
#define CLI_PARSE_H

#include "command.h"

/* argv[0] is the name of the command. Fills a request that starts with the
 * defaults; returns CLI_ANSWERED, or CLI_BAD_USAGE with the message said. The
 * number of operands is not checked where help is asked for. */
cli_exit cli_parse(const cli_command *command, int argc, char **argv,
                   cli_request *request);
void cli_request_free(cli_request *request);

/* Walks a command's options: null at the end. Start with *cursor = 0. */
const cli_option *cli_next_option(const cli_command *command, size_t *cursor);

#endif
