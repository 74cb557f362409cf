/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <string.h>

#include "layout.h"

const char *scwi_columns_text(const scwi_start *start, char *out,
                              size_t size) {
  size_t at = 0;
  for (size_t i = 0; i < start->n && at + SCWI_SHOWN_SIZE + 6 < size; i++) {
    char shown[SCWI_SHOWN_SIZE];
    scwi_span text = start->heading[i].text;
    if (text.length == 0) continue;
    scwi_shown(text.text, text.length, shown);
    if (at) memcpy(out + at, ", ", 2), at += 2;
    memcpy(out + at, shown, strlen(shown));
    at += strlen(shown);
  }
  if (at == 0) memcpy(out, "none", 4), at = 4;
  out[at] = 0;
  return out;
}

static scw_status no_such_column(scw_context *context, const scwi_start *start,
                                 const char *file, scwi_span name) {
  char shown[SCWI_SHOWN_SIZE], columns[600];
  scwi_shown(name.text, name.length, shown);
  if (!start->has_header || start->bare)
    return scwi_fail_at(context, SCW_BAD_ARGUMENT, file, 0, 0,
                        "there is no column '%s': the file has no header. Add "
                        "a first line with the names of the columns",
                        shown);
  return scwi_fail_at(context, SCW_BAD_ARGUMENT, file,
                      start->n ? start->heading[0].line : 0, 0,
                      "there is no column '%s'. The columns are: %s", shown,
                      scwi_columns_text(start, columns, sizeof columns));
}

static scw_status twice(scw_context *context, const char *file,
                        const scwi_heading *heading, const char *why) {
  char shown[SCWI_SHOWN_SIZE];
  return scwi_fail_at(context, SCW_BAD_ARGUMENT, file, heading->line,
                      heading->column, "column '%s' %s",
                      scwi_shown(heading->text.text, heading->text.length,
                                 shown),
                      why);
}

/* Gives the role to the columns `name` fits. */
static scw_status choose(scw_context *context, scwi_start *start,
                         const char *file, scwi_span name, scw_role role) {
  size_t hits = 0;
  for (size_t i = 0; i < start->n; i++) {
    scwi_heading *heading = start->heading + i;
    if (!heading->text.length || !scwi_heading_is(heading, name)) continue;
    if (heading->chosen)
      return twice(context, file, heading,
                   "is named for two roles. Name it once");
    if (hits++ && role != SCW_ROLE_READING && role != SCW_ROLE_SET)
      return twice(context, file, heading,
                   "fits the name as well as another column. Give the whole "
                   "name");
    heading->chosen = true;
    if (role == SCW_ROLE_READING) {
      if (heading->kind != SCWI_HEAD_READING) heading->rest = heading->name;
      heading->kind = SCWI_HEAD_READING;
    } else {
      heading->kind = SCWI_HEAD_ROLE;
      heading->role = role;
    }
  }
  return hits ? SCW_OK : no_such_column(context, start, file, name);
}

/* What header words said about this role is overruled. */
static void overrule(scwi_start *start, scw_role role) {
  for (size_t i = 0; i < start->n; i++) {
    scwi_heading *heading = start->heading + i;
    if (heading->chosen) continue;
    bool same = role == SCW_ROLE_READING
                    ? heading->kind == SCWI_HEAD_READING ||
                          heading->kind == SCWI_HEAD_UNKNOWN
                    : heading->kind == SCWI_HEAD_ROLE && heading->role == role;
    if (same) heading->kind = SCWI_HEAD_OTHER;
  }
}

static scw_status choose_role(scw_context *context, scwi_start *start,
                              const char *file, const char *names,
                              scw_role role) {
  bool list = role == SCW_ROLE_SET || role == SCW_ROLE_READING;
  while (names) {
    const char *comma = list ? strchr(names, ',') : NULL;
    size_t length = comma ? (size_t)(comma - names) : strlen(names);
    scw_status status =
        choose(context, start, file, scwi_trim(names, length), role);
    if (status != SCW_OK) return status;
    names = comma ? comma + 1 : NULL;
  }
  overrule(start, role);
  return SCW_OK;
}

static bool has_state(const scwi_start *start) {
  for (size_t i = 0; i < start->n; i++)
    if (start->heading[i].kind == SCWI_HEAD_ROLE &&
        start->heading[i].role == SCW_ROLE_STATE)
      return true;
  return false;
}

/* b1, b2 ...: the number at the end tells the repeat. */
static scwi_span number_behind(scwi_span name) {
  size_t n = 0;
  while (n < name.length && name.text[name.length - 1 - n] >= '0' &&
         name.text[name.length - 1 - n] <= '9')
    n++;
  return (scwi_span){name.text + name.length - n, n};
}

static scw_status choose_side(scw_context *context, scwi_start *start,
                              const char *file, const char *label,
                              scw_side side) {
  scwi_span name = scwi_trim(label, strlen(label));
  size_t hits = 0;
  for (size_t i = 0; i < start->n; i++) {
    scwi_heading *heading = start->heading + i;
    if (!heading->text.length || !scwi_heading_is(heading, name)) continue;
    if (heading->chosen && heading->side != SCW_SIDE_NONE)
      return twice(context, file, heading,
                   "fits both the label of before and that of after. Give "
                   "labels that differ");
    if (heading->kind != SCWI_HEAD_READING) {
      memset(heading->given, 0, sizeof heading->given);
      heading->given[SCW_ROLE_REPEAT] = number_behind(heading->name);
      heading->rest.length = 0;
    }
    heading->kind = SCWI_HEAD_READING;
    heading->side = side;
    heading->chosen = true;
    hits++;
  }
  return hits ? SCW_OK : no_such_column(context, start, file, name);
}

