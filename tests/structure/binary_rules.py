# SPDX-License-Identifier: GPL-3.0-or-later
"""Rules on what was built: objects and the shared library, seen by nm."""

import subprocess

# What the library may not even import: ends the process, speaks, or changes
# the locale. Fortified forms such as __printf_chk count as their plain ones.
NOT_IMPORTED = {
    "abort", "exit", "_exit", "_Exit", "quick_exit", "raise", "kill",
    "__assert_fail", "assert", "system", "popen", "longjmp",
    "printf", "vprintf", "fprintf", "vfprintf", "dprintf", "puts", "fputs",
    "putchar", "putc", "fputc", "fwrite", "perror", "syslog",
    "stdout", "stderr", "stdin",
    "setlocale", "uselocale", "newlocale",
    "rand", "srand", "random", "srandom", "getenv", "secure_getenv", "setenv",
    "time", "clock_gettime", "gettimeofday",
    "gsl_set_error_handler", "gsl_rng_env_setup", "cJSON_InitHooks",
}
WRITABLE = (".data", ".bss", ".tdata", ".tbss", "*COM*")


def _nm(*arguments):
    return subprocess.run(["nm", *arguments], check=True, text=True,
                          stdout=subprocess.PIPE).stdout.splitlines()


def _plain(symbol):
    symbol = symbol.split("@")[0]
    if symbol.startswith("__") and symbol.endswith("_chk"):
        return symbol[2:-4]
    return symbol


def no_writable_globals(objects):
    """No object holds a variable that could change; tables of addresses that
    the loader fills in (.data.rel.ro) are constant."""
    seen = 0
    for line in _nm("-A", "--format=sysv", *objects) if objects else []:
        cells = [cell.strip() for cell in line.split("|")]
        if len(cells) != 7:
            continue
        seen += 1
        section = cells[6]
        if section.startswith(".data.rel.ro"):
            continue
        if section.startswith(WRITABLE):
            yield f"{cells[0]} is writable ({section})"
    if not seen:
        yield "no symbols seen: nothing was checked"


def exports(library):
    """The shared library exports scw_ names and nothing else."""
    names = [line.split()[-1] for line in _nm("-D", "--defined-only", library)]
    if not names:
        yield f"{library}: exports nothing"
    for name in names:
        if not name.startswith("scw_"):
            yield f"{library}: exports {name}"


def imports(library):
    """The shared library imports nothing that ends, speaks or sets."""
    names = [line.split()[-1]
             for line in _nm("-D", "--undefined-only", library)]
    if not names:
        yield f"{library}: imports nothing, which cannot be"
    for name in names:
        if _plain(name) in NOT_IMPORTED:
            yield f"{library}: imports {name}"


def prefixes(objects):
    """What objects share inside the library starts with scwi_ or scw_."""
    seen = 0
    for line in (_nm("-A", "--defined-only", "--extern-only", *objects)
                 if objects else []):
        seen += 1
        name = line.split()[-1]
        if not name.startswith(("scw_", "scwi_")):
            yield f"{line.split(':')[0]}: {name} lacks the prefix scwi_"
    if not seen:
        yield "no symbols seen: nothing was checked"
