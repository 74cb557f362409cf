# SPDX-License-Identifier: GPL-3.0-or-later
"""The plan of the house that the structure rules hold the tree to, and ways to
look at its files."""

import os
import pathlib
import re

# What each layer may see; SEES in its CMakeLists.txt may not ask for more.
MAY_SEE = {
    "base": set(),
    "numeric": {"base"},
    "codec": {"base"},
    "bench": {"codec", "methods", "base"},
    "readings": {"codec", "base"},
    "methods": {"numeric", "base"},
    "questions": {"methods", "numeric", "readings", "bench", "base"},
    "report": {"codec", "base"},
    "cli": set(),
}

# Which layer answers for each public header.
HEADER_OF = {
    "status": "base", "context": "base", "version": "base", "sink": "base",
    "figures": "base",
    "table": "readings", "spot_list": "readings", "take": "questions",
    "bench": "bench",
    "summary": "methods", "comparison": "methods", "planning": "methods",
    "place": "methods", "components": "methods", "pooling": "methods",
    "budget": "methods", "monte_carlo": "methods", "gloss": "methods", "rules": "methods", "bench_budget": "questions", "audit": "questions", "compare": "questions", "score": "questions",
    "readings": "questions", "change": "questions", "plan": "questions",
    "given": "questions", "layout": "questions", "panel": "questions",
    "drift": "questions", "bridge": "questions",
    "report": "report",
    "scatterwise": "cli",
}

# Public headers a layer may include, by the layer that answers for them: its
# own and those below it. The report shows everybody's results.
PUBLIC_OF = {
    "base": {"base"},
    "numeric": {"base"},
    "codec": {"base"},
    "bench": {"base", "methods", "bench"},
    "readings": {"base", "readings"},
    "methods": {"base", "methods"},
    "questions": {"base", "bench", "readings", "methods", "questions"},
    "report": {"base", "bench", "readings", "methods", "questions", "report"},
    "cli": {"base", "bench", "readings", "methods", "questions", "report",
            "cli"},
}

# Libraries with a fence around them: first folder of <...>, or the header.
FENCED = {
    "gsl": {"numeric"},
    "cjson": {"codec"}, "cJSON.h": {"codec"},
    "nettle": {"codec"},
    "Random123": {"numeric"},
}

SKIPPED = re.compile(r"^(build.*|\.git|__pycache__|\.ipynb_checkpoints)$")


class Tree:
    """The files below a root, with paths relative to it."""

    def __init__(self, root):
        self.root = pathlib.Path(root)

    def files(self, *suffixes, below=""):
        found = []
        for folder, folders, names in os.walk(self.root / below):
            folders[:] = sorted(f for f in folders if not SKIPPED.match(f))
            for name in sorted(names):
                path = pathlib.Path(folder, name)
                if not suffixes or path.suffix in suffixes:
                    found.append(path.relative_to(self.root))
        return found

    def text(self, path):
        return (self.root / path).read_text(encoding="utf-8")

    def has(self, path):
        return (self.root / path).is_file()


TOKENS = re.compile(
    r'//[^\n]*|/\*.*?\*/|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'', re.S)


def _blank(text):
    return re.sub(r"[^\n]", " ", text)


def without_comments(text):
    """C text with comments blanked; lines and columns stay."""
    return TOKENS.sub(
        lambda m: _blank(m[0]) if m[0].startswith("/") else m[0], text)


def only_code(text):
    """C text with comments and the inside of literals blanked."""
    return TOKENS.sub(lambda m: _blank(m[0]), text)


def string_literals(text):
    """(line, literal) of every string of a C text."""
    for match in TOKENS.finditer(text):
        if match[0].startswith('"'):
            yield text.count("\n", 0, match.start()) + 1, match[0]


def numbered(text):
    return enumerate(text.split("\n"), 1)


def cmake_words(text):
    """The words of a CMake file, comments removed."""
    return re.findall(r"[^\s()]+", re.sub(r"#[^\n]*", "", text))
