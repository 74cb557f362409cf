#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# From a bare Debian 12 to an answer: installs the build packages, builds into
# build/ and runs the main job on built-in data.
set -euo pipefail
exec </dev/null
cd "$(dirname "$0")/.."
. src/packages.sh

need_packages gcc libc6-dev make cmake pkg-config \
  libgsl-dev libcjson-dev nettle-dev librandom123-dev

cmake -S . -B build -DCMAKE_BUILD_TYPE=Release -DSCATTERWISE_BUILD_TESTS=OFF
cmake --build build --parallel "$(nproc)"

echo
echo "\$ scatterwise demo"
build/src/cli/scatterwise demo
echo
echo "The program is build/src/cli/scatterwise; the README's tour goes on from here."
