/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write.h"

#include <string.h>

scw_status scwi_write(scw_context *context, scw_sink sink, const char *data,
                      size_t size) {
  if (size == 0 || sink.write(sink.user, data, size) == 0) return SCW_OK;
  return scwi_fail(context, SCW_NOT_WRITTEN,
                   "output could not be written; is the disk full or the "
                   "reader gone?");
}

scw_status scwi_write_text(scw_context *context, scw_sink sink,
                           const char *text) {
  return scwi_write(context, sink, text, strlen(text));
}
