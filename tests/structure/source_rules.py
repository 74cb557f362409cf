# SPDX-License-Identifier: GPL-3.0-or-later
"""Rules on source files. Each takes a Tree and yields complaints, one line
each: path, line, what is wrong."""

import re

from house import (FENCED, HEADER_OF, MAY_SEE, PUBLIC_OF, cmake_words,
                   numbered, only_code, string_literals, without_comments)

INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]')
LONGEST_FILE = 600
LONGEST_FUNCTION = 80
LICENCE = "SPDX-License-Identifier: GPL-3.0-or-later"
LIBRARY = [layer for layer in MAY_SEE if layer != "cli"]


def _layer_files(tree, layer):
    return tree.files(".c", ".h", below=f"src/{layer}")


def _includes(tree, path):
    for line, text in numbered(without_comments(tree.text(path))):
        match = INCLUDE.match(text)
        if match:
            yield f"{path}:{line}", match[1], match[2]


def _sees(tree, layer):
    path = f"src/{layer}/CMakeLists.txt"
    if not tree.has(path):
        return set()
    words = cmake_words(tree.text(path))
    if "SEES" not in words:
        return set()
    seen = set()
    for word in words[words.index("SEES") + 1:]:
        if word.isupper():
            break
        seen.add(word)
    return seen


def _public_include(layer, place, name):
    owner = HEADER_OF.get(name.removeprefix("scatterwise/").removesuffix(".h"))
    if owner is None:
        yield f"{place}: no layer answers for the public header {name}"
    elif owner not in PUBLIC_OF[layer]:
        yield f"{place}: {layer} includes {name}, which belongs to {owner}"


def _private_include(tree, layer, place, name, sees):
    if tree.has(f"src/{layer}/{name}"):
        return
    if any(tree.has(f"src/{seen}/{name}") for seen in sees):
        return
    listing = f"src/{layer}/CMakeLists.txt"  # headers made at build
    if tree.has(listing) and f"/{name}" in tree.text(listing):
        return
    yield f"{place}: {layer} does not see {name}"


def includes(tree):
    """Includes point down only."""
    for layer in MAY_SEE:
        sees = _sees(tree, layer)
        for path in _layer_files(tree, layer):
            for place, kind, name in _includes(tree, path):
                if ".." in name:
                    yield f"{place}: relative include of {name}"
                elif name.startswith("scatterwise/"):
                    yield from _public_include(layer, place, name)
                elif kind == '"':
                    yield from _private_include(tree, layer, place, name, sees)
    for path in tree.files(".h", below="include"):
        for place, kind, name in _includes(tree, path):
            if kind == '"' and not name.startswith("scatterwise/"):
                yield f"{place}: a public header includes {name}"


def public_order(tree):
    """A public header includes headers of its own layer or lower ones only."""
    for path in tree.files(".h", below="include"):
        owner = HEADER_OF.get(path.stem)
        if owner is None:
            yield f"{path}: no layer answers for this public header"
            continue
        for place, _, name in _includes(tree, path):
            if name.startswith("scatterwise/"):
                yield from _public_include(owner, place, name)


def sees(tree):
    """SEES lists ask for no more than the plan of the house allows."""
    for layer, allowed in MAY_SEE.items():
        for seen in sorted(_sees(tree, layer) - allowed):
            yield f"src/{layer}/CMakeLists.txt: {layer} may not see {seen}"


def fences(tree):
    """GSL stays in numeric, cJSON and nettle stay in codec."""
    for layer in MAY_SEE:
        for path in _layer_files(tree, layer):
            for place, _, name in _includes(tree, path):
                allowed = FENCED.get(name.split("/")[0], {layer})
                if layer not in allowed:
                    yield f"{place}: {name} belongs in {'/'.join(allowed)}"
    for path in tree.files(".h", below="include"):
        for place, _, name in _includes(tree, path):
            if name.split("/")[0] in FENCED:
                yield f"{place}: {name} in a public header"


# Ends the process, speaks, listens to or changes what belongs to the host, or
# depends on the host's locale; names that also are plain words only as calls.
FORBIDDEN = re.compile(
    r"\b(abort|exit|_exit|_Exit|quick_exit|atexit|sigaction|popen|fork|longjmp"
    r"|(?<!format\()printf|fprintf|dprintf|vprintf|vfprintf|puts|fputs|putchar"
    r"|putc|fputc|fwrite|perror|syslog|stderr|stdout|stdin"
    r"|setlocale|uselocale|newlocale|localeconv|strcoll|strxfrm"
    r"|strcasecmp|strncasecmp|tolower|toupper|is(alnum|alpha|digit|lower|punct"
    r"|space|upper|xdigit)"
    r"|srand|srandom|drand48|getenv|secure_getenv|setenv|putenv"
    r"|strtok|strerror|localtime|gmtime|asctime|ctime|clock_gettime"
    r"|gettimeofday|gsl_rng_env_setup|gsl_set_error_handler|cJSON_InitHooks"
    r"|cJSON_GetErrorPtr)\b"
    r"|\b(assert|raise|kill|signal|system|err|errx|warn|warnx|rand|random"
    r"|clock|time)(?=\s*\()")
