/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "output.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

static void note_failure(cli_output *output) {
  if (output->error == 0) {
    output->error = errno != 0 ? errno : EIO;
  }
}

static int write_out(void *user, const char *data, size_t size) {
  cli_output *output = user;
  errno = 0;
  if (output->error == 0 && fwrite(data, 1, size, stdout) != size) {
    note_failure(output);
  }
  if (size == 0 && output->error == 0 && fflush(stdout) != 0) {
    note_failure(output);
  }
  return output->error;
}

scw_sink cli_output_sink(cli_output *output) {
  return (scw_sink){write_out, output};
}

int cli_output_close(cli_output *output) {
  errno = 0;
  if (fflush(stdout) != 0) {
    note_failure(output);
  }
  errno = 0;
  if (fclose(stdout) != 0) {
    note_failure(output);
  }
  return output->error;
}

static int keep(void *user, const char *data, size_t size) {
  cli_capture *capture = user;
  size_t room = sizeof capture->text - 1 - capture->size;
  size_t taken = size < room ? size : room;
  memcpy(capture->text + capture->size, data, taken);
  capture->size += taken;
  capture->text[capture->size] = '\0';
  return 0;
}

scw_sink cli_capture_sink(cli_capture *capture) {
  capture->size = 0;
  capture->text[0] = '\0';
  return (scw_sink){keep, capture};
}

static bool is_set(const char *value) {
  return value != NULL && *value != '\0';
}

bool cli_wants_colour(void) {
  const char *terminal = getenv("TERM");
  return isatty(STDOUT_FILENO) && !is_set(getenv("NO_COLOR")) &&
         is_set(terminal) && strcmp(terminal, "dumb") != 0;
}

/* The environment is read as text, so that the locale stays what it is. */
bool cli_wants_ascii(void) {
  static const char *const names[] = {"LC_ALL", "LC_CTYPE", "LANG"};
  for (size_t i = 0; i < CLI_COUNT(names); i++) {
    const char *value = getenv(names[i]);
    if (is_set(value)) {
      return strcasestr(value, "UTF-8") == NULL &&
             strcasestr(value, "UTF8") == NULL;
    }
  }
  return true;
}

scw_report_options cli_report_options(const cli_run *run) {
  const cli_request *request = &run->request;
  return (scw_report_options){
      .format = request->json  ? SCW_JSON
                : request->csv ? SCW_CSV
                               : SCW_TEXT,
      .ascii = request->plain || run->host->ascii,
      .colour = run->host->colour && !request->plain,
  };
}
