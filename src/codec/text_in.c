/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "text_in.h"

#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "sha256.h"
#include "utf8.h"

enum { BLOCK = 128 * 1024, SNIFFED = 1024 };

typedef enum encoding {
  ASCII_SO_FAR,
  UTF_8,
  UTF_16LE,
  UTF_16BE,
  LATIN_1
} encoding;

typedef enum fault {
  NO_FAULT,
  READ_FAILED,
  ZERO_BYTE,
  NOT_UTF_8,
  NOT_UTF_16,
  CUT_SHORT /* UTF-16 ends inside a character */
} fault;

struct scwi_text_in {
  scw_source source;
  scwi_sha256 *hash;
  unsigned long long bytes;
  encoding encoding;
  fault fault;
  int error;       /* errno of READ_FAILED */
  bool ended;      /* the source has no more */
  bool hashed;     /* the hash was closed into `sha256` */
  char sha256[65]; /* "" until then */
  size_t at, filled; /* the undecoded part of `raw` */
  unsigned char raw[BLOCK];
};

static size_t left(const scwi_text_in *in) { return in->filled - in->at; }

/* Nothing follows, and that is not because reading failed. */
static bool ended_well(const scwi_text_in *in) {
  return in->ended && !in->error;
}

/* Reads once more behind what is left undecoded. */
static void refill(scwi_text_in *in) {
  size_t got = 0, rest = left(in);
  if (rest) memmove(in->raw, in->raw + in->at, rest);
  in->at = 0;
  in->filled = rest;
  in->error = in->source.read(in->source.user, (char *)in->raw + rest,
                              BLOCK - rest, &got);
  if (in->error || got == 0) {
    in->ended = true;
    return;
  }
  scwi_sha256_update(in->hash, in->raw + rest, got);
  in->bytes += got;
  in->filled += got;
}

static bool starts_with(const scwi_text_in *in, const char *mark, size_t n) {
  return in->filled >= n && memcmp(in->raw, mark, n) == 0;
}

/* UTF-16 without a byte order mark, by its zero bytes; else ASCII so far. */
static encoding by_zero_bytes(const scwi_text_in *in) {
  size_t pairs = (in->filled < SNIFFED ? in->filled : SNIFFED) / 2;
  size_t zeros[2] = {0, 0};
  for (size_t i = 0; i < 2 * pairs; i++) zeros[i & 1] += in->raw[i] == 0;
  if (zeros[1] && !zeros[0] && 2 * zeros[1] >= pairs) return UTF_16LE;
  if (zeros[0] && !zeros[1] && 2 * zeros[0] >= pairs) return UTF_16BE;
  return ASCII_SO_FAR;
}

static void find_encoding(scwi_text_in *in) {
  while (!in->ended && in->filled < SNIFFED) refill(in);
  if (starts_with(in, "\xEF\xBB\xBF", 3)) {
    in->encoding = UTF_8;
    in->at = 3;
  } else if (starts_with(in, "\xFF\xFE", 2)) {
    in->encoding = UTF_16LE;
    in->at = 2;
  } else if (starts_with(in, "\xFE\xFF", 2)) {
    in->encoding = UTF_16BE;
    in->at = 2;
  } else {
    in->encoding = by_zero_bytes(in);
  }
}

scw_status scwi_text_in_open(scw_context *context, scw_source source,
                             scwi_text_in **out) {
  scw_status status = SCWI_ALLOCATE(context, 1, out);
  if (status != SCW_OK) return status;
  (*out)->source = source;
  status = scwi_sha256_new(context, &(*out)->hash);
  if (status == SCW_OK) {
    find_encoding(*out);
  } else {
    scwi_text_in_close(*out);
    *out = NULL;
  }
  return status;
}

void scwi_text_in_close(scwi_text_in *in) {
  if (!in) return;
  scwi_sha256_free(in->hash);
  free(in);
}

/* Code points of the bytes 80 to 9F as Windows-1252 has them; the five it
 * leaves open stay control characters. Source: the Unicode consortium's
 * mapping table CP1252.TXT (from memory). */
static uint32_t latin_1(unsigned char c) {
  static const uint16_t windows[32] = {
      0x20AC, 0x0081, 0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021,
      0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0x008D, 0x017D, 0x008F,
      0x0090, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014,
      0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0x009D, 0x017E, 0x0178};
  return c >= 0x80 && c < 0xA0 ? windows[c - 0x80] : c;
}

/* One character beyond ASCII of an 8-bit encoding. Returns the bytes written;
 * 0 when more input is needed or at a fault. */
static size_t decode_8_bit(scwi_text_in *in, char *to) {
  const char *from = (const char *)in->raw + in->at;
  bool cut = false;
  size_t length = 0;
  if (*from == 0) return in->fault = ZERO_BYTE, 0;
  if (in->encoding != LATIN_1) {
    length = scwi_utf8_sequence(from, left(in), &cut);
    if (cut && !ended_well(in)) return 0;
    if (in->encoding == ASCII_SO_FAR) in->encoding = length ? UTF_8 : LATIN_1;
  }
  if (in->encoding == LATIN_1)
    return scwi_utf8_write(latin_1(in->raw[in->at++]), to);
  if (length == 0) return in->fault = NOT_UTF_8, 0;
  memcpy(to, from, length);
  in->at += length;
  return length;
}

