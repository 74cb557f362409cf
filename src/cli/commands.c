/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "commands.h"

#include <string.h>

const cli_command *const cli_commands[] = {
    &cli_readings, &cli_panel, &cli_change, &cli_plan,       &cli_take,
    &cli_budget, &cli_drift, &cli_bridge,
    &cli_compare, &cli_score, &cli_audit, &cli_demo,
    &cli_help,     &cli_manual, &cli_completion, NULL};

const cli_command *cli_find_command(const char *name) {
  for (const cli_command *const *command = cli_commands; *command != NULL;
       command++) {
    if (strcmp((*command)->name, name) == 0) {
      return *command;
    }
  }
  return NULL;
}
