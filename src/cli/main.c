/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program: standard output is set up, a command answers, and the last act
 * is to see whether everything was written. */
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <string.h>
#include <unistd.h>

#include "command.h"
#include "message.h"
#include "output.h"

/* A stream that was closed by the caller must not become an input file: a
 * descriptor that refuses takes its number. */
static void hold_streams(void) {
  for (int stream = STDIN_FILENO; stream <= STDERR_FILENO; stream++) {
    if (fcntl(stream, F_GETFD) < 0 && errno == EBADF) {
      open("/dev/null", stream == STDIN_FILENO ? O_WRONLY : O_RDONLY);
    }
  }
}

int main(int argc, char **argv) {
  hold_streams();
  signal(SIGPIPE, SIG_IGN); /* a closed pipe is an error like any other */
  cli_output output = {0};
  const cli_host host = {.sink = cli_output_sink(&output),
                         .ascii = cli_wants_ascii(),
                         .colour = cli_wants_colour()};
  cli_exit code = cli_dispatch(&host, argc, argv);
  int error = cli_output_close(&output);
  if (error != 0 && code != CLI_BAD_USAGE && code != CLI_BAD_INPUT) {
    cli_say("the output could not be written: %s", strerror(error));
    code = CLI_NOT_WRITTEN;
  }
  return (int)code;
}
