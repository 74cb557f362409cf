/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables from sources, files and arrays. */
#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "decimal.h"
#include "table.h"
#include "taken_back.h"

static scw_status keep(void *user, scw_context *context,
                       const scw_reading *reading) {
  return scwi_table_add(context, user, reading);
}

static scw_status keep_event(void *user, scw_context *context,
                             const scw_reading *event) {
  return scwi_table_add_event(context, user, event);
}

static scw_status take_back(void *user, scw_context *context,
                            const scwi_takings *takings) {
  return scwi_table_take_back(context, user, takings, false);
}

/* What the first bytes say about files that are no text. */
static const char *kind_of(const char *bytes, size_t size) {
  static const struct {
    const char *bytes, *kind;
    size_t size;
  } kinds[] = {{"PK\3\4", "a spreadsheet or archive (.xlsx, .ods, .zip)", 4},
               {"\xD0\xCF\x11\xE0", "an old spreadsheet (.xls)", 4},
               {"%PDF-", "a PDF document", 5},
               {"\x89PNG", "a picture", 4},
               {"\xFF\xD8\xFF", "a picture", 3},
               {"{\\rtf", "a word processor's document", 5}};
  for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
    if (size >= kinds[i].size && !memcmp(bytes, kinds[i].bytes, kinds[i].size))
      return kinds[i].kind;
  return NULL;
}

/* A source that looks at its first bytes on the way, in whatever pieces they
 * come. */
typedef struct watched {
  scw_source source;
  const char *kind;
  char head[8];
  size_t seen;
} watched;

static int read_watched(void *user, char *buffer, size_t size, size_t *got) {
  watched *w = user;
  int error = w->source.read(w->source.user, buffer, size, got);
  size_t room = sizeof w->head - w->seen;
  if (error || !room || w->kind) return w->kind ? EILSEQ : error;
  size_t n = *got < room ? *got : room;
  memcpy(w->head + w->seen, buffer, n);
  w->seen += n;
  w->kind = kind_of(w->head, w->seen);
  return w->kind ? EILSEQ : 0;
}

scw_status scwi_table_fill(scw_context *context,
                           const scw_table_options *options,
                           scw_source source, scw_table *table,
                           scwi_reading_sink sink) {
  static const scw_table_options none;
  scwi_account *account = &table->input[0].account;
  watched w = {.source = source};
  sink.order = &table->input[0].order;
  scw_status status = scwi_read(
      context, options ? options : &none,
      (scw_source){read_watched, &w, account->input.name}, &table->labels,
      account, sink);
  if (w.kind)
    status = scwi_fail_at(context, SCW_BAD_INPUT, account->input.name, 0, 0,
                          "this is %s, not text. Save the sheet with the "
                          "readings as CSV text and give that file",
                          w.kind);
  return status;
}

scw_status scw_table_read(scw_context *context,
                          const scw_table_options *options, scw_source source,
                          scw_table **out) {
  const char *name = source.name ? source.name : "input";
  scw_table *table;
  *out = NULL;
  scw_status status = scwi_table_new(context, name, &table);
  if (status != SCW_OK) return status;
  status = scwi_table_fill(context, options, source, table,
                           (scwi_reading_sink){.take = keep,
                                               .user = table,
                                               .take_back = take_back,
                                               .event = keep_event});
  if (status == SCW_OK)
    *out = table;
  else
    scw_table_free(table);
  return status;
}

static int read_file(void *user, char *buffer, size_t size, size_t *got) {
  errno = 0;
  *got = fread(buffer, 1, size, user);
  return *got == 0 && ferror((FILE *)user) ? (errno ? errno : EIO) : 0;
}

static scw_status cannot_open(scw_context *context, const char *name,
                              int error) {
  if (error == ENOMEM)
    return scwi_fail_at(context, SCW_OUT_OF_MEMORY, name, 0, 0,
                        "memory ran out before it could be opened");
  const char *why = error == ENOENT   ? "there is no such file"
                    : error == EACCES ? "there is no permission to read it"
                    : error == EISDIR ? "it is a folder"
                    : error == EMFILE ? "too many files are open"
                                      : "it cannot be opened";
  return scwi_fail_at(context, SCW_BAD_INPUT, name, 0, 0,
                      "%s. Check the name and the folder", why);
}

scw_status scw_table_read_file(scw_context *context,
                               const scw_table_options *options,
                               const char *path, scw_table **out) {
  const char *slash = strrchr(path, '/');
  const char *name = slash && slash[1] ? slash + 1 : path;
  struct stat facts;
  *out = NULL;
  if (stat(path, &facts) == 0 && S_ISDIR(facts.st_mode))
    return cannot_open(context, name, EISDIR);
  FILE *file = fopen(path, "rbe");
  if (!file) return cannot_open(context, name, errno);
  scw_status status = scw_table_read(
      context, options, (scw_source){read_file, file, name}, out);
  fclose(file);
  return status;
}

scw_status scw_table_from_values(scw_context *context, const char *name,
                                 const double *values, size_t n,
                                 scw_table **out) {
  scw_table *table;
  *out = NULL;
  scw_status status = scwi_table_new(context, name, &table);
  for (size_t i = 0; i < n && status == SCW_OK; i++) {
    scw_reading reading = scwi_reading_none();
    if (!isfinite(values[i])) {
      status = scwi_fail_at(context, SCW_BAD_INPUT, name, 0, 0,
                            "value %zu is not a finite number. Leave it out",
                            i + 1);
      break;
    }
    scwi_decimal decimal = scwi_decimal_of(values[i]);
    reading.value = values[i];
    reading.mantissa = decimal.mantissa;
    reading.digits = decimal.digits;
    reading.exact = decimal.exact;
    reading.line = i + 1;
    reading.column = 1;
    status = scwi_table_add(context, table, &reading);
  }
  if (status != SCW_OK) {
    scw_table_free(table);
    return status;
  }
  scw_input *input = &table->input[0].account.input;
  input->shape = "bare list";
  input->rows = input->used = n;
  *out = table;
  return SCW_OK;
}
