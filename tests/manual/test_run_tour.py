# SPDX-License-Identifier: GPL-3.0-or-later
"""The checker of examples sees a wrong example, and puts it right."""

import contextlib
import io
import pathlib
import tempfile
import unittest

import run_tour

RIGHT = """# Tour
```sh
not run
```
```console
$ echo 82.4 > panel.csv; cat panel.csv
82.4
$ cat panel.csv; false
82.4
[exit status 1]
```
More.
```console
$ cat panel.csv
82.4
```
"""


class Tour(unittest.TestCase):
    def check(self, text, *flags):
        with tempfile.TemporaryDirectory() as folder:
            document = pathlib.Path(folder, "tour.md")
            document.write_text(text)
            with contextlib.redirect_stdout(io.StringIO()) as said:
                status = run_tour.main([*flags, "/usr/bin/true",
                                        str(document)])
            return status, said.getvalue(), document.read_text()

    def test_right_example_passes(self):
        status, said, _ = self.check(RIGHT)
        self.assertEqual((status, said), (0, "3 commands in 1 documents\n"))

    def test_wrong_number_is_found(self):
        status, said, _ = self.check(RIGHT.replace("82.4\n[", "82.5\n["))
        self.assertEqual(status, 1)
        self.assertIn("-82.5", said)

    def test_missing_status_is_found(self):
        self.assertEqual(self.check(RIGHT.replace("[exit status 1]\n", ""))[0],
                         1)

    def test_rewriting_puts_it_right(self):
        wrong = RIGHT.replace("82.4\n", "", 2)
        self.assertEqual(self.check(wrong, "--rewrite")[2], RIGHT)

    def test_printed_command_is_output(self):
        text = "```console\n$ echo '$ false'\n$ false\n```\n"
        status, said, _ = self.check(text)
        self.assertEqual((status, said), (0, "1 commands in 1 documents\n"))
        self.assertEqual(self.check(text, "--rewrite")[2], text)

    def test_no_example_at_all_is_wrong(self):
        self.assertEqual(self.check("# Empty\n")[0], 1)


if __name__ == "__main__":
    unittest.main()