static size_t read_8_bit(scwi_text_in *in, char *to, size_t room) {
  size_t n = 0;
  while (left(in) && n + 4 <= room) {
    size_t most = left(in) < room - n ? left(in) : room - n;
    size_t run = scwi_ascii_run((const char *)in->raw + in->at, most);
    if (run) memcpy(to + n, in->raw + in->at, run);
    in->at += run;
    n += run;
    if (run == most || n + 4 > room) continue;
    size_t wrote = decode_8_bit(in, to + n);
    if (wrote == 0) break;
    n += wrote;
  }
  return n;
}

static uint32_t unit_16(const scwi_text_in *in, size_t at) {
  unsigned first = in->raw[at], second = in->raw[at + 1];
  return in->encoding == UTF_16LE ? first | second << 8 : first << 8 | second;
}

/* One UTF-16 character; as decode_8_bit. */
static size_t decode_16(scwi_text_in *in, char *to) {
  if (left(in) < 2) {
    if (ended_well(in)) in->fault = CUT_SHORT;
    return 0;
  }
  uint32_t unit = unit_16(in, in->at), character = unit;
  size_t size = 2;
  if (unit == 0) return in->fault = ZERO_BYTE, 0;
  if (unit >= 0xDC00 && unit < 0xE000) return in->fault = NOT_UTF_16, 0;
  if (unit >= 0xD800 && unit < 0xDC00) {
    size = 4;
    if (left(in) < size) {
      if (ended_well(in)) in->fault = CUT_SHORT;
      return 0;
    }
    uint32_t low = unit_16(in, in->at + 2);
    if (low < 0xDC00 || low >= 0xE000) return in->fault = NOT_UTF_16, 0;
    character = 0x10000 + ((unit - 0xD800) << 10) + (low - 0xDC00);
  }
  in->at += size;
  return scwi_utf8_write(character, to);
}

static size_t read_16(scwi_text_in *in, char *to, size_t room) {
  size_t n = 0;
  while (left(in) && n + 4 <= room) {
    size_t wrote = decode_16(in, to + n);
    if (wrote == 0) break;
    n += wrote;
  }
  return n;
}

size_t scwi_text_in_read(scwi_text_in *in, char *to, size_t room) {
  bool wide = in->encoding == UTF_16LE || in->encoding == UTF_16BE;
  for (;;) {
    size_t n = wide ? read_16(in, to, room) : read_8_bit(in, to, room);
    if (n || in->fault) return n;
    if (in->ended) { /* told only now: what came before it was good */
      if (in->error) in->fault = READ_FAILED;
      return 0;
    }
    refill(in);
  }
}

bool scwi_text_in_faulty(const scwi_text_in *in) {
  return in->fault != NO_FAULT;
}

static scw_status fail_reading(scw_context *context, const scwi_text_in *in,
                               size_t line) {
  const char *words = strerrordesc_np(in->error); /* English everywhere */
  return scwi_fail_at(
      context, SCW_BAD_INPUT, in->source.name, line, 0,
      "reading stopped here: %s (system error %d); check the file and the "
      "drive it is on, then try again", words ? words : "unknown error",
      in->error);
}

scw_status scwi_text_in_end(scw_context *context, const scwi_text_in *in,
                            size_t line, size_t column) {
  const char *name = in->source.name;
  switch (in->fault) {
  case NO_FAULT: return SCW_OK;
  case READ_FAILED: return fail_reading(context, in, line);
  case ZERO_BYTE:
    return scwi_fail_at(context, SCW_BAD_INPUT, name, line, column,
                        "a zero byte: this is not a text file; if it comes "
                        "from a spreadsheet, save it as CSV first");
  case NOT_UTF_8:
    return scwi_fail_at(context, SCW_BAD_INPUT, name, line, column,
                        "byte %02X does not belong in UTF-8, which the text "
                        "before it is written in; save the file again as "
                        "UTF-8", (unsigned)in->raw[in->at]);
  case NOT_UTF_16:
    return scwi_fail_at(context, SCW_BAD_INPUT, name, line, column,
                        "half a UTF-16 character (%04X); save the file again "
                        "as UTF-8", (unsigned)unit_16(in, in->at));
  case CUT_SHORT:
    return scwi_fail_at(context, SCW_BAD_INPUT, name, line, column,
                        "the file ends inside a UTF-16 character; it was cut "
                        "off: save or copy it again");
  }
  return SCW_OK;
}

const char *scwi_text_in_encoding(const scwi_text_in *in) {
  static const char *const names[] = {"UTF-8", "UTF-8", "UTF-16LE",
                                      "UTF-16BE", "Latin-1"};
  return names[in->encoding];
}

unsigned long long scwi_text_in_bytes(const scwi_text_in *in) {
  return in->bytes;
}

void scwi_text_in_sha256(scwi_text_in *in, char out[65]) {
  if (in->ended && !in->hashed) {
    scwi_sha256_finish(in->hash, in->sha256);
    in->hashed = true;
  }
  memcpy(out, in->sha256, sizeof in->sha256);
}
