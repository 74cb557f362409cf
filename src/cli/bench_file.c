/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "bench_file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "input.h"
#include "message.h"

cli_exit cli_bench_read(cli_run *run, const char *path, scw_bench *out) {
  cli_input input;
  cli_exit code = cli_input_open(&input, run->host, path);
  if (code != CLI_ANSWERED) {
    return code;
  }
  scw_status status = scw_bench_read(run->context, input.source, out);
  cli_input_close(&input);
  return status == SCW_OK ? CLI_ANSWERED : cli_failed(run, status);
}

cli_exit cli_bench_open(cli_run *run) {
  const cli_request *request = &run->request;
  bool more = request->panel_type != NULL || request->meter != NULL;
  if (request->scatter != NULL) {
    return cli_bench_read(run, request->scatter, &run->bench);
  }
  return more ? cli_usage(run->command,
                          "--panel-type and --meter choose an entry of a bench "
                          "file; give that too as --scatter FILE")
              : CLI_ANSWERED;
}

static int write_descriptor(void *user, const char *data, size_t size) {
  int descriptor = *(int *)user;
  while (size > 0) {
    ssize_t n = write(descriptor, data, size);
    if (n < 0 && errno != EINTR) {
      return errno;
    }
    if (n > 0) {
      data += n;
      size -= (size_t)n;
    }
  }
  return 0;
}

static cli_exit not_written(const char *path) {
  cli_say("%s could not be written: %s; it is as it was before", path,
          strerror(errno));
  return CLI_NOT_WRITTEN;
}

/* The folder a file is in, so that its new name is on disk as well. */
static void sync_folder(const char *path) {
  char *folder = strdup(path);
  char *slash = folder != NULL ? strrchr(folder, '/') : NULL;
  if (slash != NULL) {
    slash[slash == folder] = '\0';
  }
  int descriptor = open(slash != NULL ? folder : ".", O_RDONLY | O_DIRECTORY);
  if (descriptor >= 0) {
    fsync(descriptor);
    close(descriptor);
  }
  free(folder);
}

/* Writes the bench to `descriptor` and renames it to `path`. */
static cli_exit write_and_rename(cli_run *run, const scw_bench *bench,
                                 int descriptor, const char *beside,
                                 const char *path) {
  struct stat old;
  mode_t mode = stat(path, &old) == 0 ? old.st_mode & 07777 : 0644;
  errno = 0;
  scw_status status = scw_bench_write(
      run->context, bench, (scw_sink){write_descriptor, &descriptor});
  if (status == SCW_OUT_OF_MEMORY) {
    return cli_failed(run, status);
  }
  if (status != SCW_OK || fchmod(descriptor, mode) != 0 ||
      fsync(descriptor) != 0 || rename(beside, path) != 0) {
    return not_written(path);
  }
  sync_folder(path);
  return CLI_ANSWERED;
}

static cli_exit replace_file(cli_run *run, const scw_bench *bench,
                             const char *path) {
  static const char ending[] = ".XXXXXX";
  char *beside = malloc(strlen(path) + sizeof ending);
  if (beside == NULL) {
    cli_say("memory ran out");
    return CLI_NOT_WRITTEN;
  }
  memcpy(beside, path, strlen(path));
  memcpy(beside + strlen(path), ending, sizeof ending);
  int descriptor = mkstemp(beside);
  cli_exit code = descriptor < 0 ? not_written(path)
                                 : write_and_rename(run, bench, descriptor,
                                                    beside, path);
  if (descriptor >= 0) {
    close(descriptor);
    if (code != CLI_ANSWERED) {
      unlink(beside);
    }
  }
  free(beside);
  return code;
}

/* What is to go into a bench. */
typedef struct addition {
  const scw_bench_scatter *entry; /* or null, and */
  const scw_bench_input *inputs;
  size_t n;
} addition;

static scw_status add_to(cli_run *run, scw_bench *bench,
                         const addition *added) {
  scw_status status = SCW_OK;
  if (added->entry != NULL) {
    status = scw_bench_put_scatter(run->context, bench, added->entry);
  }
  for (size_t i = 0; i < added->n && status == SCW_OK; i++) {
    status = scw_bench_put_input(run->context, bench, &added->inputs[i]);
  }
  return status;
}

static cli_exit change_file(cli_run *run, const char *path,
                            const addition *added) {
  scw_bench bench = {0};
  cli_exit code = CLI_ANSWERED;
  if (access(path, F_OK) == 0) {
    code = cli_bench_read(run, path, &bench);
  }
  if (code == CLI_ANSWERED) {
    scw_status status = add_to(run, &bench, added);
    /* A link stays a link: what it leads to is replaced. */
    char *target = realpath(path, NULL);
    code = status == SCW_OK
               ? replace_file(run, &bench, target != NULL ? target : path)
               : cli_failed(run, status);
    free(target);
  }
  scw_bench_free(&bench);
  return code;
}

cli_exit cli_bench_put(cli_run *run, const char *path,
                       const scw_bench_scatter *entry) {
  return change_file(run, path, &(addition){.entry = entry});
}

cli_exit cli_bench_put_inputs(cli_run *run, const char *path,
                              const scw_bench_input *inputs, size_t n) {
  return change_file(run, path, &(addition){.inputs = inputs, .n = n});
}
