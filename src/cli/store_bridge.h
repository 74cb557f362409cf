/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Values of the options of bridge, each given as often as wanted. */
#ifndef CLI_STORE_BRIDGE_H
#define CLI_STORE_BRIDGE_H

#include "command.h"

/* DATE=REASON into cli_bridge_request.fence */
const char *cli_store_fence(char *text, void *field);
/* VALUE, VALUE,U or the one FILE into cli_bridge_request.convert */
const char *cli_store_conversion(char *text, void *field); /* cli_conversion */
const char *cli_store_convert(char *text, void *field);

#endif