/* Header words of a dated log, the surest first: one column for each role. */
static const struct {
  const char *word;
  scw_role role;
} log_words[] = {
    {"date", SCW_ROLE_DATE},           {"day", SCW_ROLE_DATE},
    {"instrument", SCW_ROLE_INSTRUMENT}, {"meter", SCW_ROLE_INSTRUMENT},
    {"gauge", SCW_ROLE_INSTRUMENT},    {"standard", SCW_ROLE_STANDARD},
    {"check standard", SCW_ROLE_STANDARD}, {"tile", SCW_ROLE_STANDARD},
    {"event", SCW_ROLE_EVENT},         {"events", SCW_ROLE_EVENT},
    {"note", SCW_ROLE_EVENT},          {"notes", SCW_ROLE_EVENT},
    {"remark", SCW_ROLE_EVENT},        {"remarks", SCW_ROLE_EVENT},
    {"comment", SCW_ROLE_EVENT},       {"comments", SCW_ROLE_EVENT}};

/* A column headed by the name of a standard and nothing else may hold its
 * readings: only where another column is known to hold them is it a label. */
static bool may_be_label(const scwi_start *start, size_t at) {
  if (start->heading[at].kind != SCWI_HEAD_UNKNOWN) return true;
  for (size_t i = 0; i < start->n; i++)
    if (start->heading[i].kind == SCWI_HEAD_READING) return true;
  return false;
}

static void find_log_roles(scwi_start *start) {
  bool found[SCW_ROLE_COUNT] = {false};
  for (size_t w = 0; w < sizeof log_words / sizeof *log_words; w++) {
    scwi_span word = {log_words[w].word, strlen(log_words[w].word)};
    for (size_t i = 0; i < start->n && !found[log_words[w].role]; i++) {
      scwi_heading *heading = start->heading + i;
      if (!heading->text.length || !scwi_same_name(word, heading->name) ||
          heading->kind == SCWI_HEAD_READING || !may_be_label(start, i))
        continue;
      heading->kind = SCWI_HEAD_ROLE;
      heading->role = log_words[w].role;
      found[log_words[w].role] = true;
    }
  }
}

/* Header words of a bridge; `old 1`, `old_2`, `new` are told by their label. */
static const struct {
  const char *word;
  scw_role role;
} bridge_words[] = {{"item", SCW_ROLE_SET},
                    {"items", SCW_ROLE_SET},
                    {"method", SCW_ROLE_STATE},
                    {"kind", SCW_ROLE_KIND}};

static void find_bridge_roles(scwi_start *start) {
  for (size_t w = 0; w < sizeof bridge_words / sizeof *bridge_words; w++) {
    scwi_span word = {bridge_words[w].word, strlen(bridge_words[w].word)};
    for (size_t i = 0; i < start->n; i++) {
      scwi_heading *heading = start->heading + i;
      if (!heading->text.length || !scwi_same_name(word, heading->name))
        continue;
      heading->kind = SCWI_HEAD_ROLE;
      heading->role = bridge_words[w].role;
    }
  }
}

static bool any_heading(const scwi_start *start, const char *label) {
  scwi_span name = {label, strlen(label)};
  for (size_t i = 0; i < start->n; i++)
    if (start->heading[i].text.length &&
        scwi_heading_is(start->heading + i, name))
      return true;
  return false;
}

/* Columns of both methods, or a column that names the method. */
static scw_status check_bridge(scw_context *context, const scwi_start *start,
                               const scw_table_options *options,
                               const char *file) {
  char columns[600];
  if (!options->before_label || !options->after_label ||
      (any_heading(start, options->before_label) &&
       any_heading(start, options->after_label)))
    return SCW_OK;
  return scwi_fail_at(context, SCW_BAD_INPUT, file,
                      start->n ? start->heading[0].line : 0, 0,
                      "no columns of the old and of the new method: head them "
                      "old and new, add a column headed method, or say which "
                      "they are with --old and --new. The columns are: %s",
                      scwi_columns_text(start, columns, sizeof columns));
}

scw_status scwi_layout_options(scw_context *context,
                               const scw_table_options *options,
                               scwi_start *start, const char *file) {
  scw_status status = SCW_OK;
  if (options->log && !start->bare) find_log_roles(start);
  if (options->bridge && !start->bare) find_bridge_roles(start);
  for (int role = SCW_ROLE_COUNT - 1; role >= 0 && status == SCW_OK; role--)
    if (options->column[role])
      status = choose_role(context, start, file, options->column[role],
                           (scw_role)role);
  if (status != SCW_OK || has_state(start)) return status;
  if (options->bridge) {
    status = check_bridge(context, start, options, file);
    if (status != SCW_OK) return status;
  }
  if (options->before_label)
    status = choose_side(context, start, file, options->before_label,
                         SCW_SIDE_BEFORE);
  if (status == SCW_OK && options->after_label)
    status = choose_side(context, start, file, options->after_label,
                         SCW_SIDE_AFTER);
  if (status == SCW_OK && options->before_label && options->after_label)
    overrule(start, SCW_ROLE_READING);
  return status;
}
