/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One line after another: taken, kept, and answered. */
#include "take_run.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "input.h"
#include "lines.h"
#include "message.h"
#include "output.h"
#include "print.h"
#include "take_line.h"

/* What a run of lines works on. */
typedef struct session {
  cli_run *run;
  cli_keep *keep;
  scw_take *take;
  cli_lines lines;
  scw_take_state state; /* after the last thing that happened */
  size_t refused;       /* lines that could not be used */
  bool asks;            /* somebody sits at a terminal */
  cli_exit code;
} session;

static const char *base_name(const char *path) {
  const char *slash = strrchr(path, '/');
  return slash != NULL && slash[1] != '\0' ? slash + 1 : path;
}

/* Nothing more can be shown: what is kept stays kept. */
static void check_output(session *s) {
  scw_sink sink = s->run->host->sink;
  bool failed = sink.write(sink.user, "", 0) != 0; /* writes out what waits */
  if (failed && s->code == CLI_ANSWERED) {
    s->code = CLI_NOT_WRITTEN;
  }
}

static void fail(session *s, scw_status status) {
  s->code = cli_failed(s->run, status);
}

static void tell(session *s, const char *event, const char *text) {
  scw_status status = scw_report_take_message(s->run->context, event, text,
                                              cli_report_options(s->run),
                                              s->run->host->sink);
  if (status != SCW_OK) {
    fail(s, status);
  }
}

static void refuse(session *s, const char *why) {
  char text[2048];
  snprintf(text, sizeof text, "Not taken: %s.", why);
  s->refused++;
  tell(s, "refused", text);
}

/* The state after what happened, shown. */
static void answer(session *s, scw_take_event event) {
  scw_take_state now;
  bool whole = event == SCW_TAKEN_RESUMED || event == SCW_TAKEN_END;
  scw_status status = scw_take_state_of(s->run->context, s->take, &now);
  if (status != SCW_OK) {
    fail(s, status);
    return;
  }
  if (whole || !s->run->request.brief) {
    status = scw_report_take(s->run->context, event, &now, &s->state,
                             cli_report_options(s->run), s->run->host->sink);
  }
  scw_take_state_free(&s->state);
  s->state = now;
  if (status != SCW_OK) {
    fail(s, status);
  }
}

/* A reading that could not be kept ends the run: it must not look as if it
 * counted. */
static void not_kept(session *s) {
  cli_say("%s in %s: %s. What was taken before is kept",
          scw_context_message(s->run->context), s->keep->path,
          cli_keep_reason(s->keep));
  s->code = CLI_NOT_WRITTEN;
}

static scw_status take_line(session *s, const cli_take_line *line,
                            const cli_line *from) {
  scw_context *context = s->run->context;
  switch (line->verb) {
    case CLI_TAKE_READING:
      return from->kind == CLI_LINE_FOLLOWED
                 ? scw_take_followed(context, s->take, line->spot,
                                     line->reading,
                                     base_name(s->run->request.take.follow),
                                     from->number)
                 : scw_take_reading(context, s->take, line->spot,
                                    line->reading, NULL);
    case CLI_TAKE_AGAIN:
      return scw_take_again(context, s->take, line->spot, line->reading,
                            line->reason);
    case CLI_TAKE_UNDO:
      return scw_take_undo(context, s->take, line->order, line->reason);
    case CLI_TAKE_MARK:
      return scw_take_mark(context, s->take, line->order, line->reason);
    default:
      return scw_take_note(context, s->take, line->reason);
  }
}

static void take(session *s, const cli_take_line *line, const cli_line *from) {
  static const scw_take_event events[] = {
      [CLI_TAKE_READING] = SCW_TAKEN_READING,
      [CLI_TAKE_AGAIN] = SCW_TAKEN_AGAIN,
      [CLI_TAKE_UNDO] = SCW_TAKEN_UNDO,
      [CLI_TAKE_MARK] = SCW_TAKEN_MARK};
  scw_status status = take_line(s, line, from);
  if (status == SCW_BAD_ARGUMENT) {
    refuse(s, scw_context_message(s->run->context));
  } else if (status == SCW_NOT_WRITTEN) {
    not_kept(s);
  } else if (status != SCW_OK) {
    fail(s, status);
  } else if (line->verb == CLI_TAKE_NOTE) {
    if (!s->run->request.brief) {
      tell(s, "note", "Noted.");
    }
  } else {
    answer(s, events[line->verb]);
  }
}

/* False when the line asks to stop. */
static bool use(session *s, cli_line *from) {
  cli_take_line line = cli_read_take_line(from->text, s->state.unit);
  bool is_reading = line.verb == CLI_TAKE_READING;
  if (line.verb == CLI_TAKE_STOP && from->kind == CLI_LINE_TYPED) {
    return false;
  }
  if (line.verb == CLI_TAKE_NOTHING) {
    return true;
  }
  if (from->kind == CLI_LINE_FOLLOWED && !is_reading) {
    refuse(s, "a file that is followed holds readings only; type everything "
              "else");
  } else if (line.verb == CLI_TAKE_HELP) {
    tell(s, "help", cli_take_help);
  } else if (line.verb == CLI_TAKE_UNCLEAR) {
    refuse(s, "a line is a reading, or a spot and a reading; help shows what "
              "else can be typed");
  } else if (line.verb == CLI_TAKE_NOTE && *line.reason == '\0') {
    refuse(s, "note needs a text after it");
  } else {
    take(s, &line, from);
  }
  return true;
}

