#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test_cut.py PROGRAM INTERPOSE: the file cut off at every byte is gone on
with, and no whole line is lost; other files are refused untouched."""

from bench import Bench, answer, main, take

SPOTS = (b"order,spot,x (mm),y (mm),reading\n1,A,10,20,\n2,B 2,30.5,20,\n3,C,50,20,\n"
         b"4,D,70,20,\n")
TYPED = ("82.4\n81,9*\nundo slipped, \"off\"\n81.8\nnote lamp 5, \"on\" äö\n"
         "mark dull\nagain 82.0 wiped\n83.0\n").encode()


class Cut(Bench):
    def setUp(self):
        super().setUp()
        self.words = ["--spots", self.write("spots.csv", SPOTS), "--unit", "GU",
                      "--meter", "M1"]
        done = take("--keep", self.kept, *self.words, typed=TYPED)
        self.assertEqual(done.returncode, 0, done.stderr)
        self.whole = self.read()

    def resumed(self, data, *more):
        self.write("kept.csv", data)
        return take("--keep", self.kept, "--resume", *self.words, *more,
                    typed=b"D 84.5\n")

    def test_every_byte(self):
        used = 0
        for size in range(len(self.whole) + 1):
            cut = self.whole[:size]
            lines = cut[:cut.rfind(b"\n") + 1]
            rest = cut[len(lines):]
            done = self.resumed(cut)
            self.assertIn(done.returncode, (0, 1), (cut, done.stderr))
            self.assertEqual(b"had been cut off" in done.stdout, bool(rest))
            after = self.read()
            self.assertEqual(after[:len(lines)], lines)
            added = after[len(lines):].splitlines()
            if rest:
                shown = bytes(c if 32 <= c < 127 else 63 for c in rest)
                self.assertEqual(added.pop(0), b"# cut off: " + shown)
            if b"\norder" not in b"\n" + lines:
                self.assertEqual(added.pop(0), self.whole.split(b"\n")[0])
            self.assertEqual(len(added), 1)
            self.assertIn(b",D,70,20,84.5,,,", added[0])
            if size % 7 == 0:
                found = answer("readings", self.kept)
                used = found["inputs"][0]["used"]
        self.assertGreaterEqual(used, 3)

    def test_again_and_again(self):
        """A cut line that was set aside may be cut off itself."""
        data = self.whole[:-3]
        for _ in range(5):
            self.assertEqual(self.resumed(data).returncode, 0)
            data = self.read()[:-2]
        self.assertEqual(data[:len(self.whole) - 40], self.whole[:-40])

    def test_other_files_are_left_alone(self):
        for data, why in (
                (b"1.5\n2.5\n", b"not written by take"),
                (b"order", b""),  # may be ours
                (b"ordinary text", b"not written by take"),
                (b"# a list\norder,reading\n", b"not written by take"),
                (b"order,reading\n1,1.5\n", b"not written by take"),
                (b"order,reading,replaces,takes back,note\n1,1.5\n",
                 b"line 2: this line is not as take wrote it"),
                (b"order,reading,replaces,takes back,note\n2,1.5,,,\n",
                 b"does not follow"),
                (b"order,reading,replaces,takes back,note\n1,1.5,,,\n,,,2,x\n",
                 b"line 3: this row does not follow from those above it"),
                (b"order,reading,replaces,takes back,note\n1,shiny,,,\n",
                 b"is not a reading"),
                (b"order,reading,replaces,takes back,note\n1,1.\x00,,,\n",
                 b"line 2")):
            self.write("kept.csv", data)
            done = take("--keep", self.kept, "--resume", typed=b"")
            if not why:
                self.assertEqual(done.returncode, 1)
                continue
            self.assertEqual(done.returncode, 3, (data, done.stdout))
            self.assertIn(why, done.stderr, data)
            self.assertEqual(done.stdout, b"")
            self.assertEqual(self.read(), data)

    def test_other_options_are_refused(self):
        for words, why in ((["--unit", "mm"], b"the unit in it is GU"),
                           (["--meter", "M2"], b"the meter in it is M1"),
                           (["--session", "2"], b"the session in it is not")):
            self.write("kept.csv", self.whole)
            done = take("--keep", self.kept, "--resume", *words, typed=b"")
            self.assertEqual(done.returncode, 3, done.stdout)
            self.assertIn(why, done.stderr)
            self.assertEqual(self.read(), self.whole)


if __name__ == "__main__":
    main()
