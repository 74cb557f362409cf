/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bytes and CSV cells into a sink. */
#ifndef SCWI_WRITE_H
#define SCWI_WRITE_H

#include "context.h"
#include "scatterwise/sink.h"

/* SCW_NOT_WRITTEN when the sink refuses. */
scw_status scwi_write(scw_context *context, scw_sink sink, const char *data,
                      size_t size);
scw_status scwi_write_text(scw_context *context, scw_sink sink,
                           const char *text);
/* One RFC 4180 row closed by LF, cells quoted where needed; a null cell is
 * empty. A cell
 * that a spreadsheet would take for a formula (= + - @ first, and not a
 * number) is written with a leading apostrophe. */
scw_status scwi_write_row(scw_context *context, scw_sink sink,
                          const char *const *cells, size_t n);
#endif
