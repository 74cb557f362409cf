/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sha256.h"

#include <nettle/sha2.h>
#include <stdlib.h>

#include "memory.h"

struct scwi_sha256 {
  struct sha256_ctx state;
};

scw_status scwi_sha256_new(scw_context *context, scwi_sha256 **out) {
  scw_status status = SCWI_ALLOCATE(context, 1, out);
  if (status == SCW_OK) sha256_init(&(*out)->state);
  return status;
}

void scwi_sha256_update(scwi_sha256 *hash, const void *bytes, size_t size) {
  if (size) sha256_update(&hash->state, size, bytes);
}

void scwi_sha256_finish(scwi_sha256 *hash, char out[65]) {
  static const char digits[] = "0123456789abcdef";
  uint8_t digest[SHA256_DIGEST_SIZE];
  sha256_digest(&hash->state, sizeof digest, digest); /* starts anew */
  for (size_t i = 0; i < sizeof digest; i++) {
    out[2 * i] = digits[digest[i] >> 4];
    out[2 * i + 1] = digits[digest[i] & 15];
  }
  out[64] = 0;
}

void scwi_sha256_free(scwi_sha256 *hash) { free(hash); }
