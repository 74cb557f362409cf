# SPDX-License-Identifier: GPL-3.0-or-later
"""The same bytes whatever the locale: same_bytes.py PROGRAM PRELOAD LOCPATH
LOCALE runs PROGRAM in the C locale and again as a host with a decimal comma."""

import os
import subprocess
import sys

program, preload, locpath, locale = sys.argv[1:]


def run(**more):
    return subprocess.run([program], check=True, stdout=subprocess.PIPE,
                          env={**os.environ, **more}).stdout


plain = run(LC_ALL="C")
comma = run(LC_ALL=locale, LOCPATH=locpath, LD_PRELOAD=preload)
if len(plain) < 1000:
    sys.exit(f"only {len(plain)} bytes came out: too few to compare")
if plain != comma:
    for before, after in zip(plain.splitlines(), comma.splitlines()):
        if before != after:
            sys.exit(f"differs:\n  {before!r}\n  {after!r}")
    sys.exit("one output is longer than the other")
print(f"{len(plain)} equal bytes")
