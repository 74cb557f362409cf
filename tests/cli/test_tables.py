#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test_tables.py PROGRAM LISTER: help, completion and manual page of every
command show exactly the options of its table; every option is used by a case;
every command that computes has an example with an answer."""

import json
import pathlib
import re
import shlex
import subprocess
import sys
from collections import defaultdict

HERE = pathlib.Path(__file__).parent
COMPLETE = """
source /dev/stdin
COMP_WORDS=(scatterwise "$0" "$1")
COMP_CWORD=2
_scatterwise
printf '%s\\n' "${COMPREPLY[@]}"
"""


def output(*words, **more):
    return subprocess.run(words, check=True, capture_output=True, text=True,
                          **more).stdout


def tables(lister):
    found = defaultdict(dict)
    for line in output(lister).splitlines():
        command, option, argument = line.split(" ", 2)
        found[command][option] = argument
    return found


def in_help(program, command):
    text = output(program, command, "--help")
    return {name: argument or "-" for name, argument in
            re.findall(r"^  --([\w-]+)(?: (\S+))?(?:  | *$)", text, re.M)}


def in_manual(program, command):
    text = output(program, "manual", command).replace("\\-", "-")
    return {name: argument or "-" for name, argument in
            re.findall(r"^\.TP\n\.B --([\w-]+)(?: (\S+))?$", text, re.M)}


def completed(program, *words):
    script = output(program, "completion", "bash")
    shown = output("bash", "--norc", "-c", COMPLETE, *words, input=script)
    return shown.split()


def in_tests():
    """Options that cases answer with, or that test_output.py, test_panel.py or
    test_drift.py uses."""
    used = defaultdict(set)
    for path in (HERE / "cases").glob("*/case.json"):
        loaded = json.loads(path.read_text("utf-8"))
        for case in loaded if isinstance(loaded, list) else [loaded]:
            words = shlex.split(case["command"])[1:]
            if words and case.get("exit", 0) == 0:
                used[words[0]] |= {word[2:].split("=")[0] for word in words
                                   if word.startswith("--")}
    for command in ("panel", "drift"):
        text = (HERE / f"test_{command}.py").read_text("utf-8")
        used[command] |= set(re.findall(r'"--([\w-]+)"', text))
    text = (HERE / "test_output.py").read_text("utf-8")
    for command, option in re.findall(r'"(\w+)", "--([\w-]+)"', text):
        used[command].add(option)
    return used


def compare(what, command, found, wanted):
    for option in wanted.keys() - found.keys():
        yield f"{what} of {command} lacks --{option}"
    for option in found.keys() - wanted.keys():
        yield f"{what} of {command} invents --{option}"
    for option in wanted.keys() & found.keys():
        if found[option] != wanted[option]:
            yield (f"{what} of {command} shows --{option} {found[option]}, "
                   f"the table {wanted[option]}")


def complaints(program, lister):
    used = in_tests()
    listed = tables(lister)
    if not listed:
        yield "the lister lists nothing"
    for command, wanted in listed.items():
        yield from compare("help", command, in_help(program, command), wanted)
        yield from compare("manual", command, in_manual(program, command),
                           wanted)
        shown = completed(program, command, "--")
        yield from compare("completion", command,
                           {word[2:]: wanted.get(word[2:], "-")
                            for word in shown}, wanted)
        for option in wanted.keys() - used[command]:
            yield f"no case of {command} answers with --{option}"
    names = completed(program, "help", "")
    if sorted(names) != sorted(listed):
        yield f"completion of help shows {names}"
    for command in ("readings", "panel", "change", "plan", "take", "budget"):
        text = output(program, command, "--help")
        if not re.search(r"^  \$ scatterwise .*\n  \S", text, re.M):
            yield f"help of {command} has no example with its answer"


def main():
    found = list(complaints(*sys.argv[1:3]))
    print("\n".join(found) if found else "tables, help, manual and completion "
          "agree")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
