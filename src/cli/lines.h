/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines as they come: typed or piped, and from a file that grows meanwhile. An
 * interrupt or a request to end is an answer like any other. */
#ifndef CLI_LINES_H
#define CLI_LINES_H

#include "command.h"

enum { CLI_LONGEST_LINE = 1024 };

/* One place that lines come from. */
typedef struct cli_stream {
  int descriptor;           /* -1: none, or ended */
  const scw_source *source; /* in place of the descriptor; never waited for */
  char text[2 * CLI_LONGEST_LINE];
  size_t size;    /* bytes in text */
  size_t number;  /* of the last line given */
  bool skipping;  /* the rest of a line that is too long */
} cli_stream;

typedef struct cli_lines {
  cli_stream typed, followed;
  int signals;
  bool follows;
} cli_lines;

typedef enum cli_line_kind {
  CLI_LINE_TYPED,    /* from standard input */
  CLI_LINE_FOLLOWED, /* from the growing file */
  CLI_LINE_TOO_LONG,
  CLI_LINE_UNCLOSED, /* the input ended within this line */
  CLI_LINE_END,      /* the input has ended */
  CLI_LINE_SIGNAL,   /* asked to end */
  CLI_LINE_FAILED    /* errno says why */
} cli_line_kind;

typedef struct cli_line {
  cli_line_kind kind;
  char text[CLI_LONGEST_LINE + 1];
  size_t number; /* in its stream */
} cli_line;

/* Lines are typed, or those of `source` where it is not null. `follow` is the path of a growing file, or null. Interrupts (SIGINT, SIGTERM,
 * SIGHUP) are held back from here on and come as lines. */
cli_exit cli_lines_open(cli_lines *lines, const scw_source *source,
                        const char *follow);
void cli_lines_close(cli_lines *lines);

/* Waits for the next line. What the growing file holds comes first. */
void cli_lines_next(cli_lines *lines, cli_line *line);

#endif
