/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text into a sink. What a sink refuses it remembers, so these return
 * nothing: the last act of the program looks at it. */
#ifndef CLI_PRINT_H
#define CLI_PRINT_H

#include "scatterwise/sink.h"

void cli_print(scw_sink sink, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* `text` wrapped to 80 columns, each line after `indent` spaces; the first
 * line starts at column `at`. Ends with a line end. */
void cli_print_wrapped(scw_sink sink, const char *text, size_t at,
                       size_t indent);

#endif
