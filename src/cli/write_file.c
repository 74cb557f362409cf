/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write_file.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <unistd.h>

#include "message.h"

static cli_exit refuse(const cli_new_file *file) {
  cli_say("%s cannot be written: %s", file->name, strerror(file->error));
  return CLI_NOT_WRITTEN;
}

cli_exit cli_new_file_open(cli_new_file *file, const char *name) {
  *file = (cli_new_file){.name = name};
  file->descriptor = open(name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
  if (file->descriptor >= 0) {
    return CLI_ANSWERED;
  }
  if (errno == EEXIST) {
    cli_say("%s is there already and may hold readings; choose another name",
            name);
    return CLI_NOT_WRITTEN;
  }
  file->error = errno;
  return refuse(file);
}

static int put(void *user, const char *data, size_t size) {
  cli_new_file *file = user;
  while (size > 0 && file->error == 0) {
    ssize_t n = write(file->descriptor, data, size);
    if (n < 0 && errno != EINTR) {
      file->error = errno;
    }
    data += n > 0 ? n : 0;
    size -= n > 0 ? (size_t)n : 0;
  }
  return file->error;
}

scw_sink cli_new_file_sink(cli_new_file *file) {
  return (scw_sink){put, file};
}

cli_exit cli_new_file_close(cli_new_file *file, bool keep) {
  if (close(file->descriptor) != 0 && file->error == 0) {
    file->error = errno;
  }
  if (!keep || file->error != 0) {
    unlink(file->name); /* no half files */
  }
  return file->error == 0 ? CLI_ANSWERED : refuse(file);
}
