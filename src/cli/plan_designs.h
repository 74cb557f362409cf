/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan --pilot FILE with costs: panels, sessions, spots and repeats. */
#ifndef CLI_PLAN_DESIGNS_H
#define CLI_PLAN_DESIGNS_H

#include "command.h"

/* Refuses costs that cannot be weighed, and what goes with costs only. */
cli_exit cli_check_designs(const cli_run *run);

/* Splits the pilot's scatter and fills in costs and room; the table is the
 * caller's to free. */
cli_exit cli_read_scatter(cli_run *run, scw_plan_request *plan,
                          scw_plan_scatter *scatter, scw_table **table);

#endif
