/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "completion.h"

#include "command.h"
#include "demo_files.h"
#include "parse.h"
#include "print.h"

static void print_commands(scw_sink sink) {
  for (const cli_command *const *c = cli_commands; *c != NULL; c++) {
    cli_print(sink, "%s ", (*c)->name);
  }
}

/* One line of the case: the command's options. */
static void print_options(scw_sink sink, const cli_command *command) {
  const cli_option *option;
  size_t cursor = 0;
  cli_print(sink, "    %s) words='", command->name);
  while ((option = cli_next_option(command, &cursor)) != NULL) {
    cli_print(sink, "--%s ", option->name);
  }
  cli_print(sink, "' ;;\n");
}

static void print_demo_names(scw_sink sink) {
  for (size_t i = 0; i < cli_demo_file_count; i++) {
    cli_print(sink, "%s ", cli_demo_files[i].name);
  }
}

void cli_completion_bash(scw_sink sink) {
  cli_print(sink,
            "# bash completion for scatterwise\n"
            "_scatterwise() {\n"
            "  local word=\"${COMP_WORDS[COMP_CWORD]}\" words=''\n"
            "  local command=\"${COMP_WORDS[1]}\"\n"
            "  COMPREPLY=()\n"
            "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
            "    words='");
  print_commands(sink);
  cli_print(sink,
            "--help --version'\n"
            "    COMPREPLY=($(compgen -W \"$words\" -- \"$word\"))\n"
            "    return\n"
            "  fi\n"
            "  if [[ $word != -* ]]; then\n"
            "    case \"$command\" in\n"
            "    help|manual) words='");
  print_commands(sink);
  cli_print(sink, "' ;;\n    completion) words='bash' ;;\n    demo) words='");
  print_demo_names(sink);
  cli_print(sink,
            "' ;;\n    esac\n"
            "    COMPREPLY=($(compgen -W \"$words\" -- \"$word\"))\n"
            "    return # otherwise a file, by -o default\n"
            "  fi\n"
            "  case \"$command\" in\n");
  for (const cli_command *const *c = cli_commands; *c != NULL; c++) {
    print_options(sink, *c);
  }
  cli_print(sink,
            "  esac\n"
            "  COMPREPLY=($(compgen -W \"$words\" -- \"$word\"))\n"
            "}\n"
            "complete -o default -F _scatterwise scatterwise\n");
}
