#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs one notebook from clean in a folder of its own and checks its answer.

run_notebook.py NOTEBOOK PROGRAM SOURCE_FOLDER WORK_FOLDER

The committed notebook must hold no output, every code cell must run, and the
last one must print the answer.
"""
import json
import os
import shutil
import subprocess
import sys


def fail(words):
    sys.exit("run_notebook: " + words)


def check_clean(path):
    with open(path, encoding="utf-8") as file:
        cells = json.load(file)["cells"]
    for cell in cells:
        if cell.get("outputs") or cell.get("execution_count"):
            fail("%s holds output; clear it before committing" % path)
    if cells[0]["cell_type"] != "markdown" or "The question." not in "".join(
            cells[0]["source"]):
        fail("%s does not begin with its question" % path)


def answer(path):
    with open(path, encoding="utf-8") as file:
        last = json.load(file)["cells"][-1]
    return "".join("".join(o.get("text", "")) for o in last["outputs"])


def main():
    notebook, program, source, work = sys.argv[1:]
    check_clean(notebook)
    os.makedirs(work, exist_ok=True)
    copy = shutil.copy(notebook, work)
    environment = dict(os.environ, SCATTERWISE=program,
                       SCATTERWISE_SOURCE=source, MPLBACKEND="agg",
                       PYDEVD_DISABLE_FILE_VALIDATION="1",
                       IPYTHONDIR=os.path.join(work, "ipython"),
                       JUPYTER_DATA_DIR=os.path.join(work, "jupyter"))
    run = subprocess.run(
        [sys.executable, "-m", "nbconvert", "--to", "notebook", "--execute",
         "--inplace", copy], env=environment, capture_output=True, text=True)
    if run.returncode:
        fail(run.stderr)
    words = answer(copy)
    if len(words) < 80:
        fail("no answer at the end of %s: %r" % (notebook, words))
    print(words)


main()
