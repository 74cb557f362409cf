/* SPDX-License-Identifier: GPL-3.0-or-later */
/* JSON codes of designs and verdicts, from the lists in the public header. */
#include "scatterwise/change.h"

const char *scw_design_code(scw_design design) {
  static const char *const codes[] = {
#define CODE(code, text) text,
      SCW_DESIGN_LIST(CODE)
#undef CODE
  };
  return (unsigned)design < SCW_DESIGN_END ? codes[design] : "unknown";
}

const char *scw_verdict_code(scw_verdict verdict) {
  static const char *const codes[] = {
#define CODE(code, text) text,
      SCW_VERDICT_LIST(CODE)
#undef CODE
  };
  return (unsigned)verdict < SCW_VERDICT_END ? codes[verdict] : "unknown";
}
