/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parts of the JSON reports. Keys are documented in docs/manual/output.md. */
#ifndef SCWI_JSON_PARTS_H
#define SCWI_JSON_PARTS_H

#include "inputs.h"
#include "scatterwise/change.h"
#include "stream.h"

/* The envelope up to `"results":{`, and from `}` on to its end. `settings` is
 * freed. */
void scwi_json_begin(scwi_stream *stream, const char *command,
                     const scwi_inputs *inputs, scwi_json *settings);
void scwi_json_end(scwi_stream *stream, const scw_note *notes, size_t n);

/* One item of an array that is written an item at a time. */
void scwi_json_item(scwi_stream *stream, size_t index, scwi_json *item);

/* Method settings as an object. */
scwi_json *scwi_json_settings(const scw_settings *settings);

/* A count that is null where there is none. */
void scwi_json_count(scwi_json *to, const char *key, size_t count);

void scwi_json_notes(scwi_json *to, const char *key, const scw_note *notes,
                     size_t n);

/* A reading set with all its figures. */
scwi_json *scwi_json_set(const scw_set_report *set);

#endif
