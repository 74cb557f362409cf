/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two threads with a context each, doing every job at the same time. */
#ifndef TWO_THREADS_H
#define TWO_THREADS_H

#include "jobs.h"

/* Null when both got the very bytes `context` gets alone, else what not. */
const char *two_threads(scw_context *context);

#endif
