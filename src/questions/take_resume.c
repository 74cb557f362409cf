/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Going on with what an earlier run kept. */
#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "take_inside.h"

/* Everything of the source; freed by the caller. */
static scw_status read_all(scw_context *context, scw_source source,
                           char **bytes, size_t *size) {
  size_t capacity = 0, got = 1;
  *bytes = NULL;
  *size = 0;
  while (got) {
    scw_status status =
        SCWI_RESERVE(context, *size + 65536, bytes, &capacity);
    if (status) return status;
    if (source.read(source.user, *bytes + *size, capacity - *size, &got))
      return scwi_fail_at(context, SCW_BAD_INPUT, source.name, 0, 0,
                          "it cannot be read to its end");
    *size += got;
  }
  return SCW_OK;
}

static bool same(const char *a, const char *b) {
  return !a || !b ? a == b : !strcmp(a, b);
}

/* A column without a row yet, which does not say what stands in it. */
static bool is_unsaid(const char *kept) { return kept && !*kept; }

static scw_status differs(scw_context *context, const char *name,
                          const char *what, const char *kept,
                          const char *given) {
  return scwi_fail_at(context, SCW_BAD_INPUT, name, 0, 0,
                      "the %s in it is %s, and now it is %s: go on with what "
                      "the file was begun with, or begin a new file",
                      what, kept && *kept ? kept : "not said",
                      given && *given ? given : "not said");
}

/* What was said when the file was begun holds; what is said now must agree. */
static scw_status agree(scw_context *context, scw_take *take, const char *name,
                        const scwi_kept_form *kept) {
  scwi_kept_form *form = &take->form;
  if ((take->options.quantity && !same(form->quantity, kept->quantity)) ||
      (take->baseline && !same(form->quantity, kept->quantity)))
    return differs(context, name, "quantity", kept->quantity, form->quantity);
  if ((*form->unit || take->baseline) && !same(form->unit, kept->unit))
    return differs(context, name, "unit", kept->unit, form->unit);
  for (int i = 0; i < SCWI_KEPT_FIXED; i++)
    if (form->fixed[i] ? !is_unsaid(kept->fixed[i]) &&
                             !same(form->fixed[i], kept->fixed[i])
                       : is_unsaid(kept->fixed[i]))
      return differs(context, name, scwi_kept_heads[i], kept->fixed[i],
                     form->fixed[i]);
  if (take->settled && form->spots != kept->spots)
    return scwi_fail_at(context, SCW_BAD_INPUT, name, 0, 0,
                        "its readings %s spots, and now they would %s: give "
                        "the same list of spots and baseline as before",
                        kept->spots ? "name" : "name no",
                        kept->spots ? "not" : "");
  return SCW_OK;
}

/* A text of the file, owned by the take. */
static scw_status own(scw_context *context, scw_take *take, const char **text) {
  return *text ? scwi_arena_copy(context, &take->texts, *text, strlen(*text),
                                 text)
               : SCW_OK;
}

static scw_status adopt(scw_context *context, scw_take *take,
                        const scwi_kept_form *kept) {
  scwi_kept_form given = take->form;
  take->form = *kept;
  scw_status status = own(context, take, &take->form.quantity);
  if (!status) status = own(context, take, &take->form.unit);
  if (!status) status = own(context, take, &take->form.length_unit);
  for (int i = 0; i < SCWI_KEPT_FIXED && !status; i++) {
    if (is_unsaid(kept->fixed[i])) take->form.fixed[i] = given.fixed[i];
    status = own(context, take, &take->form.fixed[i]);
  }
  take->settled = take->headed = true;
  return status;
}

static scw_status replay(scw_context *context, scw_take *take,
                         const char *name, const scwi_kept_file *file) {
  for (size_t i = 0; i < file->n; i++) {
    scwi_take_step step;
    scw_status status = scwi_take_check(context, take, &file->row[i], &step);
    if (status == SCW_BAD_ARGUMENT) {
      char why[512];
      strncpy(why, scw_context_message(context), sizeof why - 1);
      why[sizeof why - 1] = 0;
      return scwi_fail_at(context, SCW_BAD_INPUT, name, file->row[i].line, 0,
                          "this row does not follow from those above it: %s",
                          why);
    }
    if (status) return status;
    scwi_take_do(take, &step);
  }
  return scwi_take_refill(context, take);
}

scw_status scw_take_resume(scw_context *context, scw_take *take,
                           scw_source source, size_t *whole) {
  const char *name = source.name ? source.name : "input";
  char *bytes = NULL;
  size_t size = 0;
  scwi_kept_file file = {0};
  *whole = 0;
  source.name = name;
  scw_status status = take->n_taken
                          ? scwi_fail(context, SCW_BAD_ARGUMENT,
                                      "readings have been taken already")
                          : read_all(context, source, &bytes, &size);
  if (!status) status = scwi_kept_read(context, name, bytes, size, &file);
  if (!status && file.headed) status = agree(context, take, name, &file.form);
  if (!status && file.headed) status = adopt(context, take, &file.form);
  if (!status) status = replay(context, take, name, &file);
  if (!status) *whole = file.whole;
  scwi_kept_free(&file);
  free(bytes);
  return status;
}
