/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading tables: a file, stream or array becomes a list of readings with
 * their roles, and an account of what was used and what was not. Every shape
 * (bare list, wide pair, wide repeats, side by side, long) ends as the same
 * list: one scw_reading per reading, labels interned. */
#ifndef SCATTERWISE_TABLE_H
#define SCATTERWISE_TABLE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "scatterwise/sink.h"

#ifdef __cplusplus
extern "C" {
#endif

/* What a column means. Roles come from header words (docs/manual) or from
 * options; SCW_ROLE_COUNT closes the list. */
typedef enum scw_role {
  SCW_ROLE_READING,
  SCW_ROLE_SET,       /* any labels the caller groups by */
  SCW_ROLE_PRODUCT,
  SCW_ROLE_PANEL,
  SCW_ROLE_STATE,     /* before or after */
  SCW_ROLE_SPOT,
  SCW_ROLE_REPEAT,
  SCW_ROLE_ORDER,
  SCW_ROLE_SESSION,
  SCW_ROLE_DIRECTION,
  SCW_ROLE_GEOMETRY,
  SCW_ROLE_X,
  SCW_ROLE_Y,
  SCW_ROLE_REPLACES,  /* any mark: read again in place of an earlier one */
  SCW_ROLE_TAKES_BACK, /* order number of an earlier reading that no longer
                          counts */
  SCW_ROLE_OPERATOR,   /* who took the reading: a person or a laboratory */
  SCW_ROLE_ROW, SCW_ROLE_COLUMN, /* place on a grid, by letter or number */
  /* Of a dated log; found from header words with scw_table_options.log. */
  SCW_ROLE_DATE,
  SCW_ROLE_INSTRUMENT, /* the meter or gauge */
  SCW_ROLE_STANDARD,   /* the check standard: a tile, a block */
  SCW_ROLE_EVENT,      /* a remark on a day: recalibrated */
  /* Of a bridge; found from header words with scw_table_options.bridge. */
  SCW_ROLE_KIND,       /* tells products from baselines */
  SCW_ROLE_COUNT
} scw_role;

/* The role's name as documented: "reading", "set", ...; never null. */
SCW_API const char *scw_role_name(scw_role role);

/* The two sides of a change, told from the state column or from headers. */
typedef enum scw_side { SCW_SIDE_NONE, SCW_SIDE_BEFORE, SCW_SIDE_AFTER } scw_side;

/* The mark a value carried in the file. Marked values are kept. */
typedef enum scw_mark {
  SCW_MARK_NONE,
  SCW_MARK_STAR,     /* 87.4* */
  SCW_MARK_BRACKET   /* (87.4) */
} scw_mark;

enum { SCW_NO_LABEL = -1 };

/* One reading. The decimal as written is mantissa * 10^-digits when `exact`;
 * ties, steps and equality are decided on it, never on `value`. Labels are
 * indices for scw_table_label, or SCW_NO_LABEL where the file has none. */
typedef struct scw_reading {
  double value;
  int64_t mantissa;
  int16_t digits;
  bool exact;
  scw_mark mark;
  scw_side side;
  int32_t set, product, panel, state, spot, repeat, session, direction, geometry;
  int32_t replaces;      /* the cell of the replaces column, else
                            SCW_NO_LABEL; both readings are kept */
  double order, x, y;    /* NaN where the file has none */
  size_t line, column;   /* in the file, counted from 1 */
  int32_t takes_back;    /* the cell of the takes_back column, else
                            SCW_NO_LABEL */
  int32_t by;            /* the operator */
  int32_t grid_row, grid_column; /* of the row and column columns, which go
                            together */
  int32_t date, instrument, standard, event; /* as written, of a dated log */
  int32_t kind;          /* product or baseline, of a bridge */
} scw_reading;

/* How to read; zero-initialise for all guesses. Column names are matched
 * without case and without the unit in the header; null: found from header
 * words. */
typedef struct scw_table_options {
  const char *column[SCW_ROLE_COUNT]; /* --reading C, --spot C, ...; for
                                         SET a comma-separated list */
  const char *before_label, *after_label; /* labels in the state column, or
                              column patterns such as 'b*' in wide files */
  char separator;       /* ',', ';', '\t', ' ' or 0: found */
  char decimal_mark;    /* '.', ',' or 0: found */
  const char *unit;     /* overrides the unit in the header */
  const char *geometry; /* "60": all readings of the file; overrides nothing:
                           a file that says otherwise is refused */
  scw_side side;        /* the whole file is one side: change BEFORE AFTER */
  bool log;             /* a dated log: header words for date, instrument,
                           standard and event are looked for; `date` is then no
                           session, and a note is an event */
  bool bridge;          /* an old method beside a new one: header words item,
                           method, kind, old and new are looked for; the old
                           side is before, the new one after */
} scw_table_options;

/* A cell or row that was not used, and why. `reason` is a short fixed text:
 * "missing", "censored", "summary line", "comment", "no spot", "taken back",
 * "takes back" (the row that does), ... */
typedef struct scw_not_used {
  size_t line, column;
  const char *reason;
  const char *text;
} scw_not_used;

/* The account of one input. Strings are borrowed from the table. */
typedef struct scw_input {
  const char *name;
  char sha256[65];           /* of the bytes read; "" for arrays */
  unsigned long long bytes;
  const char *encoding;      /* "UTF-8", "UTF-16LE", "UTF-16BE", "Latin-1" */
  char separator, decimal_mark; /* 0: none seen */
  bool separator_given, decimal_mark_given;
  const char *shape;         /* "bare list", "wide pair", ... */
  const char *role_column[SCW_ROLE_COUNT]; /* header that plays it, or null */
  const char *unit;          /* of the readings, "" when not said */
  const char *quantity;      /* header word of the readings, "" when none */
  const char *geometry;      /* "" when not said */
  size_t rows;               /* rows of data seen */
  size_t used;               /* readings used */
  size_t labels_carried;     /* empty label cells that took the label above
                                them, as merged cells are exported */
  size_t labels_carried_line; /* the first of them; 0: none */
  size_t n_not_used;
  const scw_not_used *not_used;
} scw_input;

typedef struct scw_table scw_table;

/* Reads one source to its end. On failure *out is null and the message names
 * file, line, column, the text seen and what was expected: SCW_BAD_INPUT for
 * the input, SCW_BAD_ARGUMENT for a column or setting that does not fit.
 * Cost: one pass, memory in proportion to the number of readings. */
SCW_API scw_status scw_table_read(scw_context *context,
                                  const scw_table_options *options,
                                  scw_source source, scw_table **out);

/* The same from a file by its path; messages use the base name. */
SCW_API scw_status scw_table_read_file(scw_context *context,
                                       const scw_table_options *options,
                                       const char *path, scw_table **out);

/* One set of n doubles without a file; each is taken at its shortest decimal
 * text, so 87.4 has one decimal. Non-finite values: SCW_BAD_INPUT. */
SCW_API scw_status scw_table_from_values(scw_context *context, const char *name,
                                         const double *values, size_t n,
                                         scw_table **out);

/* Appends the readings of `more` (labels merged by text), so that one table
 * holds several files; `more` is emptied but still freed by the caller. Its
 * account becomes one more input. */
SCW_API scw_status scw_table_append(scw_context *context, scw_table *table,
                                    scw_table *more);

SCW_API void scw_table_free(scw_table *table);

/* Events of a log whose row has no reading, in the order of the file; `value`
 * is 0. */
SCW_API size_t scw_table_events(const scw_table *table);
SCW_API const scw_reading *scw_table_event(const scw_table *table,
                                           size_t index);

SCW_API size_t scw_table_size(const scw_table *table);
SCW_API const scw_reading *scw_table_readings(const scw_table *table);
SCW_API const char *scw_table_label(const scw_table *table, int32_t label);
/* The input a reading came from, as an index into scw_table_input. */
SCW_API size_t scw_table_input_of(const scw_table *table, size_t reading);
SCW_API size_t scw_table_inputs(const scw_table *table);
SCW_API const scw_input *scw_table_input(const scw_table *table, size_t index);

#ifdef __cplusplus
}
#endif
#endif
