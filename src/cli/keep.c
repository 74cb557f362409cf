/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "keep.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "message.h"

/* The name of a new file is safe once its folder is. Some file systems know no
 * such call; there it is safe, or cannot be made so. */
static int sync_folder(const char *path) {
  char *folder = strdup(path);
  if (folder == NULL) {
    return ENOMEM;
  }
  char *slash = strrchr(folder, '/');
  if (slash != NULL) {
    slash[slash == folder] = '\0';
  }
  int descriptor = open(slash != NULL ? folder : ".", O_RDONLY | O_DIRECTORY);
  int error = descriptor < 0 || fsync(descriptor) != 0 ? errno : 0;
  if (descriptor >= 0) {
    close(descriptor);
  }
  free(folder);
  return error == EINVAL || error == ENOTSUP ? 0 : error;
}

static cli_exit cannot_open(const char *path, bool resume, int error) {
  if (error == EEXIST) {
    cli_say("%s is there already and would not be written over; add --resume "
            "to go on with it, or give another name",
            path);
    return CLI_BAD_USAGE;
  }
  if (error == ENOENT && resume) {
    cli_say("%s is not there, so there is nothing to go on with; leave out "
            "--resume to begin it",
            path);
    return CLI_BAD_INPUT;
  }
  cli_say("%s cannot be opened for keeping readings: %s", path,
          strerror(error));
  return resume ? CLI_BAD_INPUT : CLI_NOT_WRITTEN;
}

/* Only a plain file can be added to and gone on with. */
static cli_exit check_kind(cli_keep *keep) {
  struct stat facts;
  if (fstat(keep->descriptor, &facts) != 0 || !S_ISREG(facts.st_mode)) {
    cli_say("%s is no plain file; readings can only be kept in one",
            keep->path);
    return CLI_BAD_INPUT;
  }
  keep->size = facts.st_size;
  if (flock(keep->descriptor, LOCK_EX | LOCK_NB) != 0) {
    cli_say("%s is being written by another run of take; end that one first",
            keep->path);
    return CLI_BAD_INPUT;
  }
  return CLI_ANSWERED;
}

cli_exit cli_keep_open(cli_keep *keep, const char *path, bool resume) {
  *keep = (cli_keep){.path = path, .is_new = !resume};
  keep->descriptor =
      open(path, O_RDWR | O_CLOEXEC | (resume ? 0 : O_CREAT | O_EXCL), 0666);
  if (keep->descriptor < 0) {
    return cannot_open(path, resume, errno);
  }
  cli_exit code = check_kind(keep);
  if (code == CLI_ANSWERED && keep->is_new) {
    keep->error = fsync(keep->descriptor) != 0 ? errno : sync_folder(path);
    if (keep->error != 0) {
      cli_say("%s cannot be made safe on the disk: %s", path,
              strerror(keep->error));
      code = CLI_NOT_WRITTEN;
    }
  }
  if (code != CLI_ANSWERED) {
    cli_keep_close(keep);
  }
  return code;
}

static int put_all(int descriptor, const char *data, size_t size, off_t at) {
  while (size > 0) {
    ssize_t n = pwrite(descriptor, data, size, at);
    if (n < 0 && errno == EINTR) {
      continue;
    }
    if (n <= 0) {
      return n < 0 ? errno : ENOSPC;
    }
    data += n;
    at += n;
    size -= (size_t)n;
  }
  return 0;
}

/* Whoever else writes or removes the file must not cost a reading unsaid. */
static const char *meddled(const cli_keep *keep) {
  struct stat facts;
  if (fstat(keep->descriptor, &facts) != 0) {
    return "it can no longer be looked at";
  }
  if (facts.st_nlink == 0) {
    return "it has been removed or replaced meanwhile";
  }
  return facts.st_size != keep->size ? "another program has written to it"
                                     : NULL;
}

static int keep_safe(void *user, const char *data, size_t size) {
  cli_keep *keep = user;
  if (keep->descriptor < 0) {
    return 0;
  }
  keep->why = meddled(keep);
  if (keep->why != NULL) {
    return 1;
  }
  keep->error = put_all(keep->descriptor, data, size, keep->size);
  if (keep->error == 0 && fsync(keep->descriptor) != 0) {
    keep->error = errno;
  }
  if (keep->error != 0) { /* what was begun must not look like a reading */
    if (ftruncate(keep->descriptor, keep->size) != 0) {
      keep->why = strerror(keep->error);
    }
    return 1;
  }
  keep->size += (off_t)size;
  return 0;
}

scw_sink cli_keep_sink(cli_keep *keep) {
  return (scw_sink){keep_safe, keep};
}

const char *cli_keep_reason(const cli_keep *keep) {
  return keep->why != NULL ? keep->why : strerror(keep->error);
}

static int read_kept(void *user, char *buffer, size_t size, size_t *got) {
  cli_keep *keep = user;
  ssize_t n;
  do {
    n = read(keep->descriptor, buffer, size);
  } while (n < 0 && errno == EINTR);
  *got = n > 0 ? (size_t)n : 0;
  return n < 0 ? errno : 0;
}

scw_source cli_keep_source(cli_keep *keep) {
  const char *slash = strrchr(keep->path, '/');
  return (scw_source){read_kept, keep,
                      slash != NULL && slash[1] != '\0' ? slash + 1
                                                        : keep->path};
}

/* The remark is longer than what it covers, so one write puts it over it; cut
 * off in its turn, it is a cut-off line again. */
cli_exit cli_keep_set_aside(cli_keep *keep, size_t whole) {
  static const char lead[] = "# cut off: ";
  size_t cut = (size_t)keep->size - whole, size = sizeof lead - 1;
  char *text = malloc(size + cut + 1);
  if (text == NULL) {
    cli_say("memory ran out");
    return CLI_NO_FIGURE;
  }
  memcpy(text, lead, size);
  ssize_t got = pread(keep->descriptor, text + size, cut, (off_t)whole);
  for (ssize_t i = 0; i < got; i++) {
    char c = text[size];
    text[size++] = c >= ' ' && c < 0x7f ? c : '?';
  }
  text[size++] = '\n';
  keep->error = put_all(keep->descriptor, text, size, (off_t)whole);
  if (keep->error == 0 && fsync(keep->descriptor) != 0) {
    keep->error = errno;
  }
  free(text);
  if (keep->error != 0) {
    cli_say("a line of %s that was cut off cannot be set aside: %s",
            keep->path, strerror(keep->error));
    return CLI_NOT_WRITTEN;
  }
  keep->size = (off_t)(whole + size);
  return CLI_ANSWERED;
}

void cli_keep_close(cli_keep *keep) {
  if (keep->descriptor < 0) {
    return;
  }
  struct stat facts;
  if (keep->is_new && fstat(keep->descriptor, &facts) == 0 &&
      facts.st_size == 0 && facts.st_nlink > 0) {
    unlink(keep->path);
  }
  close(keep->descriptor);
  keep->descriptor = -1;
}
