/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "streams.h"

#include <Random123/philox.h>

scwi_stream_at scwi_stream_start(uint64_t seed, uint64_t stream,
                                 uint64_t block) {
  scwi_stream_at start;
  start.seed = seed;
  start.stream = stream;
  start.block = block;
  start.next = 0;
  start.used = SCWI_READY; /* what is ready is not looked at */
  return start;
}

void scwi_stream_bits(scwi_stream_at *stream, uint64_t *out, size_t n) {
  const philox4x64_key_t key = {{stream->seed, 0}};
  for (size_t i = 0; i < n; i += 4) {
    const philox4x64_ctr_t at = {
        {stream->next++, stream->block, stream->stream, 0}};
    philox4x64_ctr_t made = philox4x64(at, key);
    for (size_t k = 0; k < 4 && i + k < n; k++) out[i + k] = made.v[k];
  }
}