/* Where to go, for somebody at a terminal. */
static void prompt(session *s) {
  scw_sink sink = s->run->host->sink;
  if (s->asks && s->state.next_spot != NULL && *s->state.next_spot != '\0') {
    cli_print(sink, "spot %s> ", s->state.next_spot);
  } else if (s->asks) {
    cli_print(sink, "> ");
  }
}

/* Lines of the growing file that an earlier run has kept already. */
static bool is_kept_already(const cli_line *line, size_t kept) {
  return line->kind == CLI_LINE_FOLLOWED && line->number <= kept;
}

static bool take_next(session *s, size_t kept) {
  cli_line line;
  check_output(s);
  if (s->code != CLI_ANSWERED) {
    return false;
  }
  cli_lines_next(&s->lines, &line);
  if (is_kept_already(&line, kept)) {
    return true;
  }
  switch (line.kind) {
    case CLI_LINE_TYPED:
    case CLI_LINE_FOLLOWED:
      break;
    case CLI_LINE_TOO_LONG:
      refuse(s, "the line is longer than a reading can be");
      return true;
    case CLI_LINE_UNCLOSED:
      refuse(s, "the last line has no line end, so that it may have been cut "
                "off within the number");
      return true;
    case CLI_LINE_FAILED:
      cli_say("the input cannot be read on: %s",
              errno == ESPIPE ? "the file that is followed has become shorter"
                              : strerror(errno));
      s->code = CLI_BAD_INPUT;
      return false;
    default:
      if (s->asks) {
        cli_print(s->run->host->sink, "\n");
      }
      return false;
  }
  bool more = use(s, &line);
  if (more) {
    prompt(s);
  }
  return more;
}

static void take_all(session *s) {
  const char *follow = s->run->request.take.follow;
  size_t kept = follow != NULL && s->run->request.take.resume
                    ? scw_take_followed_line(s->take, base_name(follow))
                    : 0;
  prompt(s);
  while (take_next(s, kept)) {
  }
}

/* ---- beginning and end ---- */

static cli_exit resume(session *s) {
  size_t whole;
  scw_status status = scw_take_resume(s->run->context, s->take,
                                      cli_keep_source(s->keep), &whole);
  if (status != SCW_OK) {
    return cli_failed(s->run, status);
  }
  if ((size_t)s->keep->size > whole) {
    cli_exit code = cli_keep_set_aside(s->keep, whole);
    if (code != CLI_ANSWERED) {
      return code;
    }
    tell(s, "cut_off",
         "The last line had been cut off while it was written. It had not been "
         "shown as taken, and is set aside as a remark: look whether its "
         "reading has to be taken again.");
  }
  return CLI_ANSWERED;
}

static cli_exit open_lines(session *s, cli_input *input) {
  const cli_request *request = &s->run->request;
  if (request->n_operands > 0) {
    cli_exit code =
        cli_input_open(input, s->run->host, request->operands[0]);
    if (code != CLI_ANSWERED) {
      return code;
    }
    return cli_lines_open(&s->lines, &input->source, NULL);
  }
  s->asks = isatty(STDIN_FILENO) && isatty(STDOUT_FILENO) && !request->json;
  return cli_lines_open(&s->lines, NULL, request->take.follow);
}

static void end(session *s) {
  bool lost = s->code != CLI_ANSWERED;
  cli_exit code = s->code;
  s->code = CLI_ANSWERED;
  if (!s->run->request.json) {
    cli_print(s->run->host->sink, s->run->request.brief ? "" : "\n");
  }
  answer(s, SCW_TAKEN_END);
  if (s->keep->descriptor >= 0 && !s->run->request.json) {
    cli_print(s->run->host->sink, "  Kept in %s.\n", s->keep->path);
  }
  if (s->refused > 0 && !s->run->request.json) {
    cli_print(s->run->host->sink, "  Lines not taken: %zu; see above.\n",
              s->refused);
  }
  check_output(s);
  if (lost) {
    s->code = code;
  } else if (s->code == CLI_ANSWERED &&
             s->state.interval.state != SCW_PRESENT) {
    s->code = CLI_NO_FIGURE;
  }
}

cli_exit cli_take_readings(cli_run *run, cli_keep *keep, scw_take *take) {
  session s = {.run = run, .keep = keep, .take = take};
  cli_input input = {.descriptor = -1};
  cli_exit code = open_lines(&s, &input);
  if (code != CLI_ANSWERED) {
    cli_input_close(&input);
    return code;
  }
  if (run->request.take.resume) {
    code = resume(&s);
  }
  if (code == CLI_ANSWERED) {
    scw_status status = scw_take_state_of(run->context, take, &s.state);
    code = status == SCW_OK ? CLI_ANSWERED : cli_failed(run, status);
  }
  if (code == CLI_ANSWERED && run->request.take.resume && !run->request.brief) {
    answer(&s, SCW_TAKEN_RESUMED);
  }
  if (code == CLI_ANSWERED && keep->descriptor < 0 && s.asks) {
    tell(&s, "not_kept", "Nothing is kept: there is no --keep FILE.");
  }
  if (code == CLI_ANSWERED) {
    take_all(&s);
    end(&s);
    code = s.code;
  }
  scw_take_state_free(&s.state);
  cli_lines_close(&s.lines);
  cli_input_close(&input);
  return code;
}
