/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A pilot file gives the scatter a plan is made from. */
#ifndef CLI_PILOT_H
#define CLI_PILOT_H

#include "command.h"

/* Reads the pilot and fills sd, sd_after and pilot_readings of the plan. The
 * table is the caller's to free, and gives the account and the unit. */
cli_exit cli_read_pilot(cli_run *run, scw_plan_request *plan,
                        scw_table **table);

#endif
