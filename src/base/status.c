/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Texts of the codes, generated from the lists in the public headers. */
#include "scatterwise/status.h"

#include "scatterwise/figures.h"
#include "scatterwise/version.h"

const char *scw_status_text(scw_status status) {
  static const char *const texts[] = {
#define TEXT(code, text) text,
      SCW_STATUS_LIST(TEXT)
#undef TEXT
  };
  return (unsigned)status < SCW_STATUS_END ? texts[status] : "unknown status";
}

const char *scw_presence_code(scw_presence presence) {
  static const char *const codes[] = {
#define CODE(code, key, text) key,
      SCW_PRESENCE_LIST(CODE)
#undef CODE
  };
  return (unsigned)presence < SCW_PRESENCE_END ? codes[presence] : "unknown";
}

const char *scw_presence_text(scw_presence presence) {
  static const char *const texts[] = {
#define TEXT(code, key, text) text,
      SCW_PRESENCE_LIST(TEXT)
#undef TEXT
  };
  return (unsigned)presence < SCW_PRESENCE_END ? texts[presence] : "unknown";
}

const char *scw_version(void) { return SCATTERWISE_VERSION; }
