/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any bytes as lines typed while readings are taken, under options the first
 * byte chooses: nothing is counted that was not kept, no figure is NaN or
 * infinite, and what was kept is gone on with to the very same state. The bytes
 * are also read as a file that is to be gone on with. */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "scatterwise/scatterwise.h"
#include "take_line.h"

enum { ROOM = 1 << 17 };

typedef struct kept {
  char text[ROOM];
  size_t size, at;
  unsigned turn, refuses; /* every so many-th thing is refused; 0: none */
} kept;

static int keep(void *user, const char *data, size_t size) {
  kept *file = user;
  if (file->refuses && ++file->turn % file->refuses == 0) return 1;
  if (size > ROOM - file->size) return 1;
  memcpy(file->text + file->size, data, size);
  file->size += size;
  return 0;
}

static int give(void *user, char *buffer, size_t size, size_t *got) {
  kept *file = user;
  *got = file->size - file->at < size ? file->size - file->at : size;
  memcpy(buffer, file->text + file->at, *got);
  file->at += *got;
  return 0;
}

static void demand(int holds) {
  if (!holds) abort();
}

static void check_figure(scw_figure figure) {
  demand(figure.state != SCW_PRESENT || isfinite(figure.value));
}

static void check_state(const scw_take_state *s) {
  check_figure(s->mean);
  check_figure(s->sd);
  check_figure(s->e_value);
  check_figure(s->last_change);
  demand(s->interval.state != SCW_PRESENT || s->interval.low <= s->interval.high);
  demand(s->anytime.state != SCW_PRESENT || s->anytime.low <= s->anytime.high);
  demand(s->n <= s->readings && s->sentence && s->unit);
}

static scw_status use(scw_context *context, scw_take *take, char *line) {
  cli_take_line l = cli_read_take_line(line, "GU");
  switch (l.verb) {
    case CLI_TAKE_READING:
      return scw_take_reading(context, take, l.spot, l.reading, NULL);
    case CLI_TAKE_AGAIN:
      return scw_take_again(context, take, l.spot, l.reading, l.reason);
    case CLI_TAKE_UNDO: return scw_take_undo(context, take, l.order, l.reason);
    case CLI_TAKE_MARK: return scw_take_mark(context, take, l.order, l.reason);
    case CLI_TAKE_NOTE: return scw_take_note(context, take, l.reason);
    default: return SCW_OK;
  }
}

/* Opens one as the first byte says; null where that is refused. */
static scw_take *begin(scw_context *context, uint8_t choice, kept *file) {
  static const char pairs[] = "spot,gloss\nA,80.1\nB,81.2\nC,79.9\n3,80.4\n";
  const scw_take_options options = {
      .rule = (scw_take_rule)(choice & 3),
      .readings = 3,
      .half_width = choice & 4 ? 0.3 : 0,
      .unit = choice & 16 ? "GU" : NULL,
      .meter = choice & 32 ? "M1" : NULL};
  scw_table *baseline = NULL;
  scw_take *take = NULL;
  kept source = {.size = 0};
  if (choice & 8) {
    keep(&source, pairs, sizeof pairs - 1);
    demand(scw_table_read(context, NULL, (scw_source){give, &source, "b"},
                          &baseline) == SCW_OK);
  }
  scw_status status = scw_take_open(context, &options, NULL, baseline,
                                    (scw_sink){keep, file}, &take);
  demand(status == SCW_OK ? take != NULL
                          : !take && *scw_context_message(context));
  scw_table_free(baseline);
  return take;
}

static void take_lines(scw_context *context, scw_take *take,
                       const uint8_t *data, size_t size) {
  char line[300];
  for (size_t at = 0; at < size;) {
    const uint8_t *end = memchr(data + at, '\n', size - at);
    size_t n = end ? (size_t)(end - data) - at : size - at;
    size_t used = n < sizeof line - 1 ? n : sizeof line - 1;
    memcpy(line, data + at, used);
    line[used] = '\0';
    at += n + 1;
    if (use(context, take, line) != SCW_OK)
      demand(*scw_context_message(context));
  }
}

static void compare(scw_context *context, const scw_take *a,
                    const scw_take *b) {
  scw_take_state s, t;
  demand(scw_take_state_of(context, a, &s) == SCW_OK);
  demand(scw_take_state_of(context, b, &t) == SCW_OK);
  check_state(&s);
  demand(s.readings == t.readings && s.taken_back == t.taken_back &&
         s.read_again == t.read_again && s.n == t.n && s.last == t.last);
  demand(!strcmp(s.last_reading, t.last_reading) &&
         !strcmp(s.next_spot, t.next_spot));
  demand(s.mean.state == t.mean.state &&
         (s.mean.state != SCW_PRESENT || s.mean.value == t.mean.value));
  scw_take_state_free(&s);
  scw_take_state_free(&t);
}

static void as_file(scw_context *context, const uint8_t *data, size_t size) {
  static kept file;
  size_t whole;
  memset(&file, 0, sizeof file);
  scw_take *take = begin(context, 0, &file);
  file.size = size < ROOM ? size : ROOM;
  memcpy(file.text, data, file.size);
  scw_status status = scw_take_resume(
      context, take, (scw_source){give, &file, "kept"}, &whole);
  demand(status == SCW_OK ? whole <= size : *scw_context_message(context));
  scw_take_close(take);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  static kept file, other;
  scw_context *context;
  if (size < 2 || size > 4000) return 0;
  if (scw_context_new(&context) != SCW_OK) return 0;
  memset(&file, 0, sizeof file);
  memset(&other, 0, sizeof other);
  as_file(context, data, size);
  file.refuses = data[0] & 64 ? 5 : 0;
  scw_take *take = begin(context, data[0], &file);
  scw_take *again = take ? begin(context, data[0], &other) : NULL;
  if (take && again) {
    size_t whole, kept_size;
    take_lines(context, take, data + 1, size - 1);
    kept_size = file.size;
    demand(scw_take_resume(context, again, (scw_source){give, &file, "kept"},
                           &whole) == SCW_OK);
    demand(whole == kept_size && other.size == 0);
    compare(context, take, again);
  }
  scw_take_close(take);
  scw_take_close(again);
  scw_context_free(context);
  return 0;
}
