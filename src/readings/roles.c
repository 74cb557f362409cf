/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names of the roles a column can play. */
#include "scatterwise/table.h"

const char *scw_role_name(scw_role role) {
  static const char *const names[SCW_ROLE_COUNT] = {
      "reading", "set",     "product",   "panel",    "state", "spot", "repeat",
      "order",   "session", "direction", "geometry", "x",     "y",       "replaces",
      "takes_back", "operator", "row", "column",
      "date", "instrument", "standard", "event", "kind"};
  return (unsigned)role < SCW_ROLE_COUNT ? names[role] : "unknown";
}