FORBIDDEN_HEADERS = {"assert.h", "ctype.h", "wctype.h", "wchar.h", "locale.h",
                     "err.h", "signal.h", "time.h", "strings.h"}
NUMBER_READERS = re.compile(r"\b(strtod|strtof|strtold|atof|sscanf|fscanf)\b")
FLOAT_FORMAT = re.compile(r"%[-+#0]*(\d+|\*)?(\.(\d+|\*)?)?[lL]?[fFeEgGaA]")


def words(tree):
    """The library never ends, speaks, or leans on the host's locale."""
    for layer in LIBRARY:
        for path in _layer_files(tree, layer):
            text = tree.text(path)
            for line, code in numbered(only_code(text)):
                for match in FORBIDDEN.finditer(code):
                    yield f"{path}:{line}: {match[0]}"
                if layer != "base" and NUMBER_READERS.search(code):
                    yield f"{path}:{line}: numbers are read by base only"
            for place, _, name in _includes(tree, path):
                if name in FORBIDDEN_HEADERS:
                    yield f"{place}: includes {name}"


def formats(tree):
    """Numbers become text in base/number_text.c only: printf's own formats
    follow the host's locale."""
    for layer in LIBRARY:
        for path in _layer_files(tree, layer):
            if str(path) == "src/base/number_text.c":
                continue
            for line, literal in string_literals(tree.text(path)):
                if FLOAT_FORMAT.search(literal.replace("%%", "")):
                    yield f"{path}:{line}: {literal}"


def lists(tree):
    """Every C file is named in the CMakeLists.txt of its folder or of one
    above it, and every C file named there exists."""
    for listing in tree.files(".txt"):
        if listing.name != "CMakeLists.txt":
            continue
        for word in cmake_words(tree.text(listing)):
            if re.fullmatch(r"[\w/]+\.c", word):
                if not tree.has(listing.parent / word):
                    yield f"{listing}: {word} does not exist"
    for path in tree.files(".c", below="src") + tree.files(".c", below="tests"):
        if not _listed(tree, path):
            yield f"{path}: in no CMakeLists.txt"


def _listed(tree, path):
    for folder in path.parents:
        listing = folder / "CMakeLists.txt"
        if not tree.has(listing):
            continue
        words_there = cmake_words(tree.text(listing))
        name = path.relative_to(folder).as_posix()
        short = re.sub(r"^(test|fuzz|bench)_|(_figures)?\.c$", "", name)
        return name in words_there or short in words_there
    return False


def sizes(tree):
    """Files and functions stay short; no exceptions."""
    for path in tree.files(".c", ".h", ".py", ".sh"):
        lines = tree.text(path).split("\n")
        if len(lines) > LONGEST_FILE:
            yield f"{path}: {len(lines)} lines, at most {LONGEST_FILE}"
        if path.suffix == ".c":
            yield from _function_sizes(path, lines)


def _function_sizes(path, lines):
    """A function starts at its first unindented line and ends at '}' alone;
    the source format makes that exact."""
    start = None
    for number, line in enumerate(lines, 1):
        if re.match(r"[A-Za-z_]", line) and start is None:
            start = number
        if line == "}" and start is not None:
            if number - start + 1 > LONGEST_FUNCTION:
                yield (f"{path}:{start}: function of {number - start + 1} "
                       f"lines, at most {LONGEST_FUNCTION}")
        if line == "}" or re.match(r"[A-Za-z_}].*;$", line):
            start = None


def licence(tree):
    """Each source says its licence in its first two lines."""
    for path in tree.files(".c", ".h", ".py", ".sh", ".R"):
        if LICENCE not in "\n".join(tree.text(path).split("\n")[:2]):
            yield f"{path}: no licence line"


MACHINE = re.compile(r"(?<![\w.}>$])/(work|root|home|tmp)/\w")
UNFINISHED = re.compile(r"\b(TO" r"DO|FIX" r"ME|XX" r"X)\b|\bskip" r"\(\)")
TEXTUAL = (".c", ".h", ".py", ".sh", ".R", ".md", ".txt", ".cmake", ".in",
           ".json", ".csv", ".ipynb", "")


def leftovers(tree):
    """No path of one machine, no unfinished corner, no skipped test."""
    for path in tree.files(*TEXTUAL):
        try:
            text = tree.text(path)
        except UnicodeDecodeError:
            continue  # exports in other encodings
        for line, content in numbered(text):
            for rule in (MACHINE, UNFINISHED):
                match = rule.search(content)
                if match:
                    yield f"{path}:{line}: {match[0]}"


RULES = [includes, public_order, sees, fences, words, formats, lists, sizes,
         licence, leftovers]
