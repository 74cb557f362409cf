/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "demo_write.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "demo_files.h"
#include "message.h"
#include "print.h"

static cli_exit refuse(const char *folder, const char *name, int error) {
  cli_say("%s/%s cannot be written: %s", folder, name, strerror(error));
  return CLI_NOT_WRITTEN;
}

/* 0, or an errno value. */
static int put(int descriptor, const unsigned char *bytes, size_t size) {
  while (size > 0) {
    ssize_t n = write(descriptor, bytes, size);
    if (n < 0 && errno != EINTR) {
      return errno;
    }
    bytes += n > 0 ? n : 0;
    size -= n > 0 ? (size_t)n : 0;
  }
  return 0;
}

static int write_file(int folder, const cli_demo_file *file) {
  int descriptor =
      openat(folder, file->name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
  if (descriptor < 0) {
    return errno;
  }
  int error = put(descriptor, file->bytes, file->size);
  if (close(descriptor) != 0 && error == 0) {
    error = errno;
  }
  if (error != 0) {
    unlinkat(folder, file->name, 0); /* no half files */
  }
  return error;
}

static cli_exit write_all(scw_sink sink, int at, const char *folder) {
  for (size_t i = 0; i < cli_demo_file_count; i++) {
    if (faccessat(at, cli_demo_files[i].name, F_OK, 0) == 0) {
      return refuse(folder, cli_demo_files[i].name, EEXIST);
    }
  }
  for (size_t i = 0; i < cli_demo_file_count; i++) {
    int error = write_file(at, &cli_demo_files[i]);
    if (error != 0) {
      return refuse(folder, cli_demo_files[i].name, error);
    }
    cli_print(sink, "wrote %s/%s: %s\n", folder, cli_demo_files[i].name,
              cli_demo_files[i].about);
  }
  return CLI_ANSWERED;
}

cli_exit cli_demo_write(scw_sink sink, const char *folder) {
  int at = -1;
  if (mkdir(folder, 0777) == 0 || errno == EEXIST) {
    at = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  }
  if (at < 0) {
    cli_say("the folder %s cannot be used: %s", folder, strerror(errno));
    return CLI_NOT_WRITTEN;
  }
  cli_exit code = write_all(sink, at, folder);
  close(at);
  return code;
}
