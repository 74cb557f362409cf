/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a tester types while readings are taken. */
#ifndef CLI_TAKE_LINE_H
#define CLI_TAKE_LINE_H

#include <stdbool.h>
#include <stddef.h>

typedef enum cli_take_verb {
  CLI_TAKE_NOTHING, /* an empty line */
  CLI_TAKE_READING, /* [SPOT] READING [UNIT] */
  CLI_TAKE_AGAIN,   /* again [SPOT] READING REASON */
  CLI_TAKE_UNDO,    /* undo [NUMBER] REASON */
  CLI_TAKE_MARK,    /* mark [NUMBER] REASON */
  CLI_TAKE_NOTE,    /* note TEXT */
  CLI_TAKE_STOP,
  CLI_TAKE_HELP,
  CLI_TAKE_UNCLEAR  /* too many words to be a reading */
} cli_take_verb;

/* Texts point into the line; null where there is none. */
typedef struct cli_take_line {
  cli_take_verb verb;
  char *spot, *reading, *reason; /* the reason, or the note; never null for
                                    verbs that have one */
  size_t order;                  /* 0: the last reading */
} cli_take_line;

/* Takes the line apart in place. `unit` may follow a reading ("" or null: none
 * is known). */
cli_take_line cli_read_take_line(char *line, const char *unit);

/* One line for each thing that can be typed. */
extern const char cli_take_help[];

#endif
