/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Output in pieces: the first failure is kept and what follows is skipped, so
 * that a report is checked once, at its end. */
#ifndef SCWI_STREAM_H
#define SCWI_STREAM_H

#include "json_out.h"
#include "scatterwise/sink.h"

typedef struct scwi_stream {
  scw_context *context;
  scw_sink sink;
  scw_status status;
} scwi_stream;

void scwi_stream_text(scwi_stream *stream, const char *text);

/* Writes a JSON value and frees it, also after a failure. */
void scwi_stream_json(scwi_stream *stream, scwi_json *value);

/* The same without the closing brace of an object, so that members too many
 * for one tree can follow one at a time. */
void scwi_stream_json_open(scwi_stream *stream, scwi_json *object);

/* The members of an object without its braces, for one that is open. */
void scwi_stream_json_members(scwi_stream *stream, scwi_json *object);

#endif
