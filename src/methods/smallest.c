/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "smallest.h"

static size_t smaller(size_t a, size_t b) {
  return a < b ? a : b;
}

/* Narrows (no, yes] to one: not reached at `no`, reached at `yes`. */
static scw_status bisect(scw_context *context, scwi_reached reached,
                         void *parameters, size_t no, size_t yes, size_t *n) {
  bool there;
  while (yes - no > 1) {
    size_t middle = no + (yes - no) / 2;
    scw_status status = reached(context, parameters, middle, &there);
    if (status != SCW_OK) return status;
    *(there ? &yes : &no) = middle;
  }
  *n = yes;
  return SCW_OK;
}

scw_status scwi_smallest(scw_context *context, scwi_reached reached,
                         void *parameters, size_t guess, size_t least,
                         size_t most, size_t *n) {
  bool there;
  *n = 0;
  if (least > most) return SCW_OK;
  size_t at = smaller(guess > least ? guess : least, most);
  scw_status status = reached(context, parameters, at, &there);
  bool upward = !there;
  for (size_t step = 1; status == SCW_OK; step *= 2) {
    size_t room = upward ? most - at : at - least;
    if (room == 0) {
      if (there) *n = at;
      return SCW_OK;
    }
    size_t next = upward ? at + smaller(step, room) : at - smaller(step, room);
    status = reached(context, parameters, next, &there);
    if (status == SCW_OK && there == upward)
      return bisect(context, reached, parameters, upward ? at : next,
                    upward ? next : at, n);
    at = next;
  }
  return status;
}
