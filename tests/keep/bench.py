# SPDX-License-Identifier: GPL-3.0-or-later
"""What the tests of keeping share."""

import json
import os
import pathlib
import subprocess
import sys
import tempfile
import unittest

PROGRAM, INTERPOSE = sys.argv[1:3]
ENV = {"PATH": os.defpath, "LC_ALL": "C.UTF-8", "TERM": "dumb"}


def take(*words, typed=b"", env=None, **more):
    """One whole run with these lines typed."""
    return subprocess.run([PROGRAM, "take", *words], input=typed,
                          capture_output=True, timeout=60,
                          env={**ENV, **(env or {})}, **more)


def begin(*words, env=None, **more):
    """A run that is still going on."""
    return subprocess.Popen([PROGRAM, "take", *words], stdin=subprocess.PIPE,
                            stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                            env={**ENV, **(env or {})}, **more)


def answer(command, *words):
    """Another command's JSON."""
    done = subprocess.run([PROGRAM, command, *words, "--json"],
                          capture_output=True, timeout=60, env=ENV)
    if done.returncode not in (0, 1):
        raise AssertionError(done.stderr)
    return json.loads(done.stdout)


class Bench(unittest.TestCase):
    """A folder of its own for each test."""

    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)
        self.kept = self.path("kept.csv")

    def path(self, name):
        return os.path.join(self.folder.name, name)

    def read(self, name="kept.csv"):
        return pathlib.Path(self.path(name)).read_bytes()

    def write(self, name, data):
        pathlib.Path(self.path(name)).write_bytes(data)
        return self.path(name)


def main():
    unittest.main(argv=sys.argv[:1])
