/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Status codes: what a call that can fail returns. */
#ifndef SCATTERWISE_STATUS_H
#define SCATTERWISE_STATUS_H

#ifdef __cplusplus
extern "C" {
#endif

#if defined(__GNUC__)
#define SCW_API __attribute__((visibility("default")))
#else
#define SCW_API
#endif

/* One list for codes and texts. A code exists only where a caller would act
 * on it; what, where and what to do stand in the context's message. */
#define SCW_STATUS_LIST(X)                                                     \
  X(SCW_OK, "done")                                                            \
  X(SCW_BAD_ARGUMENT, "an argument or setting cannot be used")                 \
  X(SCW_BAD_INPUT, "the input cannot be read or does not make sense")          \
  X(SCW_NO_FIGURE, "no figure or interval can be given")                       \
  X(SCW_NOT_REACHED, "a numerical method did not reach its accuracy")          \
  X(SCW_OUT_OF_MEMORY, "memory ran out")                                       \
  X(SCW_NOT_WRITTEN, "output could not be written")

typedef enum scw_status {
#define SCW_STATUS_ENUM(code, text) code,
  SCW_STATUS_LIST(SCW_STATUS_ENUM)
#undef SCW_STATUS_ENUM
      SCW_STATUS_END /* one past the last code, for tests that walk them all */
} scw_status;

/* The fixed English text of a code; never null. */
SCW_API const char *scw_status_text(scw_status status);

#ifdef __cplusplus
}
#endif
#endif
