/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A source of bytes read in blocks, hashed as read, and handed on as UTF-8.
 *
 * Encoding, in this order: a byte order mark says it (UTF-8, UTF-16LE,
 * UTF-16BE). Without one, zero bytes in every second place of at least half
 * of the first 1024 bytes' pairs, and nowhere else, mean UTF-16. Otherwise the
 * first byte beyond ASCII decides for the whole file: if it starts a valid
 * UTF-8 sequence the file is UTF-8, else Latin-1. Latin-1 bytes 80 to 9F are
 * taken as the punctuation Windows writes there (dashes, quotes, euro). */
#ifndef SCWI_TEXT_IN_H
#define SCWI_TEXT_IN_H

#include <stdbool.h>

#include "context.h"
#include "scatterwise/sink.h"

typedef struct scwi_text_in scwi_text_in;

scw_status scwi_text_in_open(scw_context *context, scw_source source,
                             scwi_text_in **out);
void scwi_text_in_close(scwi_text_in *in);

/* Fills `to` with up to `room` (4 or more) bytes of UTF-8, always whole
 * characters, and returns how many. 0 is the end of the text: because the
 * source ended, or because what follows cannot be read. */
size_t scwi_text_in_read(scwi_text_in *in, char *to, size_t room);

/* After the end: whether something is wrong there. */
bool scwi_text_in_faulty(const scwi_text_in *in);

/* SCW_OK when the source ended well; otherwise SCW_BAD_INPUT with the reason,
 * told for the place at which the text read so far ends. */
scw_status scwi_text_in_end(scw_context *context, const scwi_text_in *in,
                            size_t line, size_t column);

/* "UTF-8" as long as only ASCII was seen. */
const char *scwi_text_in_encoding(const scwi_text_in *in);
unsigned long long scwi_text_in_bytes(const scwi_text_in *in);
/* Lower-case hexadecimal of the bytes read; "" before the text has ended. */
void scwi_text_in_sha256(scwi_text_in *in, char out[65]);

#endif
