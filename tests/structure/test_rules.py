# SPDX-License-Identifier: GPL-3.0-or-later
"""Each rule is quiet on a sound small house and complains about one bad
brick: a rule that cannot fail proves nothing."""

import pathlib
import subprocess
import tempfile
import unittest

import binary_rules
import source_rules
from house import Tree

TAG = "/* SPDX-License-Identifier: GPL-3.0-or-later */\n"
SOUND = {
    "include/scatterwise/status.h": TAG + "#include <stddef.h>\n",
    "include/scatterwise/table.h": TAG + '#include "scatterwise/status.h"\n',
    "include/scatterwise/change.h": TAG + '#include "scatterwise/table.h"\n',
    "src/base/CMakeLists.txt":
        "scatterwise_layer(base SOURCES text.c number_text.c)\n",
    "src/base/text.h": TAG,
    "src/base/text.c": TAG + '#include "text.h"\n'
        "/* abort() and printf(\"%f\") in a comment harm nobody */\n"
        "int scwi_add(int a, int b) {\n  return a + b;\n}\n",
    "src/base/number_text.c": TAG + 'const char *const scwi_f = "%.17g";\n',
    "src/numeric/CMakeLists.txt":
        "scatterwise_layer(numeric SEES base LINK GSL SOURCES start.c)\n",
    "src/numeric/start.c": TAG + '#include <gsl/gsl_errno.h>\n'
        '#include "text.h"\n',
    "src/codec/CMakeLists.txt":
        "scatterwise_layer(codec SEES base SOURCES json.c)\n",
    "src/codec/json.c": TAG + "#include <cjson/cJSON.h>\n",
    "src/methods/CMakeLists.txt":
        "scatterwise_layer(methods SEES numeric base SOURCES mean.c)\n",
    "src/methods/mean.c": TAG + '#include "scatterwise/status.h"\n',
    "src/cli/CMakeLists.txt": "add_executable(scatterwise main.c)\n",
    "src/cli/main.c": TAG + '#include <stdio.h>\n'
        'int main(void) { return printf("%g\\n", 1.5) < 0; }\n',
    "tests/CMakeLists.txt": "scatterwise_unit_test(mean)\n",
    "tests/test_mean.c": TAG + "int x;\n",
}
LONG_FUNCTION = "int scwi_long(void) {\n" + "  ;\n" * 90 + "}\n"

# rule, file, what is put at its end (or the whole file, when it is new)
BAD_BRICKS = [
    ("includes", "src/base/text.c", '#include "../numeric/roots.h"\n'),
    ("includes", "src/base/text.c", '#include "start.h"\n'),
    ("includes", "src/methods/mean.c", '#include "json.h"\n'),
    ("includes", "src/methods/mean.c", '#include "scatterwise/table.h"\n'),
    ("includes", "src/methods/mean.c", '#  include <scatterwise/change.h>\n'),
    ("includes", "src/methods/mean.c", '#include "scatterwise/unheard.h"\n'),
    ("includes", "src/cli/main.c", '#include "text.h"\n'),
    ("includes", "include/scatterwise/table.h", '#include "text.h"\n'),
    ("public_order", "include/scatterwise/status.h",
     '#include "scatterwise/change.h"\n'),
    ("public_order", "include/scatterwise/unheard.h", TAG),
    ("sees", "src/readings/CMakeLists.txt",
     "scatterwise_layer(readings SEES base methods SOURCES)\n"),
    ("fences", "src/methods/mean.c", "#include <gsl/gsl_cdf.h>\n"),
    ("fences", "src/base/text.c", "#include <nettle/sha2.h>\n"),
    ("fences", "src/cli/main.c", "#include <cjson/cJSON.h>\n"),
    ("fences", "include/scatterwise/table.h", "#include <gsl/gsl_math.h>\n"),
    ("words", "src/base/text.c", "void f(void) { abort(); }\n"),
    ("words", "src/base/text.c", "int f(void) { return printf(\"x\"); }\n"),
    ("words", "src/codec/json.c", "void *f(void) { return stderr; }\n"),
    ("words", "src/methods/mean.c", "long f(void) { return time (0); }\n"),
    ("words", "src/methods/mean.c", "int f(void) { return rand(); }\n"),
    ("words", "src/methods/mean.c", "void f(int a) { assert(a); }\n"),
    ("words", "src/methods/mean.c", "#include <ctype.h>\n"),
    ("words", "src/methods/mean.c", "int f(int c) { return isupper(c); }\n"),
    ("words", "src/methods/mean.c",
     "int f(const char *a) { return strcasecmp(a, a); }\n"),
    ("words", "src/codec/json.c",
     "double f(const char *t) { return strtod(t, 0); }\n"),
    ("words", "src/numeric/start.c",
     "void f(void) { gsl_set_error_handler(0); }\n"),
    ("words", "src/base/text.c", "void f(void) { setlocale(0, \"\"); }\n"),
    ("formats", "src/base/text.c", 'const char *const f = "is %.3f";\n'),
    ("formats", "src/codec/json.c", 'const char *const f = "%-8.*g";\n'),
    ("formats", "src/codec/json.c", 'const char *const f = "%Le";\n'),
    ("lists", "src/base/forgotten.c", TAG),
    ("lists", "tests/test_forgotten.c", TAG),
    ("lists", "src/cli/CMakeLists.txt", "add_library(x gone.c)\n"),
    ("sizes", "src/base/text.c", LONG_FUNCTION),
    ("sizes", "src/base/text.c", "static " + LONG_FUNCTION),
    ("sizes", "src/base/text.h", "\n" * 601),
    ("licence", "src/base/bare.h", "int x;\n"),
    ("licence", "tests/bare.py", "x = 1\n"),
    ("leftovers", "README.md", "see /" "root/notes\n"),
    ("leftovers", "tests/test_mean.c", "/* TO" "DO: more */\n"),
    ("leftovers", "tests/test_mean.c", "void f(void) { skip" "(); }\n"),
]


