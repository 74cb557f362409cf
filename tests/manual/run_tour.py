# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs the examples of the documents and compares what they show.

    run_tour.py PROGRAM DOCUMENT...             compares
    run_tour.py --rewrite PROGRAM DOCUMENT...   puts the real output in

In every ```console block a line "$ command" is run by the shell, in one
folder per document, with PROGRAM found as `scatterwise`; the lines below it
are what it prints, standard output and error together. A status other than 0
shows as a last line "[exit status 1]". A line "$ ..." that the command before
it printed is output and no command.
"""

import difflib
import os
import pathlib
import re
import subprocess
import sys
import tempfile

BLOCK = re.compile(r"^```console\n(.*?)^```$", re.S | re.M)


def run(command, folder, program):
    # The folder of the program comes first: `scatterwise` is what was built.
    environment = {
        "PATH": f"{pathlib.Path(program).parent}:/usr/bin:/bin",
        "HOME": folder, "LC_ALL": "C.UTF-8", "TERM": "dumb",
    }
    if "LD_LIBRARY_PATH" in os.environ:
        environment["LD_LIBRARY_PATH"] = os.environ["LD_LIBRARY_PATH"]
    done = subprocess.run(["sh", "-c", command], cwd=folder, env=environment,
                          stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                          stderr=subprocess.STDOUT)
    text = done.stdout.decode("utf-8")
    if text and not text.endswith("\n"):
        text += "\n"
    if done.returncode:
        text += f"[exit status {done.returncode}]\n"
    return text


def replayed(text, program):
    """The document with every block as it really comes out, and how many
    commands were run."""
    commands = 0
    with tempfile.TemporaryDirectory() as folder:
        def replay(match):
            nonlocal commands
            out, printed = [], ""
            for line in match[1].splitlines():
                if line.startswith("$ ") and line not in printed.splitlines():
                    commands += 1
                    printed = run(line[2:], folder, program)
                    out.append(line + "\n" + printed)
            return "```console\n" + "".join(out) + "```"
        text = BLOCK.sub(replay, text)
    return text, commands


def main(arguments):
    rewrite = arguments[0] == "--rewrite"
    program, *documents = arguments[1:] if rewrite else arguments
    differing = total = 0
    for name in documents:
        path = pathlib.Path(name)
        shown = path.read_text(encoding="utf-8")
        real, commands = replayed(shown, program)
        total += commands
        if real == shown:
            continue
        if rewrite:
            path.write_text(real, encoding="utf-8")
            print(f"rewrote {path}")
            continue
        differing += 1
        sys.stdout.writelines(difflib.unified_diff(
            shown.splitlines(True), real.splitlines(True),
            f"{path} as shown", f"{path} as it runs", n=2))
    print(f"{total} commands in {len(documents)} documents")
    return 1 if differing or total == 0 else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
