# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs the program once and says what differs from what was expected.

A case is a JSON object:
  command    the command line, as a tester would type it
  exit       the exit status (0)
  stdin      a file of the case's folder that is piped in
  env        environment variables to set
  stdout     texts that must occur in the output, in this order
  stderr     texts that must occur in the messages, in this order
  absent     texts that must occur in neither
  expect     {path: value} in the JSON output; numbers are compared as numbers
  tolerance  relative tolerance of those numbers (1e-9)
  judge      where the expected numbers come from
"""

import json
import math
import os
import re
import shlex
import subprocess

KEYS = {"command", "exit", "stdin", "env", "stdout", "stderr", "absent",
        "expect", "tolerance", "judge"}
STEP = re.compile(r"([^.\[\]]+)|\[(\d+)\]")


def at(tree, path):
    """The value at a path such as results.sets[0].mean."""
    for key, index in STEP.findall(path):
        tree = tree[key] if key else tree[int(index)]
    return tree


def is_number(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def same(found, wanted, tolerance):
    if is_number(wanted) and is_number(found):
        return math.isclose(found, wanted, rel_tol=tolerance,
                            abs_tol=tolerance * 1e-3)
    return found == wanted and type(found) is type(wanted)


def differences(output, expect, tolerance):
    try:
        tree = json.loads(output)
    except ValueError as error:
        yield f"the output is not JSON: {error}"
        return
    for path, wanted in expect.items():
        try:
            found = at(tree, path)
        except (KeyError, IndexError, TypeError):
            yield f"{path} is not there, expected {wanted!r}"
            continue
        if not same(found, wanted, tolerance):
            yield f"{path} is {found!r}, expected {wanted!r}"


def missing_texts(where, text, wanted):
    start = 0
    for fragment in wanted:
        place = text.find(fragment, start)
        if place < 0:
            yield f"{where} lacks {fragment!r}; it is:\n{text}"
            return
        start = place + len(fragment)


def environment(case):
    kept = {key: value for key, value in os.environ.items()
            if not key.startswith("LC_")
            and key not in ("LANG", "NO_COLOR", "POSIXLY_CORRECT")}
    return {**kept, "LC_ALL": "C.UTF-8", **case.get("env", {})}


def run(program, case, folder):
    words = shlex.split(case["command"])
    assert words[0] == "scatterwise", case["command"]
    stdin = open(folder / case["stdin"], "rb") if "stdin" in case else None
    done = subprocess.run([program, *words[1:]], cwd=folder,
                          stdin=stdin or subprocess.DEVNULL,
                          env=environment(case), capture_output=True,
                          timeout=60)
    if stdin:
        stdin.close()
    return (done.returncode, done.stdout.decode("utf-8"),
            done.stderr.decode("utf-8"))


def complaints(program, case, folder):
    """Yields one line for each thing that is not as the case says."""
    for key in case.keys() - KEYS:
        yield f"the case has an unknown key {key!r}"
    wanted = case.get("exit", 0)
    code, stdout, stderr = run(program, case, folder)
    if code != wanted:
        yield f"exit status {code}, expected {wanted}; messages:\n{stderr}"
        return
    if wanted in (2, 3):
        if stdout:
            yield f"output in spite of exit status {wanted}: {stdout[:200]!r}"
        if not stderr.startswith("scatterwise: "):
            yield f"no message: {stderr!r}"
        if not case.get("stderr"):
            yield "the case expects a failure but no message"
    elif wanted == 0 and stderr:
        yield f"unexpected message: {stderr}"
    for line in stderr.splitlines():
        if not line.startswith(("scatterwise: ", "Try: scatterwise ")):
            yield f"this is no message of the program: {line!r}"
    yield from missing_texts("the output", stdout, case.get("stdout", []))
    yield from missing_texts("the message", stderr, case.get("stderr", []))
    for fragment in case.get("absent", []):
        if fragment in stdout + stderr:
            yield f"{fragment!r} occurs"
    if "expect" in case:
        yield from differences(stdout, case["expect"],
                               case.get("tolerance", 1e-9))
