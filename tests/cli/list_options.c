/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Prints the option tables themselves, one option a line: command, option and
 * argument word. What help, completion and manual show is compared to it. */
#include <stdio.h>

#include "command.h"
#include "parse.h"

int main(void) {
  for (const cli_command *const *c = cli_commands; *c != NULL; c++) {
    const cli_option *option;
    size_t cursor = 0;
    while ((option = cli_next_option(*c, &cursor)) != NULL) {
      printf("%s %s %s\n", (*c)->name, option->name,
             option->argument != NULL ? option->argument : "-");
    }
  }
  return 0;
}
