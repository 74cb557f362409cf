/* SPDX-License-Identifier: GPL-3.0-or-later */
/* JSON out, through cJSON, one value at a time. Numbers are our own shortest
 * round-trip text; figures that do not exist become null and enter their
 * object's "missing" map. A failed allocation is remembered and told by
 * scwi_json_write. */
#ifndef SCWI_JSON_OUT_H
#define SCWI_JSON_OUT_H

#include "context.h"
#include "scatterwise/figures.h"
#include "scatterwise/sink.h"
#include "text.h"

typedef struct scwi_json scwi_json; /* an object or array being built */

scwi_json *scwi_json_object(void);      /* null when memory ran out */
scwi_json *scwi_json_array(void);
void scwi_json_free(scwi_json *value);

/* Adding to an object (key given) or array (key null). A null `to` or child
 * marks the failure and is otherwise ignored; children are owned by `to`. */
void scwi_json_add(scwi_json *to, const char *key, scwi_json *child);
void scwi_json_text(scwi_json *to, const char *key, const char *text); /* null
                                                           text: JSON null */
void scwi_json_number(scwi_json *to, const char *key, double value);
void scwi_json_whole(scwi_json *to, const char *key, unsigned long long value);
void scwi_json_bool(scwi_json *to, const char *key, bool value);
void scwi_json_null(scwi_json *to, const char *key);
/* A figure: its number, or null and an entry in to's "missing" object. */
void scwi_json_figure(scwi_json *to, const char *key, scw_figure figure);
/* {"level":..,"low":..,"high":..}, with null ends and a missing map inside. */
void scwi_json_interval(scwi_json *to, const char *key, scw_interval interval);

/* Writes the value to the sink, without line ends inside, and frees it.
 * SCW_OUT_OF_MEMORY when any addition failed, SCW_NOT_WRITTEN by the sink. */
scw_status scwi_json_write(scw_context *context, scwi_json *value,
                           scw_sink sink);

/* Objects written straight into text, for reports that hold them by the hundred
 * thousand: the same bytes as through scwi_json_write in a fraction of the
 * time. Zero-initialise; a failed append is remembered by `text`. */
typedef struct scwi_json_flat {
  scwi_text text;    /* everything written so far */
  scwi_text missing; /* of the object that is open */
} scwi_json_flat;

void scwi_json_flat_open(scwi_json_flat *to);
void scwi_json_flat_close(scwi_json_flat *to);
/* Fields of the open object, as above. */
void scwi_json_flat_text(scwi_json_flat *to, const char *key,
                         const char *text);
void scwi_json_flat_whole(scwi_json_flat *to, const char *key,
                          unsigned long long value);
void scwi_json_flat_figure(scwi_json_flat *to, const char *key,
                           scw_figure figure);
void scwi_json_flat_interval(scwi_json_flat *to, const char *key,
                             scw_interval interval);
void scwi_json_flat_free(scwi_json_flat *flat);
#endif
