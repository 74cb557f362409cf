/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shell completion, from the command table. */
#ifndef CLI_COMPLETION_H
#define CLI_COMPLETION_H

#include "scatterwise/sink.h"

void cli_completion_bash(scw_sink sink);

#endif
