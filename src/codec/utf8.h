/* SPDX-License-Identifier: GPL-3.0-or-later */
/* UTF-8 byte by byte (RFC 3629: no overlong forms, no surrogates, nothing
 * beyond U+10FFFF). */
#ifndef SCWI_UTF8_H
#define SCWI_UTF8_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Length of the sequence at `bytes` (size >= 1): 1 to 4 when it is valid, 0
 * when it is not; *cut tells that it is the valid start of a longer one. */
size_t scwi_utf8_sequence(const char *bytes, size_t size, bool *cut);

/* Writes one character (at most 4 bytes); returns its length. */
size_t scwi_utf8_write(uint32_t character, char *to);

/* How many of the first `size` bytes are ASCII and not zero. */
size_t scwi_ascii_run(const char *bytes, size_t size);

/* Characters in valid UTF-8: bytes that continue none. */
size_t scwi_utf8_count(const char *bytes, size_t size);

#endif
