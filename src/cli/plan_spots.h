/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan --spots: where to read, and a template to fill in. */
#ifndef CLI_PLAN_SPOTS_H
#define CLI_PLAN_SPOTS_H

#include "command.h"

extern const cli_group cli_spot_options;

cli_exit cli_plan_spots(cli_run *run);

/* Whether an option of the group was given that only --spots uses. */
bool cli_only_for_spots(const cli_request *request);

/* Refuses lengths in two units. */
cli_exit cli_check_lengths(const cli_run *run);

#endif
