/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "json_in.h"

#include <stdlib.h>
#include <string.h>

#include "json_scan.h"
#include "memory.h"
#include "sha256.h"
#include "utf8.h"

typedef struct parser {
  scwi_json_scan scan;
  scwi_json_value *values; /* room for every value the text can hold */
  size_t taken, depth;
  const scwi_json_file *file;
} parser;

static scw_status parse_value(parser *p, scwi_json_value *out);

static scwi_json_value *next_value(parser *p) {
  return &p->values[p->taken++];
}

static scw_status fail_at(parser *p, scwi_json_place place,
                          const char *words) {
  return scwi_fail_at(p->scan.context, SCW_BAD_INPUT, p->scan.name, place.line,
                      place.column, "%s", words);
}

/* true, false, null. */
static scw_status parse_word(parser *p, scwi_json_value *out) {
  static const struct {
    const char *word;
    size_t length;
    scwi_json_kind kind;
    bool yes;
  } words[] = {{"true", 4, SCWI_JSON_BOOL, true},
               {"false", 5, SCWI_JSON_BOOL, false},
               {"null", 4, SCWI_JSON_NULL, false}};
  scwi_json_scan *scan = &p->scan;
  for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
    size_t length = words[i].length;
    if ((size_t)(scan->end - scan->at) < length ||
        strncmp(scan->at, words[i].word, length))
      continue;
    scan->at += length;
    scan->place.column += length;
    out->kind = words[i].kind;
    out->yes = words[i].yes;
    return SCW_OK;
  }
  return scwi_json_unexpected(scan, "a value (a number, a text in \"quotes\", "
                                    "true, false, null, [ or {)");
}

static scw_status check_key(parser *p, const scwi_json_value *object,
                            const scwi_json_value *member) {
  if (object->n == SCWI_JSON_KEYS)
    return fail_at(p, member->key_place, "more keys than one object may hold");
  const scwi_json_value *twin = scwi_json_find(object, member->key);
  if (!twin) return SCW_OK;
  return scwi_fail_at(p->scan.context, SCW_BAD_INPUT, p->scan.name,
                      member->key_place.line, member->key_place.column,
                      "\"%s\" stands here again, after line %zu; keep one of "
                      "them",
                      member->key, twin->key_place.line);
}

/* "key" : of one member. */
static scw_status parse_key(parser *p, const scwi_json_value *object,
                            scwi_json_value *member) {
  scwi_json_scan *scan = &p->scan;
  member->key_place = scan->place;
  char c = scwi_json_peek(scan);
  if (c != '"') /* 0,62 is the likely slip */
    return scwi_json_unexpected(
        scan, c >= '0' && c <= '9'
                  ? "a key in \"quotes\" (a decimal comma is written as a "
                    "point here)"
                  : "a key in \"quotes\"");
  scw_status status = scwi_json_scan_text(scan, &member->key);
  if (!status) status = check_key(p, object, member);
  if (status) return status;
  scwi_json_pass_space(scan);
  if (scwi_json_peek(scan) != ':')
    return scwi_json_unexpected(scan, "a colon after the key");
  scwi_json_pass(scan, 1);
  return SCW_OK;
}

/* Members up to the closing bracket; the opening one has been seen. */
static scw_status parse_members(parser *p, char close, scwi_json_value *out) {
  scwi_json_scan *scan = &p->scan;
  const scwi_json_value **link = &out->first;
  scw_status status = SCW_OK;
  scwi_json_pass(scan, 1);
  scwi_json_pass_space(scan);
  bool ended = scwi_json_peek(scan) == close;
  while (!ended && !status) {
    scwi_json_value *member = next_value(p);
    if (out->kind == SCWI_JSON_OBJECT) status = parse_key(p, out, member);
    if (!status) status = parse_value(p, member);
    if (status) return status;
    *link = member;
    link = &member->next;
    out->n++;
    scwi_json_pass_space(scan);
    ended = scwi_json_peek(scan) != ',';
    if (ended) break;
    scwi_json_pass(scan, 1);
    scwi_json_pass_space(scan);
    if (scwi_json_peek(scan) == close)
      return scwi_json_unexpected(scan, "another member after the comma (take "
                                        "the comma out if there is none)");
  }
  if (scwi_json_peek(scan) != close)
    return scwi_json_unexpected(scan, close == '}' ? "a comma or }"
                                                   : "a comma or ]");
  scwi_json_pass(scan, 1);
  return SCW_OK;
}

static scw_status parse_value(parser *p, scwi_json_value *out) {
  scwi_json_scan *scan = &p->scan;
  scwi_json_pass_space(scan);
  out->place = scan->place;
  char c = scwi_json_peek(scan);
  if (c == '"') {
    const scwi_json_file *file = p->file;
    out->kind = SCWI_JSON_TEXT;
    out->written = (file->original ? file->original : file->bytes) +
                   (scan->at + 1 - file->bytes);
    return scwi_json_scan_text(scan, &out->text);
  }
  if (c == '-' || (c >= '0' && c <= '9')) {
    out->kind = SCWI_JSON_NUMBER;
    return scwi_json_scan_number(scan, &out->number, &out->digits);
  }
  if (c != '{' && c != '[') return parse_word(p, out);
  if (p->depth == SCWI_JSON_DEPTH)
    return fail_at(p, out->place, "brackets nested too deeply for a file of "
                                  "this kind");
  p->depth++;
  out->kind = c == '{' ? SCWI_JSON_OBJECT : SCWI_JSON_ARRAY;
  scw_status status = parse_members(p, c == '{' ? '}' : ']', out);
  p->depth--;
  return status;
}

