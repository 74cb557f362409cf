/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "input.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

#include "message.h"

static int read_descriptor(void *user, char *buffer, size_t size, size_t *got) {
  const cli_input *input = user;
  ssize_t n;
  do {
    n = read(input->descriptor, buffer, size);
  } while (n < 0 && errno == EINTR);
  *got = n > 0 ? (size_t)n : 0;
  return n < 0 ? errno : 0;
}

static int read_demo(void *user, char *buffer, size_t size, size_t *got) {
  cli_input *input = user;
  size_t left = input->demo->size - input->offset;
  *got = size < left ? size : left;
  memcpy(buffer, input->demo->bytes + input->offset, *got);
  input->offset += *got;
  return 0;
}

static const char *base_name(const char *path) {
  const char *slash = strrchr(path, '/');
  return slash != NULL && slash[1] != '\0' ? slash + 1 : path;
}

cli_exit cli_input_open(cli_input *input, const cli_host *host,
                        const char *name) {
  *input = (cli_input){.descriptor = -1};
  input->demo = host->built_in ? cli_find_demo_file(name) : NULL;
  if (input->demo != NULL) {
    input->source = (scw_source){read_demo, input, name};
    return CLI_ANSWERED;
  }
  bool is_standard = strcmp(name, "-") == 0;
  input->descriptor =
      is_standard ? STDIN_FILENO : open(name, O_RDONLY | O_CLOEXEC);
  if (input->descriptor < 0) {
    cli_say("%s cannot be opened: %s", name, strerror(errno));
    return CLI_BAD_INPUT;
  }
  input->source = (scw_source){
      read_descriptor, input, is_standard ? "standard input" : base_name(name)};
  return CLI_ANSWERED;
}

void cli_input_close(cli_input *input) {
  if (input->descriptor > STDERR_FILENO) {
    close(input->descriptor);
  }
  input->descriptor = -1;
}

static cli_exit read_one(cli_run *run, const char *name, const scw_side *side,
                         scw_table **out) {
  cli_input input;
  cli_exit code = cli_input_open(&input, run->host, name);
  if (code != CLI_ANSWERED) {
    return code;
  }
  scw_table_options options = run->request.table;
  if (side != NULL) {
    options.side = *side;
  }
  scw_status status = scw_table_read(run->context, &options, input.source, out);
  cli_input_close(&input);
  return status == SCW_OK ? CLI_ANSWERED : cli_failed(run, status);
}

static cli_exit refuse_twice(const cli_run *run, char *const *names, size_t n) {
  size_t standard = 0;
  for (size_t i = 0; i < n; i++) {
    standard += strcmp(names[i], "-") == 0;
  }
  return standard < 2
             ? CLI_ANSWERED
             : cli_usage(run->command, "standard input can be read only once");
}

cli_exit cli_read_tables(cli_run *run, char *const *names,
                         const scw_side *sides, size_t n, scw_table **out) {
  scw_table *all = NULL;
  cli_exit code = refuse_twice(run, names, n);
  for (size_t i = 0; code == CLI_ANSWERED && i < n; i++) {
    scw_table *one = NULL;
    code = read_one(run, names[i], sides != NULL ? &sides[i] : NULL,
                    all == NULL ? &all : &one);
    if (one != NULL) {
      scw_status status = scw_table_append(run->context, all, one);
      code = status == SCW_OK ? code : cli_failed(run, status);
      scw_table_free(one);
    }
  }
  if (code == CLI_ANSWERED) {
    code = cli_check_unit(run, all, "step", &run->request.step);
  }
  if (code != CLI_ANSWERED) {
    scw_table_free(all);
    all = NULL;
  }
  *out = all;
  return code;
}

cli_exit cli_check_unit(const cli_run *run, const scw_table *table,
                        const char *option, const cli_quantity *quantity) {
  for (size_t i = 0; quantity->unit != NULL && i < scw_table_inputs(table);
       i++) {
    const scw_input *input = scw_table_input(table, i);
    if (*input->unit != '\0' && strcasecmp(input->unit, quantity->unit) != 0) {
      return cli_usage(run->command,
                       "--%s is given in %s, but the readings of %s are in "
                       "%s; give it in that unit",
                       option, quantity->unit, input->name, input->unit);
    }
  }
  return CLI_ANSWERED;
}
