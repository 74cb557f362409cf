/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_DEMO_WRITE_H
#define CLI_DEMO_WRITE_H

#include "command.h"

/* Writes the demo's files into `folder`, made if need be. Nothing is written
 * where one of them is there already. Says what it wrote. */
cli_exit cli_demo_write(scw_sink sink, const char *folder);

#endif
