#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test_together.py PROGRAM INTERPOSE: at a terminal, over a pipe, beside a file
that grows, beside others who want the same file, and with the commands that
read it afterwards."""

import json
import os
import pty
import re
import select
import signal
import subprocess
import time

from bench import ENV, PROGRAM, Bench, answer, begin, main, take

BASELINE = (b"spot,gloss (GU)\n1,83.3\n2,84.9\n3,84.7\n4,83.0\n5,82.6\n6,83.5\n")


class Terminal:
    """A tester at a terminal."""

    def __init__(self, *words):
        self.ours, theirs = pty.openpty()
        self.process = subprocess.Popen(
            [PROGRAM, "take", *words], stdin=theirs, stdout=theirs,
            stderr=theirs, env=ENV, start_new_session=True,
            preexec_fn=lambda: __import__("fcntl").ioctl(0, 0x540E, 0))
        os.close(theirs)
        self.seen = ""

    def wait_for(self, text):
        """What is shown up to and with the text."""
        end = time.monotonic() + 20
        while text not in self.seen:
            ready, _, _ = select.select([self.ours], [], [],
                                        end - time.monotonic())
            if not ready:
                raise AssertionError(f"no {text!r} in {self.seen!r}")
            try:
                more = os.read(self.ours, 65536)
            except OSError:
                more = b""
            if not more:
                raise AssertionError(f"it ended without {text!r}: {self.seen!r}")
            self.seen += more.decode().replace("\r\n", "\n")
        at = self.seen.index(text) + len(text)
        shown, self.seen = self.seen[:at], self.seen[at:]
        return shown

    def type(self, text):
        os.write(self.ours, text.encode())

    def close(self):
        status = self.process.wait(20)
        os.close(self.ours)
        return status


class AtATerminal(Bench):
    def test_prompts_spot_by_spot(self):
        before = self.write("before.csv", BASELINE)
        tester = Terminal("--keep", self.kept, "--baseline", before,
                          "--anytime")
        tester.wait_for("spot 1> ")
        tester.type("85.2\n")
        self.assertIn("changed by +1.9", tester.wait_for("spot 2> "))
        self.assertIn(b"1,1,85.2", self.read())  # before the next prompt
        tester.type("undo the lamp was off\n")
        self.assertIn("reading 1 taken back", tester.wait_for("spot 1> "))
        tester.type("help\n")
        self.assertIn("a decimal comma will", tester.wait_for("spot 1> "))
        tester.type("85,3\n")
        tester.wait_for("spot 2> ")
        tester.type("rubbish\n")
        self.assertIn("Not taken: ", tester.wait_for("spot 2> "))
        tester.type("2 86.2\n")
        tester.wait_for("spot 3> ")
        tester.type("stop\n")
        shown = tester.wait_for("Kept in ")
        self.assertIn("2 readings count, 1 taken back.", shown)
        self.assertEqual(tester.close(), 0)

    def test_interrupt_ends_well(self):
        for key in ("\x03", "\x04"):  # interrupt, end of input
            tester = Terminal("--keep", self.kept, "--unit", "GU")
            tester.wait_for("> ")
            for reading in ("87.4\n", "87.9\n"):
                tester.type(reading)
                tester.wait_for("\n> ")
            tester.type(key)
            self.assertIn("2 readings count.", tester.wait_for("Kept in "))
            self.assertEqual(tester.close(), 0)
            os.remove(self.kept)


class OverAPipe(Bench):
    def line(self, process):
        return json.loads(process.stdout.readline())

    def test_one_object_a_line_as_they_come(self):
        with begin("--keep", self.kept, "--json", "--readings", "3") as process:
            for i, reading in enumerate(("87.4", "87.9", "87.1"), 1):
                process.stdin.write(reading.encode() + b"\n")
                process.stdin.flush()
                shown = self.line(process)  # without waiting for more input
                self.assertEqual((shown["order"], shown["reading"]),
                                 (i, reading))
                self.assertEqual(shown["stop"], i == 3)
            process.send_signal(signal.SIGTERM)
            self.assertEqual(self.line(process)["event"], "end")
            self.assertEqual(process.wait(20), 0)

    def test_closed_pipe(self):
        """Nobody listens any more: the reading that was typed is kept."""
        with begin("--keep", self.kept) as process:
            process.stdout.close()
            process.stdin.write(b"87.4\n")
            process.stdin.flush()
            self.assertEqual(process.wait(20), 4)
            self.assertIn(b"output could not be written", process.stderr.read())
        self.assertIn(b"1,87.4", self.read())

    def test_full_disk_for_the_output(self):
        with open("/dev/full", "wb") as full:
            done = subprocess.run(
                [PROGRAM, "take", "--keep", self.kept], input=b"87.4\n88.0\n",
                stdout=full, stderr=subprocess.PIPE, env=ENV, timeout=60)
        self.assertEqual(done.returncode, 4)
        self.assertIn(b"1,87.4", self.read())

    def test_cut_off_input_is_no_reading(self):
        done = take("--keep", self.kept, typed=b"87.4\n87.9\n87")
        self.assertIn(b"no line end", done.stdout)
        self.assertNotIn(b"3,87", self.read())
        done = take(typed=b"8" * 5000 + b"\n87.4\n" + b"8" * 3000)
        self.assertEqual(done.stdout.count(b"longer than a reading can be"), 2)
        self.assertIn(b"1 reading counts.", done.stdout)

    def test_new_file_without_readings_is_taken_away(self):
        self.assertEqual(take("--keep", self.kept, typed=b"").returncode, 1)
        self.assertFalse(os.path.exists(self.kept))


class WithOthers(Bench):
    def test_one_writer(self):
        with begin("--keep", self.kept, "--json") as first:
            first.stdin.write(b"87.4\n")
            first.stdin.flush()
            first.stdout.readline()
            done = take("--keep", self.kept, "--resume", typed=b"1\n")
            self.assertEqual(done.returncode, 3)
            self.assertIn(b"being written by another run", done.stderr)
            first.stdin.write(b"87.9\n")
            first.stdin.close()
            self.assertEqual(first.wait(20), 0)
        self.assertEqual(self.read().count(b"\n"), 3)

    def meddled(self, act):
        with begin("--keep", self.kept, "--json") as process:
            process.stdin.write(b"87.4\n")
            process.stdin.flush()
            process.stdout.readline()
            act()
            process.stdin.write(b"87.9\n")
            process.stdin.close()
            self.assertEqual(process.wait(20), 4)
            return process.stderr.read()

    def test_removed_meanwhile(self):
        said = self.meddled(lambda: os.remove(self.kept))
        self.assertIn(b"reading 2 (87.9) was NOT kept", said)
        self.assertIn(b"removed or replaced", said)

    def test_written_meanwhile(self):
        def act():
            with open(self.kept, "ab") as file:
                file.write(b"# mine\n")
        self.assertIn(b"another program has written to it", self.meddled(act))
        self.assertTrue(self.read().endswith(b"# mine\n"))


class Growing(Bench):
    def shown(self, process, n):
        return [json.loads(process.stdout.readline()) for _ in range(n)]

    def append(self, text):
        with open(self.path("meter.txt"), "ab") as file:
            file.write(text)

    def test_followed_and_gone_on_with(self):
        self.append(b"87.4\n\nunit GU line\n87.9\n87.")
        words = ["--keep", self.kept, "--follow", self.path("meter.txt"),
                 "--json"]
        with begin(*words) as process:
            first = self.shown(process, 3)
            self.assertEqual([item["event"] for item in first],
                             ["reading", "refused", "reading"])
            self.append(b"1\n")  # the line is whole now
            self.assertEqual(self.shown(process, 1)[0]["reading"], "87.1")
            process.stdin.write(b"undo tilted\n")
            process.stdin.flush()
            self.assertEqual(self.shown(process, 1)[0]["event"], "undo")
            self.append(b"note this is no reading\n")
            self.assertEqual(self.shown(process, 1)[0]["event"], "refused")
            process.send_signal(signal.SIGKILL)
            process.wait(20)
        self.append(b"87.6\n")
        with begin(*words, "--resume") as process:
            resumed, refused, last = self.shown(process, 3)
            self.assertEqual(resumed["event"], "resumed")
            self.assertEqual(refused["event"], "refused")
            self.assertEqual((last["order"], last["reading"]), (4, "87.6"))
            process.stdin.write(b"stop\n")
            process.stdin.close()
            self.assertEqual(process.wait(20), 0)
        self.assertIn(b"1,87.4,,,line 1 of meter.txt\n", self.read())
        self.assertEqual(len(re.findall(rb"^\d+,", self.read(), re.M)), 4)

    def test_shrunk(self):
        self.append(b"87.4\n87.9\n")
        with begin("--follow", self.path("meter.txt"), "--json") as process:
            self.shown(process, 2)
            self.write("meter.txt", b"1\n")
            self.assertEqual(process.wait(20), 3)
            self.assertIn(b"has become shorter", process.stderr.read())


class Afterwards(Bench):
    """What was shown live is what the other commands say of the file."""

    def test_readings(self):
        done = take("--keep", self.kept, "--unit", "GU", "--json", "--brief",
                    typed=b"87.4\n99.9\nundo dropped\n87.9\n87.1*\n"
                    b"again 87.3 dust\n87.6\n")
        live = json.loads(done.stdout)
        found = answer("readings", self.kept)["results"]["sets"][0]
        for key in ("n", "mean", "sd", "interval"):
            self.assertEqual(live[key], found[key], key)
        self.assertEqual(found["unit"], "GU")

    def test_change(self):
        before = self.write("before.csv", BASELINE)
        done = take("--keep", self.kept, "--baseline", before, "--json",
                    "--brief", "--margin", "0.5", "--readings", "5",
                    typed=b"2 86.2\n85.2\n3 86.9\n4 84.6\nundo 3 wrong spot\n"
                    b"3 86.3\n6 85.8\n3 86.2\n9 80.0\n")
        live = json.loads(done.stdout)
        change = answer("change", before, self.kept, "--margin",
                        "0.5")["results"]["changes"][0]
        self.assertEqual(change["design"], "paired")
        self.assertEqual(live["n"], change["pairs"])
        self.assertAlmostEqual(live["mean"], change["change"]["estimate"],
                               delta=1e-14)
        for end in ("low", "high"):
            self.assertAlmostEqual(live["interval"][end],
                                   change["change"][end],
                                   delta=1e-12)
        self.assertEqual(live["verdict"], change["verdict"])

    def test_unpaired(self):
        before = self.write("before.csv", BASELINE)
        done = take("--keep", self.kept, "--baseline", before, "--unpaired",
                    "--json", "--brief", typed=b"86.2\n85.2\n86.3\n84.6\n")
        live = json.loads(done.stdout)
        change = answer("change", before, self.kept)["results"]["changes"][0]
        self.assertEqual(change["design"], "unpaired")
        for end in ("low", "high"):
            self.assertAlmostEqual(live["interval"][end],
                                   change["change"][end],
                                   delta=1e-12)


if __name__ == "__main__":
    main()
