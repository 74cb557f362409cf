/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Manual pages in roff, from the command table. */
#ifndef CLI_MANUAL_H
#define CLI_MANUAL_H

#include "command.h"

void cli_manual_all(scw_sink sink);
void cli_manual_command(scw_sink sink, const cli_command *command);

#endif
