/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "expression_tape.h"

#include <stdlib.h>
#include <string.h>

#include "elementary.h"
#include "expression_scan.h"
#include "memory.h"
#include "number_text.h"

bool scwi_has_two_operands(scwi_operation operation) {
  return operation >= SCWI_ADD && operation <= SCWI_POWER;
}

static bool is_leaf(const scwi_expression_step *step) {
  return step->operation == SCWI_NUMBER || step->operation == SCWI_INPUT;
}

static scw_status put(scwi_tape *tape, scwi_expression_step step,
                      uint16_t *index) {
  scwi_expression *out = tape->out;
  if (out->n_steps >= SCWI_EXPRESSION_STEPS)
    return scwi_expression_fail(
        tape->context, SCW_BAD_INPUT, tape->text, tape->length, step.place,
        "the expression is too long: at most %d operations can be taken",
        SCWI_EXPRESSION_STEPS);
  scw_status status = SCWI_RESERVE(tape->context, out->n_steps + 1, &out->step,
                                   &tape->capacity);
  if (status) return status;
  *index = (uint16_t)out->n_steps;
  out->step[out->n_steps++] = step;
  return SCW_OK;
}

scw_status scwi_tape_number(scwi_tape *tape, double number, uint32_t place,
                            uint16_t *index) {
  scwi_expression_step step = {
      .operation = SCWI_NUMBER, .place = place, .number = number};
  return put(tape, step, index);
}

static bool same_name(const char *a, const char *b, size_t length) {
  return strncmp(a, b, length) == 0 && a[length] == 0;
}

scw_status scwi_tape_input(scwi_tape *tape, const char *name, size_t length,
                           uint32_t place, uint16_t *index) {
  scwi_expression *out = tape->out;
  for (size_t i = 0; i < out->n_inputs; i++)
    if (same_name(out->input[i], name, length)) {
      *index = tape->of_input[i];
      return SCW_OK;
    }
  if (out->n_inputs >= SCWI_EXPRESSION_INPUTS)
    return scwi_expression_fail(
        tape->context, SCW_BAD_INPUT, tape->text, tape->length, place,
        "more than %d different names are too many for one expression",
        SCWI_EXPRESSION_INPUTS);
  scw_status status = SCWI_RESERVE(tape->context, out->n_inputs + 1,
                                   &out->input, &tape->input_capacity);
  if (!status)
    status =
        scwi_copy_text(tape->context, name, length, &out->input[out->n_inputs]);
  if (status) return status;
  size_t i = out->n_inputs++;
  scwi_expression_step step = {
      .operation = SCWI_INPUT, .a = (uint16_t)i, .place = place};
  status = put(tape, step, index);
  if (!status) tape->of_input[i] = *index;
  return status;
}

/* Numbers alone: their value, or why they have none. */
static scw_status fold(scwi_tape *tape, scwi_operation operation, double a,
                       double b, uint32_t place, uint16_t *index) {
  char number[SCWI_NUMBER_SIZE];
  double at, value = scwi_apply(operation, a, b);
  const char *why = scwi_no_value(operation, a, b, SCWI_EXPONENT_FIXED, 0, &at);
  if (why)
    return scwi_expression_fail(tape->context, SCW_BAD_INPUT, tape->text,
                                tape->length, place, "%s %s", why,
                                scwi_number_text(at, number));
  if (!isfinite(value))
    return scwi_expression_fail(tape->context, SCW_BAD_INPUT, tape->text,
                                tape->length, place,
                                "this comes to a number too large to work "
                                "with");
  return scwi_tape_number(tape, value, place, index);
}

scw_status scwi_tape_operation(scwi_tape *tape, scwi_operation operation,
                               uint16_t a, uint16_t b, uint32_t place,
                               uint16_t *index) {
  const scwi_expression_step *left = &tape->out->step[a],
                             *right = &tape->out->step[b];
  if (left->operation == SCWI_NUMBER && right->operation == SCWI_NUMBER)
    return fold(tape, operation, left->number, right->number, place, index);
  scwi_expression_step step = {
      .operation = operation, .a = a, .b = b, .place = place};
  if (operation == SCWI_POWER && right->operation == SCWI_NUMBER)
    step.number = right->number;
  return put(tape, step, index);
}

scw_status scwi_tape_expression(scwi_tape *tape, const scwi_expression *other,
                                uint32_t place, uint16_t *index) {
  uint16_t here[SCWI_EXPRESSION_STEPS];
  scw_status status = SCW_OK;
  for (size_t i = 0; i < other->n_steps && !status; i++) {
    const scwi_expression_step *step = &other->step[i];
    if (step->operation == SCWI_NUMBER)
      status = scwi_tape_number(tape, step->number, place, &here[i]);
    else if (step->operation == SCWI_INPUT)
      status = scwi_tape_input(tape, other->input[step->a],
                               strlen(other->input[step->a]), place, &here[i]);
    else
      status = scwi_tape_operation(tape, step->operation, here[step->a],
                                   here[step->b], place, &here[i]);
  }
  if (!status) *index = here[other->n_steps - 1];
  return status;
}

/* The last step that needs each step. */
static void last_needs(const scwi_expression *e, uint16_t *needed) {
  for (size_t i = 0; i < e->n_steps; i++) {
    needed[i] = (uint16_t)i;
    if (is_leaf(&e->step[i])) continue;
    needed[e->step[i].a] = needed[e->step[i].b] = (uint16_t)i;
  }
}

static uint16_t free_slot(const bool *taken) {
  uint16_t slot = 0;
  while (taken[slot])
    slot++;
  return slot;
}

/* The last step takes no slot: its value is the caller's. */
static void give_slots(scwi_expression *e, const uint16_t *needed,
                       bool *taken) {
  for (size_t i = 0; i + 1 < e->n_steps; i++) {
    scwi_expression_step *step = &e->step[i];
    if (is_leaf(step)) continue;
    step->slot = free_slot(taken);
    taken[step->slot] = needed[i] > i; /* one that nobody needs is let go */
    if (step->slot >= e->n_slots) e->n_slots = step->slot + 1u;
    const uint16_t operands[] = {step->a, step->b};
    for (int k = 0; k < 2; k++)
      if (!is_leaf(&e->step[operands[k]]) && needed[operands[k]] == i)
        taken[e->step[operands[k]].slot] = false;
  }
}

scw_status scwi_tape_close(scwi_tape *tape, uint16_t last) {
  scwi_expression *out = tape->out;
  uint16_t *needed;
  bool *taken = NULL;
  /* What is to be the value may stand further up: a name used before. */
  scw_status status = SCW_OK;
  out->n_steps = last + 1u;
  status = SCWI_ALLOCATE(tape->context, out->n_steps, &needed);
  if (!status) status = SCWI_ALLOCATE(tape->context, out->n_steps, &taken);
  if (!status) {
    last_needs(out, needed);
    give_slots(out, needed, taken);
  }
  free(needed);
  free(taken);
  return status;
}
