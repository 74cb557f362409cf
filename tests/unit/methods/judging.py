# SPDX-License-Identifier: GPL-3.0-or-later
"""What the judges of filters share: questions to the program named on the
command line, one answer a line, and counting what disagrees."""

import subprocess
import sys

import numpy as np

bad = 0


def ask(questions):
    done = subprocess.run([sys.argv[1]], input="\n".join(questions) + "\n",
                          text=True, capture_output=True)
    if done.returncode:
        sys.exit(done.stderr)
    return [[float(x) for x in row.split()] for row in done.stdout.splitlines()]


def close(what, question, got, wanted, relative, absolute=0.0,
          missing_too=False):
    """Counts and prints a disagreement. missing_too: NaN on both sides, a
    figure that both leave out, is none."""
    global bad
    if abs(got - wanted) <= max(relative * abs(wanted), absolute):
        return
    if missing_too and np.isnan(got) and np.isnan(wanted):
        return
    bad += 1
    print(f"{what}: got {got!r}, wanted {wanted!r}\n   {question[:300]}")


def text(*parts):
    return " ".join(repr(float(p)) if isinstance(p, (float, np.floating))
                    else str(p) for p in parts)
