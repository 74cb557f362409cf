/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Making a context: the one place that takes GSL's aborting handler out of
 * play. It lives here because this is the only folder that knows GSL. */
#include <gsl/gsl_errno.h>

#include "context.h"

scw_status scw_context_new(scw_context **out) {
  gsl_set_error_handler_off();
  return scwi_context_make(out);
}
