/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stream.h"

#include "write.h"

void scwi_stream_text(scwi_stream *stream, const char *text) {
  if (stream->status == SCW_OK)
    stream->status = scwi_write_text(stream->context, stream->sink, text);
}

void scwi_stream_json(scwi_stream *stream, scwi_json *value) {
  if (stream->status == SCW_OK)
    stream->status = scwi_json_write(stream->context, value, stream->sink);
  else
    scwi_json_free(value);
}

/* A sink that keeps the last byte to itself, and the first one if asked to. */
typedef struct holding {
  scw_sink sink;
  char last;
  bool any, first;
} holding;

static int hold_last(void *user, const char *data, size_t size) {
  holding *held = user;
  if (size > 0 && held->first) {
    held->first = false;
    data++;
    size--;
  }
  if (size == 0) return 0;
  int refused =
      held->any ? held->sink.write(held->sink.user, &held->last, 1) : 0;
  if (!refused && size > 1)
    refused = held->sink.write(held->sink.user, data, size - 1);
  held->last = data[size - 1];
  held->any = true;
  return refused;
}

static void write_through(scwi_stream *stream, scwi_json *object,
                          holding held) {
  scw_sink whole = stream->sink;
  held.sink = whole;
  stream->sink = (scw_sink){hold_last, &held};
  scwi_stream_json(stream, object);
  stream->sink = whole;
}

void scwi_stream_json_open(scwi_stream *stream, scwi_json *object) {
  write_through(stream, object, (holding){.first = false});
}

void scwi_stream_json_members(scwi_stream *stream, scwi_json *object) {
  write_through(stream, object, (holding){.first = true});
}
