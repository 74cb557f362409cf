/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_TAKE_RUN_H
#define CLI_TAKE_RUN_H

#include "command.h"
#include "keep.h"

/* Takes lines until they end, one asks to stop, or something fails. */
cli_exit cli_take_readings(cli_run *run, cli_keep *keep, scw_take *take);

#endif
