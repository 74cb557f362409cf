/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Members of a JSON object by key and kind, refused at their place. */
#ifndef SCWI_BENCH_FIELDS_H
#define SCWI_BENCH_FIELDS_H

#include "context.h"
#include "json_in.h"

/* Where the fields are looked for. */
typedef struct scwi_fields {
  scw_context *context;
  const char *name;              /* of the file */
  const char *what;              /* "a scatter entry", for messages */
  const scwi_json_value *object;
} scwi_fields;

/* `value` as an object whose keys are all among `known`; else where it is not,
 * naming the keys there are. */
scw_status scwi_fields_of(scw_context *context, const char *name,
                          const char *what, const scwi_json_value *value,
                          const char *const *known, size_t n,
                          scwi_fields *out);

/* The member of that kind, or null when it is left out and not required. */
scw_status scwi_field(const scwi_fields *fields, const char *key,
                      scwi_json_kind kind, bool required,
                      const scwi_json_value **out);

/* A readable text; "" when it is left out and not required. One that is there
 * is never empty. */
scw_status scwi_field_text(const scwi_fields *fields, const char *key,
                           bool required, const char **out);

/* "KEY WORDS", told at the member's place, or the object's without one. */
scw_status scwi_field_fails(const scwi_fields *fields, const char *key,
                            const char *words);

#endif
