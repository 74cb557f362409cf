/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "bench_tables.h"

#include <stdlib.h>
#include <string.h>

#include "input.h"
#include "message.h"

/* `file` as seen from the folder of `path`; null when memory ran out. */
static char *beside(const char *path, const char *file) {
  const char *slash = strrchr(path, '/');
  size_t folder = slash != NULL && *file != '/' ? (size_t)(slash - path) + 1 : 0;
  size_t length = strlen(file);
  char *out = malloc(folder + length + 1);
  if (out != NULL) {
    memcpy(out, path, folder);
    memcpy(out + folder, file, length + 1);
  }
  return out;
}

static cli_exit read_table(cli_run *run, const scw_bench_input *input,
                           const char *path, scw_table **out) {
  scw_table_options options = run->request.table;
  cli_input source;
  if (*input->column != '\0') {
    options.column[SCW_ROLE_READING] = input->column;
  }
  cli_exit code = cli_input_open(&source, run->host, path);
  if (code != CLI_ANSWERED) {
    return code;
  }
  scw_status status =
      scw_table_read(run->context, &options, source.source, out);
  cli_input_close(&source);
  if (status == SCW_BAD_ARGUMENT) { /* the column that the bench file names */
    cli_say("input %s of the bench file: %s", input->given.name,
            scw_context_message(run->context));
    return CLI_BAD_INPUT;
  }
  return status == SCW_OK ? CLI_ANSWERED : cli_failed(run, status);
}

static cli_exit take_table(cli_run *run, scw_bench *bench, size_t index,
                           const char *path, cli_bench_tables *out) {
  char *file = beside(path, bench->input[index].file);
  if (file == NULL) {
    cli_say("memory ran out");
    return CLI_NO_FIGURE;
  }
  cli_exit code =
      read_table(run, &bench->input[index], file, &out->table[out->n]);
  free(file);
  if (code != CLI_ANSWERED) {
    return code;
  }
  scw_status status =
      scw_bench_take_table(run->context, bench, index, out->table[out->n++],
                           &run->request.settings);
  return status == SCW_OK ? CLI_ANSWERED : cli_failed(run, status);
}

cli_exit cli_bench_take_tables(cli_run *run, scw_bench *bench, const char *path,
                               cli_bench_tables *out) {
  cli_exit code = CLI_ANSWERED;
  *out = (cli_bench_tables){calloc(bench->n_inputs + 1, sizeof *out->table), 0};
  if (out->table == NULL) {
    cli_say("memory ran out");
    return CLI_NO_FIGURE;
  }
  for (size_t i = 0; code == CLI_ANSWERED && i < bench->n_inputs; i++) {
    if (*bench->input[i].file != '\0') {
      code = take_table(run, bench, i, path, out);
    }
  }
  return code;
}

void cli_bench_tables_free(cli_bench_tables *tables) {
  for (size_t i = 0; i < tables->n; i++) {
    scw_table_free(tables->table[i]);
  }
  free(tables->table);
  *tables = (cli_bench_tables){NULL, 0};
}
