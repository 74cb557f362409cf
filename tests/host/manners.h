/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Functions a guest library must not call, taken over by the host program: the
 * dynamic linker hands every call from the library, and from the libraries
 * below it, to these. */
#ifndef MANNERS_H
#define MANNERS_H

#include <stdatomic.h>

/* Calls caught so far, and the name of the last one. */
extern atomic_int caught;
extern const char *_Atomic caught_name;

void note_call(const char *name);

#endif
