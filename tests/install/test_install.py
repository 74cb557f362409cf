# SPDX-License-Identifier: GPL-3.0-or-later
"""The package as strangers get it: test_install.py BUILD VERSION CMAKE.

Installs the build below a prefix, moves the tree (it must not mind), and
builds and runs an outside project against it."""

import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
import unittest

BUILD, VERSION, CMAKE = sys.argv[1:4]
CONSUMER = pathlib.Path(__file__).resolve().parent / "consumer"
STRICT = ["-Wall", "-Wextra", "-Wpedantic", "-Wconversion", "-Werror"]


def run(*command, **environment):
    done = subprocess.run(
        [str(word) for word in command], text=True, stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
        env={**os.environ, **environment})
    if done.returncode:
        raise AssertionError(f"{command} failed:\n{done.stdout}")
    return done.stdout


class Installed(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = tempfile.TemporaryDirectory()
        cls.work = pathlib.Path(cls.folder.name)
        run(CMAKE, "--install", BUILD, "--prefix", cls.work / "first")
        cls.prefix = cls.work / "moved"
        shutil.move(cls.work / "first", cls.prefix)
        cls.library = next(cls.prefix.rglob("libscatterwise.so")).parent
        cls.pc = next(cls.prefix.rglob("scatterwise.pc")).parent

    @classmethod
    def tearDownClass(cls):
        cls.folder.cleanup()

    def check_run(self, program, **environment):
        said = run(program, **environment)
        self.assertIn(f"library {VERSION}, mean 82.375", said)

    def cmake_consumer(self, kind, *options):
        folder = self.work / f"cmake-{kind}"
        run(CMAKE, "-S", CONSUMER, "-B", folder, f"-DKINDS={kind}",
            f"-DCMAKE_PREFIX_PATH={self.prefix}", *options)
        run(CMAKE, "--build", folder)
        self.check_run(folder / f"consumer_{kind}")

    def test_find_package_shared(self):
        self.cmake_consumer("shared")

    def test_find_package_static(self):
        self.cmake_consumer("static", "-DCOMPONENTS=static")

    def test_shared_users_need_no_gsl(self):
        """With no pkg-config and so no GSL in sight, the shared library still
        is found; asking for the static one is refused in words."""
        hide = "-DCMAKE_DISABLE_FIND_PACKAGE_PkgConfig=ON"
        folder = self.work / "cmake-bare"
        run(CMAKE, "-S", CONSUMER, "-B", folder, "-DKINDS=shared", hide,
            f"-DCMAKE_PREFIX_PATH={self.prefix}")
        with self.assertRaisesRegex(AssertionError, "static library needs"):
            run(CMAKE, "-S", CONSUMER, "-B", self.work / "cmake-refused",
                "-DKINDS=static", "-DCOMPONENTS=static", hide,
                f"-DCMAKE_PREFIX_PATH={self.prefix}")

    def pkg_config(self, *options):
        return run("pkg-config", *options, "scatterwise",
                   PKG_CONFIG_PATH=str(self.pc)).split()

    def test_pkg_config_shared(self):
        program = self.work / "pc-shared"
        run("cc", "-std=c11", *STRICT, CONSUMER / "consumer.c", "-o", program,
            *self.pkg_config("--cflags", "--libs"))
        self.check_run(program, LD_LIBRARY_PATH=str(self.library))
        self.assertEqual(self.pkg_config("--modversion"), [VERSION])

    def test_pkg_config_static(self):
        program = self.work / "pc-static"
        flags = self.pkg_config("--static", "--cflags", "--libs")
        self.assertIn("-lgsl", flags)
        self.assertIn("-lcjson", flags)
        self.assertIn("-lnettle", flags)
        archive = self.library / "libscatterwise.a"
        flags = [archive if f == "-lscatterwise" else f for f in flags]
        run("cc", "-std=c11", *STRICT, CONSUMER / "consumer.c", "-o", program,
            *flags)
        self.check_run(program)

    def test_each_header_alone_in_c_and_cxx(self):
        headers = sorted(self.prefix.glob("include/scatterwise/*.h"))
        self.assertGreater(len(headers), 8)
        for header in headers:
            source = self.work / "alone.c"
            source.write_text(f"#include <scatterwise/{header.name}>\n"
                              f"#include <scatterwise/{header.name}>\n"
                              "int alone(void);\nint alone(void){return 0;}\n")
            flags = [*STRICT, "-fsyntax-only", f"-I{self.prefix}/include"]
            run("cc", "-std=c11", *flags, source)
            run("clang++", "-x", "c++", "-std=c++11", *flags, source)

    def test_cxx_program(self):
        program = self.work / "cxx"
        run("clang++", "-x", "c++", "-std=c++11", "-Wall", "-Wextra",
            "-Wpedantic", "-Werror", CONSUMER / "consumer.c", "-o", program,
            *self.pkg_config("--cflags", "--libs"))
        self.check_run(program, LD_LIBRARY_PATH=str(self.library))

    def test_installed_program(self):
        program = self.prefix / "bin" / "scatterwise"
        self.assertIn(VERSION, run(program, "--version"))

    def test_manual_pages(self):
        pages = sorted(p.name for p in self.prefix.glob("share/man/man1/*.1*"))
        for command in ("", "-readings", "-change", "-plan", "-demo"):
            self.assertIn(f"scatterwise{command}.1", pages)

    def test_nothing_of_this_machine(self):
        """No path of the build or the sources in what is installed."""
        source = str(pathlib.Path(__file__).resolve().parents[2])
        for path in self.prefix.rglob("*"):
            if path.is_file():
                data = path.read_bytes()
                for place in (source, BUILD):
                    self.assertNotIn(place.encode(), data, str(path))


class Subproject(unittest.TestCase):
    def test_same_names_inside_a_host_project(self):
        """add_subdirectory offers the same targets, and brings no tests."""
        source = pathlib.Path(__file__).resolve().parents[2]
        with tempfile.TemporaryDirectory() as folder:
            host = pathlib.Path(folder, "host")
            host.mkdir()
            (host / "CMakeLists.txt").write_text(
                "cmake_minimum_required(VERSION 3.25)\n"
                "project(host LANGUAGES C)\n"
                f"add_subdirectory({source} scatterwise)\n"
                f"add_executable(a {CONSUMER}/consumer.c)\n"
                f"add_executable(b {CONSUMER}/consumer.c)\n"
                "target_link_libraries(a scatterwise::scatterwise)\n"
                "target_link_libraries(b scatterwise::scatterwise_static)\n"
                "if(TARGET test_number_text)\n"
                "  message(FATAL_ERROR \"tests came along\")\nendif()\n")
            run(CMAKE, "-S", host, "-B", host / "build")


class Staged(unittest.TestCase):
    def test_destdir(self):
        """A packager's way: staged below DESTDIR, meant for the prefix."""
        with tempfile.TemporaryDirectory() as folder:
            run(CMAKE, "--install", BUILD, DESTDIR=folder)
            pc = next(pathlib.Path(folder).rglob("scatterwise.pc"))
            self.assertNotIn(folder, pc.read_text())
            self.assertTrue(list(pathlib.Path(folder).rglob("status.h")))


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
