/* SPDX-License-Identifier: GPL-3.0-or-later */
/* SHA-256 by nettle, fed in pieces. */
#ifndef SCWI_SHA256_H
#define SCWI_SHA256_H

#include <stddef.h>

#include "context.h"

typedef struct scwi_sha256 scwi_sha256;
scw_status scwi_sha256_new(scw_context *context, scwi_sha256 **out);
void scwi_sha256_update(scwi_sha256 *hash, const void *bytes, size_t size);
/* Lower-case hexadecimal with closing zero; the state starts anew. */
void scwi_sha256_finish(scwi_sha256 *hash, char out[65]);
void scwi_sha256_free(scwi_sha256 *hash);
#endif
