/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Values of the options about places on a panel. */
#ifndef CLI_STORE_SPOTS_H
#define CLI_STORE_SPOTS_H

#include "command.h"

/* 300x200, "300 x 200 mm" */
const char *cli_store_size(char *text, void *field);
/* spread, grid, random */
const char *cli_store_layout(char *text, void *field);
/* random, walk */
const char *cli_store_reading_order(char *text, void *field);

#endif