def build(folder, files):
    for name, text in files.items():
        path = pathlib.Path(folder, name)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return Tree(folder)


class SourceRules(unittest.TestCase):
    def test_sound_house_is_left_alone(self):
        with tempfile.TemporaryDirectory() as folder:
            tree = build(folder, SOUND)
            for rule in source_rules.RULES:
                self.assertEqual(list(rule(tree)), [], rule.__name__)

    def test_every_rule_has_a_bad_brick(self):
        self.assertEqual({rule.__name__ for rule in source_rules.RULES},
                         {name for name, _, _ in BAD_BRICKS})

    def test_bad_bricks_are_found(self):
        for name, path, brick in BAD_BRICKS:
            with tempfile.TemporaryDirectory() as folder, \
                    self.subTest(rule=name, brick=brick[:60]):
                tree = build(folder, SOUND)
                build(folder, {path: SOUND.get(path, "") + brick})
                found = list(getattr(source_rules, name)(tree))
                self.assertEqual(len(found), 1, found)
                self.assertTrue(found[0].startswith(path), found)


def compiled(folder, text, *flags):
    source = pathlib.Path(folder, "brick.c")
    source.write_text(text)
    out = str(source.with_suffix(".so" if "-shared" in flags else ".o"))
    subprocess.run(["cc", "-fPIC", "-fvisibility=hidden", *flags, str(source),
                    "-o", out], check=True)
    return out


SOUND_OBJECT = """
static const char *const words[] = {"a", "b"};
static const int table[] = {1, 2};
const char *scwi_word(int i) { return words[table[i]]; }
"""
BAD_OBJECTS = [
    ("no_writable_globals", "int scwi_count = 3;"),
    ("no_writable_globals", "int scwi_f(void) { static int n; return ++n; }"),
    ("no_writable_globals", "static const char *w[] = {\"a\", \"b\"};"
     "void scwi_f(const char *t) { w[0] = t; }"
     "const char *scwi_g(int i) { return w[i]; }"),
    ("no_writable_globals", "_Thread_local int scwi_n;"),
    ("prefixes", "int helper(int a) { return a; }"),
]
SHOWN = '__attribute__((visibility("default"))) '
SOUND_LIBRARY = ("#include <stdlib.h>\n" + SHOWN +
                 "void *scw_f(void) { return malloc(8); }")
BAD_LIBRARIES = [
    ("exports", SHOWN + "int scwi_f(void) { return 1; }"),
    ("imports", "#include <stdio.h>\n" + SHOWN +
     'void scw_f(const char *t) { printf("%s %s\\n", t, t); }'),
    ("imports", "#include <stdlib.h>\n" + SHOWN + "void scw_f(void)"
     "{ abort(); }"),
    ("imports", "#include <locale.h>\n" + SHOWN + "void scw_f(void)"
     '{ setlocale(LC_ALL, "C"); }'),
]


class BinaryRules(unittest.TestCase):
    def test_sound_object_and_library(self):
        with tempfile.TemporaryDirectory() as folder:
            path = compiled(folder, SOUND_OBJECT, "-c")
            for rule in ("no_writable_globals", "prefixes"):
                self.assertEqual(list(getattr(binary_rules, rule)([path])), [])
            path = compiled(folder, SOUND_LIBRARY, "-shared")
            for rule in ("exports", "imports"):
                self.assertEqual(list(getattr(binary_rules, rule)(path)), [])

    def test_nothing_to_check_is_a_complaint(self):
        self.assertTrue(list(binary_rules.no_writable_globals([])))
        self.assertTrue(list(binary_rules.prefixes([])))

    def test_bad_objects_are_found(self):
        for rule, text in BAD_OBJECTS:
            with tempfile.TemporaryDirectory() as folder, \
                    self.subTest(rule=rule, text=text):
                path = compiled(folder, text, "-c")
                self.assertEqual(
                    len(list(getattr(binary_rules, rule)([path]))), 1)

    def test_bad_libraries_are_found(self):
        for rule, text in BAD_LIBRARIES:
            with tempfile.TemporaryDirectory() as folder, \
                    self.subTest(rule=rule, text=text):
                path = compiled(folder, text, "-shared")
                self.assertEqual(
                    len(list(getattr(binary_rules, rule)(path))), 1)


if __name__ == "__main__":
    unittest.main()