/* Every value but the first follows a bracket, a comma or a colon. */
static size_t most_values(const char *bytes, size_t size) {
  size_t most = 1;
  for (size_t i = 0; i < size; i++)
    most += bytes[i] == '[' || bytes[i] == '{' || bytes[i] == ',';
  return most;
}

static scw_status check_start(parser *p) {
  scwi_json_scan *scan = &p->scan;
  size_t size = (size_t)(scan->end - scan->at);
  if (size >= 3 && !memcmp(scan->at, "\xEF\xBB\xBF", 3)) scan->at += 3;
  if (size >= 2 && (!memcmp(scan->at, "\xFF\xFE", 2) ||
                    !memcmp(scan->at, "\xFE\xFF", 2)))
    return fail_at(p, scan->place, "the file is UTF-16; save it as UTF-8");
  scwi_json_pass_space(scan);
  if (scan->at == scan->end)
    return fail_at(p, scan->place, "the file is empty");
  return SCW_OK;
}

static scw_status parse(scw_context *context, size_t size,
                        scwi_json_file *file) {
  parser p = {.scan = {context, file->name, file->bytes, file->bytes + size,
                       {1, 1}},
              .file = file};
  scw_status status = SCWI_ALLOCATE(context, most_values(file->bytes, size),
                                    &file->values);
  p.values = file->values;
  if (!status && size && memchr(file->bytes, '\\', size))
    status = scwi_copy_text(context, file->bytes, size, &file->original);
  if (!status) status = check_start(&p);
  if (status) return status;
  scwi_json_value *root = next_value(&p);
  status = parse_value(&p, root);
  if (status) return status;
  scwi_json_pass_space(&p.scan);
  if (p.scan.at < p.scan.end)
    return scwi_json_unexpected(&p.scan, "the end of the file");
  file->root = root;
  return SCW_OK;
}

static scw_status read_failed(scw_context *context, const char *name,
                              int error) {
  const char *words = strerrordesc_np(error); /* English everywhere */
  return scwi_fail_at(context, SCW_BAD_INPUT, name, 0, 0, "reading failed: %s",
                      words ? words : "unknown error");
}

/* All bytes of the source, and their hash. */
static scw_status take_bytes(scw_context *context, scw_source source,
                             scwi_json_file *out, size_t *size) {
  enum { BLOCK = 4096 };
  size_t capacity = 0, got = 1;
  scwi_sha256 *hash = NULL;
  scw_status status = scwi_sha256_new(context, &hash);
  for (*size = 0; got && !status; *size += got) {
    status = SCWI_RESERVE(context, *size + BLOCK, &out->bytes, &capacity);
    if (status) break;
    int error = source.read(source.user, out->bytes + *size, BLOCK, &got);
    if (error)
      status = read_failed(context, source.name, error);
    else if (*size + got > SCWI_JSON_BYTES)
      status = scwi_fail_at(context, SCW_BAD_INPUT, source.name, 0, 0,
                            "more than 16 MiB, far beyond a file of this kind");
    else
      scwi_sha256_update(hash, out->bytes + *size, got);
  }
  if (!status) scwi_sha256_finish(hash, out->sha256);
  scwi_sha256_free(hash);
  return status;
}

scw_status scwi_json_read(scw_context *context, scw_source source,
                          scwi_json_file *out) {
  size_t size = 0;
  *out = (scwi_json_file){.name = source.name};
  scw_status status = take_bytes(context, source, out, &size);
  if (!status) status = parse(context, size, out);
  if (status) scwi_json_file_free(out);
  return status;
}

void scwi_json_file_free(scwi_json_file *file) {
  free(file->bytes);
  free(file->original);
  free(file->values);
  *file = (scwi_json_file){0};
}

const scwi_json_value *scwi_json_find(const scwi_json_value *object,
                                      const char *key) {
  const scwi_json_value *member = object->first;
  while (member && strcmp(member->key, key)) member = member->next;
  return member;
}

/* Bytes of the character or escape at `written`, a valid text. */
static size_t written_length(const char *written) {
  bool cut;
  if (*written != '\\') return scwi_utf8_sequence(written, 4, &cut);
  if (written[1] != 'u') return 2;
  bool pair = strchr("dD", written[2]) && strchr("89abAB", written[3]);
  return pair ? 12 : 6;
}

scwi_json_place scwi_json_place_in(const scwi_json_value *text, size_t n) {
  scwi_json_place place = text->place;
  const char *at = text->written;
  place.column++;
  for (; n > 1 && *at && *at != '"'; n--) {
    size_t length = written_length(at);
    place.column += *at == '\\' ? length : 1;
    at += length;
  }
  return place;
}

const char *scwi_json_kind_words(scwi_json_kind kind) {
  static const char *const words[] = {"null",   "true or false",
                                      "a number", "a text",
                                      "a list in [ ]", "an object in { }"};
  return words[kind];
}
