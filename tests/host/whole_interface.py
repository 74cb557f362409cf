# SPDX-License-Identifier: GPL-3.0-or-later
"""Every function the shared library exports is called by the test host or its
jobs: whole_interface.py LIBRARY HOST-FOLDER."""

import pathlib
import re
import subprocess
import sys

library, folder = sys.argv[1:]
listing = subprocess.run(["nm", "-D", "--defined-only", library], check=True,
                         text=True, stdout=subprocess.PIPE).stdout
exported = {line.split()[-1] for line in listing.splitlines()}
called = set()
for source in pathlib.Path(folder).glob("*.c"):
    called |= set(re.findall(r"\b(scw_\w+)\s*\(", source.read_text()))
missing = sorted(exported - called)
if not exported:
    sys.exit("the library exports nothing")
if missing:
    sys.exit("not called by the test host: " + ", ".join(missing))
print(f"all {len(exported)} exported functions are called")
