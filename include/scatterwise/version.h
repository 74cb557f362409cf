/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCATTERWISE_VERSION_H
#define SCATTERWISE_VERSION_H

#include "scatterwise/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Version of the library that is linked, "major.minor.patch". */
SCW_API const char *scw_version(void);

#ifdef __cplusplus
}
#endif
#endif
