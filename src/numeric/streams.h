/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Streams of random numbers that are a function of where they stand: seed,
 * stream, block and place. No state is carried from block to block, so that
 * work may be shared out in any way without a change to a single number
 * (Philox4x64-10; Salmon et al. 2011, by the library Random123). */
#ifndef SCWI_STREAMS_H
#define SCWI_STREAMS_H

#include <stddef.h>
#include <stdint.h>

enum { SCWI_READY = 32 }; /* a multiple of four */

typedef struct scwi_stream_at {
  uint64_t seed, stream, block; /* where this is */
  uint64_t next;                /* four numbers at a time */
  uint64_t ready[SCWI_READY];
  unsigned used;                /* of `ready` */
} scwi_stream_at;

scwi_stream_at scwi_stream_start(uint64_t seed, uint64_t stream,
                                 uint64_t block);

/* n whole numbers of 64 random bits. */
void scwi_stream_bits(scwi_stream_at *stream, uint64_t *out, size_t n);

/* The next one. */
static inline uint64_t scwi_stream_next(scwi_stream_at *stream) {
  if (stream->used == SCWI_READY) {
    stream->used = 0;
    scwi_stream_bits(stream, stream->ready, SCWI_READY);
  }
  return stream->ready[stream->used++];
}

#endif
