#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test_output.py PROGRAM: output that cannot be written, and how it looks
where it can: full disk, closed pipe, closed stream, terminal, NO_COLOR,
--plain."""

import json
import os
import pathlib
import pty
import subprocess
import sys
import tempfile
import unittest

PROGRAM = sys.argv[1]
DEMO = pathlib.Path(__file__).parents[2] / "src" / "cli" / "demo"
JOBS = [
    ["readings", "panel-a.csv"],
    ["readings", "panel-a.csv", "--json"],
    ["readings", "panel-a.csv", "--csv"],
    ["readings", "panel-a.csv", "--brief"],
    ["change", "gloss-k1.csv"],
    ["change", "gloss-k1.csv", "--json"],
    ["plan", "--detect", "0.5", "--sd", "0.4"],
    ["demo"],
    ["demo", "pulls.csv"],
    ["--help"],
    ["change", "--help"],
    ["take", "--help"],
    ["take", "--version"],
    ["take", "bench-k1.txt", "--baseline", "gloss-k1.csv"],
    ["--version"],
    ["manual"],
    ["completion", "bash"],
]
PLAIN = {"PATH": os.defpath, "TERM": "xterm", "LC_ALL": "C.UTF-8"}


def run(words, env=PLAIN, **more):
    return subprocess.run([PROGRAM, *words], cwd=DEMO, env=env, timeout=60,
                          stderr=subprocess.PIPE, **more)


def on_terminal(words, env):
    """What the program writes when its output is a terminal."""
    ours, theirs = pty.openpty()
    with subprocess.Popen([PROGRAM, *words], cwd=DEMO, env=env,
                          stdout=theirs) as process:
        os.close(theirs)
        parts = []
        while True:
            try:
                part = os.read(ours, 65536)
            except OSError:  # the other end was closed
                break
            if not part:
                break
            parts.append(part)
        process.wait(60)
    os.close(ours)
    return b"".join(parts)


class Unwritten(unittest.TestCase):
    def refused(self, words, **more):
        done = run(words, **more)
        self.assertEqual(done.returncode, 4, words)
        self.assertIn(b"scatterwise: the output could not be written: ",
                      done.stderr)

    def test_full_disk(self):
        with open("/dev/full", "wb") as full:
            for words in JOBS:
                self.refused(words, stdout=full)

    def test_closed_pipe(self):
        for words in JOBS:
            reading, writing = os.pipe()
            os.close(reading)
            with os.fdopen(writing, "wb") as pipe:
                self.refused(words, stdout=pipe)

    def test_closed_stream(self):
        for words in JOBS:
            self.refused(words, preexec_fn=lambda: os.close(1))

    def test_usage_stays_usage(self):
        with open("/dev/full", "wb") as full:
            self.assertEqual(run(["readings"], stdout=full).returncode, 2)
            self.assertEqual(run(["readings", "no.csv"],
                                 stdout=full).returncode, 3)


class Looks(unittest.TestCase):
    def text(self, words, **env):
        done = run(words, env={**PLAIN, **env}, stdout=subprocess.PIPE)
        self.assertEqual(done.returncode, 0, done.stderr)
        return done.stdout

    def test_colour_only_on_a_terminal(self):
        words = ["change", "gloss-k1.csv"]
        self.assertIn(b"\x1b[", on_terminal(words, PLAIN))
        self.assertNotIn(b"\x1b[", self.text(words))
        for env in ({"NO_COLOR": "1"}, {"TERM": "dumb"}):
            self.assertNotIn(b"\x1b[", on_terminal(words, {**PLAIN, **env}))
        for option in ("--plain", "--json", "--csv"):
            self.assertNotIn(b"\x1b[", on_terminal([*words, option], PLAIN))

    def test_ascii(self):
        words = ["readings", "panel-a.csv"]
        self.assertFalse(self.text(words).isascii())
        self.assertTrue(self.text([*words, "--plain"]).isascii())
        self.assertTrue(self.text(words, LC_ALL="C").isascii())
        self.assertTrue(self.text(["demo", "--plain"]).isascii())
        self.assertFalse(self.text(words, LC_ALL="", LANG="C.utf8").isascii())

    def test_width(self):
        for words in JOBS:
            if words[0] not in ("manual", "completion") and \
                    words[-1] not in ("--json", "--csv"):
                for line in self.text([*words]).decode().splitlines():
                    self.assertLessEqual(len(line), 80, (words, line))

    def test_same_bytes(self):
        for words in JOBS:
            self.assertEqual(self.text(words), self.text(words))

    def test_threads(self):
        words = ["readings", "panel-a.csv", "--json"]
        one = self.text([*words, "--threads", "1"])
        self.assertEqual(one, self.text([*words, "--threads", "7"]))


class Keeping(unittest.TestCase):
    def test_kept_and_gone_on_with(self):
        with tempfile.TemporaryDirectory() as folder:
            kept = os.path.join(folder, "kept.csv")
            for words, typed in ((["take", "--keep", kept], b"87.4\n87.9\n"),
                                 (["take", "--resume", "--keep", kept],
                                  b"87.1\n")):
                done = run(words, input=typed, stdout=subprocess.PIPE)
                self.assertEqual(done.returncode, 0, done.stderr)
            self.assertIn(b"3 readings count.", done.stdout)
            again = run(["take", "--keep", kept], input=b"1\n",
                        stdout=subprocess.PIPE)
            self.assertEqual(again.returncode, 2)
            self.assertIn(b"--resume", again.stderr)
            with open(kept, encoding="utf-8") as file:
                self.assertEqual(file.read(),
                                 "order,reading,replaces,takes back,note\n"
                                 "1,87.4,,,\n2,87.9,,,\n3,87.1,,,\n")


class Standard(unittest.TestCase):
    def test_standard_input(self):
        named = run(["change", "gloss-k1.csv", "--csv"],
                    stdout=subprocess.PIPE)
        with open(DEMO / "gloss-k1.csv", "rb") as file:
            piped = run(["change", "-", "--csv"], stdin=file,
                        stdout=subprocess.PIPE)
        self.assertEqual(piped.returncode, 0, piped.stderr)
        self.assertEqual(piped.stdout, named.stdout)

    def test_closed_standard_input(self):
        done = run(["readings", "-"], stdout=subprocess.PIPE,
                   preexec_fn=lambda: os.close(0))
        self.assertEqual((done.returncode, done.stdout), (3, b""))
        self.assertIn(b"standard input", done.stderr)


class Brief(unittest.TestCase):
    def sets(self, *words):
        done = run(["readings", *words, "--json"], stdout=subprocess.PIPE)
        self.assertEqual(done.returncode, 0, done.stderr)
        return json.loads(done.stdout)["results"]["sets"]

    def test_same_digits(self):
        """Running sums give the digits that the readings themselves give."""
        for name in ("panel-a.csv", "gloss-k1.csv", "products.csv"):
            full = self.sets(name)
            brief = self.sets(name, "--brief")
            self.assertEqual(len(brief), len(full))
            for one, other in zip(brief, full):
                for key in ("label", "n", "mean", "sd", "interval"):
                    self.assertEqual(one[key], other[key], (name, key))


class DemoFiles(unittest.TestCase):
    def test_write(self):
        with tempfile.TemporaryDirectory() as folder:
            target = pathlib.Path(folder) / "shed"
            done = run(["demo", "--write", str(target)],
                       stdout=subprocess.PIPE)
            self.assertEqual(done.returncode, 0, done.stderr)
            names = {path.name for path in DEMO.iterdir()}
            self.assertEqual({path.name for path in target.iterdir()}, names)
            for name in names:
                self.assertEqual((target / name).read_bytes(),
                                 (DEMO / name).read_bytes())
                self.assertIn(f"wrote {target}/{name}", done.stdout.decode())

    def test_never_overwrites(self):
        with tempfile.TemporaryDirectory() as folder:
            mine = pathlib.Path(folder) / "pulls.csv"
            mine.write_text("mine")
            done = run(["demo", "--write", folder], stdout=subprocess.PIPE)
            self.assertEqual((done.returncode, done.stdout), (4, b""))
            self.assertIn(b"pulls.csv", done.stderr)
            self.assertEqual(os.listdir(folder), ["pulls.csv"])
            self.assertEqual(mine.read_text(), "mine")

    def test_no_place(self):
        done = run(["demo", "--write", "/dev/null/shed"],
                   stdout=subprocess.PIPE)
        self.assertEqual((done.returncode, done.stdout), (4, b""))

    def test_show(self):
        done = run(["demo", "pulls.csv"], stdout=subprocess.PIPE)
        self.assertEqual(done.stdout, (DEMO / "pulls.csv").read_bytes())

    def test_tour_runs_what_it_shows(self):
        """Each command of the tour, run on the written files, gives the text
        the tour shows below it."""
        tour = run(["demo"], stdout=subprocess.PIPE).stdout.decode()
        lines = [line for line in tour.splitlines()
                 if line.startswith("$ scatterwise ")]
        self.assertGreaterEqual(len(lines), 5)
        for line in lines:
            alone = run(line.split()[2:], stdout=subprocess.PIPE)
            self.assertEqual(alone.returncode, 0, line)
            self.assertIn(f"{line}\n\n{alone.stdout.decode()}", tour)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
