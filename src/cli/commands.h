/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One file each. */
#ifndef CLI_COMMANDS_H
#define CLI_COMMANDS_H

#include "command.h"

extern const cli_command cli_panel, cli_budget, cli_bridge, cli_drift, cli_audit, cli_compare, cli_score;
extern const cli_command cli_readings, cli_change, cli_plan, cli_take, cli_demo, cli_help,
    cli_manual, cli_completion;

#endif
