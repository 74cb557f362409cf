/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "lines.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <string.h>
#include <sys/signalfd.h>
#include <sys/stat.h>
#include <unistd.h>

#include "message.h"

enum { LOOK_AGAIN = 100 /* milliseconds: a file that grows wakes nobody */ };

static void ending_signals(sigset_t *set) {
  sigemptyset(set);
  sigaddset(set, SIGINT);
  sigaddset(set, SIGTERM);
  sigaddset(set, SIGHUP);
}

cli_exit cli_lines_open(cli_lines *lines, const scw_source *source,
                        const char *follow) {
  sigset_t set;
  *lines = (cli_lines){.typed = {.descriptor = STDIN_FILENO, .source = source},
                       .followed = {.descriptor = -1},
                       .follows = follow != NULL};
  ending_signals(&set);
  sigprocmask(SIG_BLOCK, &set, NULL);
  lines->signals = signalfd(-1, &set, SFD_CLOEXEC | SFD_NONBLOCK);
  if (lines->signals < 0) {
    cli_say("this system cannot wait for signals: %s", strerror(errno));
    return CLI_NO_FIGURE;
  }
  if (follow != NULL) {
    lines->followed.descriptor = open(follow, O_RDONLY | O_CLOEXEC);
    if (lines->followed.descriptor < 0) {
      cli_say("%s cannot be opened: %s", follow, strerror(errno));
      cli_lines_close(lines);
      return CLI_BAD_INPUT;
    }
  }
  return CLI_ANSWERED;
}

void cli_lines_close(cli_lines *lines) {
  struct signalfd_siginfo one; /* has been answered, and must not end more */
  sigset_t set;
  if (lines->followed.descriptor >= 0) {
    close(lines->followed.descriptor);
  }
  if (lines->signals >= 0) {
    while (read(lines->signals, &one, sizeof one) == (ssize_t)sizeof one) {
    }
    close(lines->signals);
  }
  ending_signals(&set);
  sigprocmask(SIG_UNBLOCK, &set, NULL);
}

static void drop(cli_stream *stream, size_t n) {
  stream->size -= n;
  memmove(stream->text, stream->text + n, stream->size);
}

/* The next whole line that has been read; false: none. */
static bool cut_line(cli_stream *stream, cli_line_kind kind, cli_line *line) {
  char *end = memchr(stream->text, '\n', stream->size);
  size_t n = end != NULL ? (size_t)(end - stream->text) : stream->size;
  if (end == NULL && n <= CLI_LONGEST_LINE && !stream->skipping) {
    return false;
  }
  bool too_long = stream->skipping || n > CLI_LONGEST_LINE;
  if (end == NULL) { /* too long already: wait for its end */
    stream->size = 0;
    stream->skipping = true;
    return false;
  }
  stream->skipping = false;
  line->kind = too_long ? CLI_LINE_TOO_LONG : kind;
  line->number = ++stream->number;
  if (!too_long) {
    memcpy(line->text, stream->text, n);
  }
  line->text[too_long ? 0 : n] = '\0';
  drop(stream, n + 1);
  return true;
}

/* Bytes read, 0 at the end (for now), -1 with errno. */
static ssize_t fill(cli_stream *stream) {
  char *to = stream->text + stream->size;
  size_t room = sizeof stream->text - stream->size, got = 0;
  ssize_t n;
  if (stream->source != NULL) {
    errno = stream->source->read(stream->source->user, to, room, &got);
    n = errno != 0 ? -1 : (ssize_t)got;
  } else {
    do {
      n = read(stream->descriptor, to, room);
    } while (n < 0 && errno == EINTR);
  }
  if (n > 0) {
    stream->size += (size_t)n;
  }
  return n;
}

/* A file that shrinks is not the one that was followed. */
static bool has_shrunk(const cli_stream *stream) {
  struct stat facts;
  return fstat(stream->descriptor, &facts) == 0 && S_ISREG(facts.st_mode) &&
         facts.st_size < lseek(stream->descriptor, 0, SEEK_CUR);
}

/* Everything the growing file holds; false: nothing new. */
static bool look_at_file(cli_lines *lines, cli_line *line) {
  cli_stream *file = &lines->followed;
  while (file->descriptor >= 0) {
    if (cut_line(file, CLI_LINE_FOLLOWED, line)) {
      return true;
    }
    ssize_t n = fill(file);
    if (n < 0 || has_shrunk(file)) {
      errno = n < 0 ? errno : ESPIPE;
      line->kind = CLI_LINE_FAILED;
      return true;
    }
    if (n == 0) {
      break;
    }
  }
  return false;
}

/* The end of standard input ends the run, unless a file is followed. */
static bool end_typed(cli_lines *lines, cli_line *line) {
  cli_stream *typed = &lines->typed;
  typed->descriptor = -1;
  line->number = typed->number + 1;
  if (typed->skipping) {
    typed->skipping = false;
    line->kind = CLI_LINE_TOO_LONG;
    return true;
  }
  if (typed->size > 0) {
    memcpy(line->text, typed->text, typed->size);
    line->text[typed->size] = '\0';
    line->kind = CLI_LINE_UNCLOSED;
    typed->size = 0;
    return true;
  }
  line->kind = CLI_LINE_END;
  return !lines->follows;
}

static bool look_at_typed(cli_lines *lines, cli_line *line) {
  ssize_t n = fill(&lines->typed);
  if (n < 0) {
    line->kind = CLI_LINE_FAILED;
    return true;
  }
  return n == 0 ? end_typed(lines, line)
                : cut_line(&lines->typed, CLI_LINE_TYPED, line);
}

void cli_lines_next(cli_lines *lines, cli_line *line) {
  line->text[0] = '\0';
  for (;;) {
    struct pollfd from[2] = {{lines->signals, POLLIN, 0},
                             {lines->typed.descriptor, POLLIN, 0}};
    bool waits = lines->typed.source == NULL;
    if (look_at_file(lines, line) ||
        cut_line(&lines->typed, CLI_LINE_TYPED, line)) {
      return;
    }
    if (lines->typed.descriptor < 0 && !lines->follows) {
      line->kind = CLI_LINE_END;
      return;
    }
    int patience = !waits ? 0 : lines->follows ? LOOK_AGAIN : -1;
    if (poll(from, waits ? 2 : 1, patience) < 0) {
      if (errno == EINTR) {
        continue;
      }
      line->kind = CLI_LINE_FAILED;
      return;
    }
    if (from[0].revents != 0) {
      line->kind = CLI_LINE_SIGNAL;
      return;
    }
    if ((!waits || from[1].revents != 0) && look_at_typed(lines, line)) {
      return;
    }
  }
}
