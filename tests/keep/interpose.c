/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Loaded before the C library (LD_PRELOAD): writes down, in their order, what
 * is written to files, what is made safe and what is shown, and lets a call of
 * choice fail.
 *
 *   KEEP_LOG    file that is written to
 *   KEEP_FAULT  CALL:N:HOW: the N-th pwrite, fsync or ftruncate on a file (or
 *               `folder`: fsync on a folder) fails with errno HOW; HOW of
 *               pwrite may be `short`: half of it is written, then the disk is
 *               full */
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

static void note(const char *format, ...)
    __attribute__((format(printf, 1, 2)));

static void note(const char *format, ...) {
  const char *path = getenv("KEEP_LOG");
  char line[512];
  va_list arguments;
  if (path == NULL) return;
  va_start(arguments, format);
  int n = vsnprintf(line, sizeof line, format, arguments);
  va_end(arguments);
  long file = syscall(SYS_openat, AT_FDCWD, path,
                      O_WRONLY | O_CREAT | O_APPEND, 0644);
  if (file < 0) return;
  (void)syscall(SYS_write, file, line, (size_t)n);
  (void)syscall(SYS_close, file);
}

/* Is it this call's turn to fail? *how is the word behind the last colon. */
static bool fails(const char *call, unsigned *count, const char **how) {
  const char *fault = getenv("KEEP_FAULT");
  size_t length = strlen(call);
  ++*count;
  if (fault == NULL || strncmp(fault, call, length) != 0 ||
      fault[length] != ':') {
    return false;
  }
  char *end;
  unsigned long turn = strtoul(fault + length + 1, &end, 10);
  *how = end + 1;
  return *count == turn;
}

static int error_of(const char *how) {
  return strcmp(how, "EIO") == 0      ? EIO
         : strcmp(how, "EINTR") == 0  ? EINTR
         : strcmp(how, "EINVAL") == 0 ? EINVAL
                                      : ENOSPC;
}

ssize_t pwrite(int file, const void *data, size_t size, off_t at) {
  static unsigned count;
  static bool full;
  const char *how;
  bool hit = fails("pwrite", &count, &how);
  if (full && !hit) {
    note("write refused\n");
    errno = ENOSPC;
    return -1;
  }
  if (hit && strcmp(how, "short") == 0) {
    full = true;
    size /= 2;
  } else if (hit) {
    note("write refused\n");
    errno = error_of(how);
    return -1;
  }
  ssize_t n = syscall(SYS_pwrite64, file, data, size, at);
  note("write %ld\n", (long)n);
  return n;
}

int fsync(int file) {
  static unsigned files, folders;
  struct stat facts;
  const char *how;
  bool folder = fstat(file, &facts) == 0 && S_ISDIR(facts.st_mode);
  if (folder ? fails("folder", &folders, &how) : fails("fsync", &files, &how)) {
    note("safe refused\n");
    errno = error_of(how);
    return -1;
  }
  note("safe %s\n", folder ? "folder" : "file");
  return (int)syscall(SYS_fsync, file);
}

int ftruncate(int file, off_t size) {
  static unsigned count;
  const char *how;
  if (fails("ftruncate", &count, &how)) {
    errno = error_of(how);
    return -1;
  }
  note("cut %ld\n", (long)size);
  return (int)syscall(SYS_ftruncate, file, size);
}

size_t fwrite(const void *data, size_t size, size_t n, FILE *stream) {
  size_t (*real)(const void *, size_t, size_t, FILE *);
  *(void **)&real = dlsym(RTLD_NEXT, "fwrite");
  if (stream == stdout) {
    char text[64];
    size_t bytes = size * n, i;
    for (i = 0; i < bytes && i < sizeof text - 1; i++) {
      char c = ((const char *)data)[i];
      text[i] = c >= ' ' ? c : ' ';
    }
    text[i] = '\0';
    note("show %s\n", text);
  }
  return real(data, size, n, stream);
}
