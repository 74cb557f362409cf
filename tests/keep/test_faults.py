#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test_faults.py PROGRAM INTERPOSE: every reading is written and made safe
before it is shown, and a disk that fails is said, naming what was not kept."""

import os

from bench import INTERPOSE, Bench, main, take

HEAD = b"order,reading,replaces,takes back,note\n"


class Faults(Bench):
    def logged(self, *words, typed, fault=None, **more):
        log = self.path("log")
        env = {"LD_PRELOAD": INTERPOSE, "KEEP_LOG": log}
        if fault:
            env["KEEP_FAULT"] = fault
        done = take("--keep", self.kept, *words, typed=typed, env=env, **more)
        with open(log, encoding="utf-8") as file:
            return done, file.read().splitlines()

    def test_written_then_safe_then_shown(self):
        typed = b"87.4\n88.0\nundo slipped\nnote lamp\nmark dust\n87.9\n"
        done, log = self.logged(typed=typed)
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertEqual(log[:2], ["safe file", "safe folder"])
        acts = [line.split()[0] for line in log[2:]]
        blocks = "".join({"write": "w", "safe": "s", "show": "."}[act]
                         for act in acts)
        # Six things were taken: each is one write, one sync, and only then
        # anything is shown.
        self.assertRegex(blocks, r"^\.?(ws\.+){6}$")
        self.assertEqual(log.count("safe file"), 7)
        self.assertEqual(log.count("safe folder"), 1)

    def test_resumed_file_is_not_new(self):
        take("--keep", self.kept, typed=b"87.4\n")
        done, log = self.logged("--resume", typed=b"87.9\n")
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertNotIn("safe folder", log)
        self.assertLess(log.index("safe file"),
                        next(i for i, line in enumerate(log) if "87.9" in line))

    def test_set_aside_is_made_safe_first(self):
        take("--keep", self.kept, typed=b"87.4\n87.5\n")
        self.write("kept.csv", self.read()[:-3])
        done, log = self.logged("--resume", typed=b"87.9\n")
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertEqual([line.split()[0] for line in log[:3]],
                         ["write", "safe", "show"])

    def not_kept(self, fault, typed=b"87.4\n88.0\n87.9\n", kept=2, **more):
        done, log = self.logged(typed=typed, fault=fault, **more)
        self.assertEqual(done.returncode, 4, (fault, done.stderr))
        lines = [HEAD, b"1,87.4,,,\n", b"2,88.0,,,\n", b"3,87.9,,,\n"]
        self.assertEqual(self.read(), b"".join(lines[:kept + 1]))
        self.assertNotIn(b"3   87.9", done.stdout)
        self.assertIn(b"%d reading" % kept, done.stdout)
        return done

    def test_full_disk(self):
        done = self.not_kept("pwrite:3:ENOSPC")
        self.assertIn(b"reading 3 (87.9) was NOT kept in " + self.kept.encode() +
                      b": No space left on device", done.stderr)

    def test_short_write(self):
        done = self.not_kept("pwrite:3:short")
        self.assertIn(b"reading 3 (87.9) was NOT kept", done.stderr)

    def test_disk_error(self):
        done = self.not_kept("pwrite:3:EIO")
        self.assertIn(b"Input/output error", done.stderr)

    def test_not_made_safe(self):
        done = self.not_kept("fsync:4:EIO")  # the first is of the new file
        self.assertIn(b"reading 3 (87.9) was NOT kept", done.stderr)

    def test_interrupted_write_goes_on(self):
        done, _ = self.logged(typed=b"87.4\n88.0\n", fault="pwrite:2:EINTR")
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertEqual(self.read(), HEAD + b"1,87.4,,,\n2,88.0,,,\n")

    def test_other_things_are_named_as_well(self):
        for typed, name in ((b"undo slipped\n", b"taking back reading 2"),
                            (b"mark dust\n", b"the mark of reading 2 (88.0*)"),
                            (b"note lamp\n", b"the note")):
            done, _ = self.logged(typed=b"87.4\n88.0\n" + typed,
                                  fault="pwrite:3:ENOSPC")
            self.assertEqual(done.returncode, 4)
            self.assertIn(name + b" was NOT kept", done.stderr)
            self.assertEqual(self.read(), HEAD + b"1,87.4,,,\n2,88.0,,,\n")
            os.remove(self.kept)

    def test_half_a_line_that_cannot_be_taken_away(self):
        """The next run finds a line that was cut off, and says so."""
        log = self.path("log")
        env = {"LD_PRELOAD": INTERPOSE, "KEEP_LOG": log,
               "KEEP_FAULT": "pwrite:2:short"}
        done = take("--keep", self.kept, typed=b"87.4\n88.0\n", env=env)
        self.assertEqual(done.returncode, 4)
        self.write("kept.csv", HEAD + b"1,87.4,,,\n2,88")
        done = take("--keep", self.kept, "--resume", typed=b"88.0\n")
        self.assertIn(b"had been cut off", done.stdout)
        self.assertEqual(self.read(), HEAD + b"1,87.4,,,\n# cut off: 2,88\n"
                         b"2,88.0,,,\n")

    def test_new_file_not_made_safe(self):
        for fault in ("fsync:1:EIO", "folder:1:EIO"):
            done, _ = self.logged(typed=b"87.4\n", fault=fault)
            self.assertEqual(done.returncode, 4, done.stderr)
            self.assertIn(b"cannot be made safe on the disk", done.stderr)
            self.assertEqual(done.stdout, b"")
            self.assertFalse(os.path.exists(self.kept))

    def test_folder_that_knows_no_sync(self):
        done, _ = self.logged(typed=b"87.4\n88.0\n", fault="folder:1:EINVAL")
        self.assertEqual(done.returncode, 0, done.stderr)


if __name__ == "__main__":
    main()
