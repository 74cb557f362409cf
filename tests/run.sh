#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Everything that must hold, from a bare Debian 12: installs the test packages,
# builds with gcc and with clang (sanitizers), runs every test and fuzzes for a
# bounded time. Stops at the first stage that fails.
#
#   SCATTERWISE_FUZZ_SECONDS=N  seconds for each fuzzer (default 20)
set -euo pipefail
exec </dev/null
cd "$(dirname "$0")/.."
. src/packages.sh

stage="start"
trap 'code=$?
  [ $code -eq 0 ] || printf "\nFAILED in stage: %s (after %d s)\n" "$stage" $SECONDS' EXIT

begin() {
  stage="$1"
  echo
  echo "=== $stage (at $SECONDS s)"
}

# configure_and_build FOLDER TARGET CMAKE-OPTION...: quiet unless it fails.
configure_and_build() {
  local folder="build-tests/$1" log="build-tests/$1.log" target="$2"
  shift 2
  mkdir -p build-tests
  if ! { cmake -S . -B "$folder" -DSCATTERWISE_WERROR=ON "$@" &&
    cmake --build "$folder" --target "$target" --parallel "$(nproc)"; } >"$log" 2>&1; then
    tail -n 60 "$log"
    return 1
  fi
}

run_tests() {
  local folder="build-tests/$1"
  shift
  ctest --test-dir "$folder" --output-on-failure --no-tests=error \
    --timeout 240 --parallel "$(nproc)" "$@"
}

begin "packages"
need_packages gcc libc6-dev make cmake pkg-config \
  libgsl-dev libcjson-dev nettle-dev librandom123-dev \
  clang libclang-rt-14-dev libcmocka-dev libcsv-dev \
  python3 python3-scipy r-base-core r-cran-lme4 r-cran-nlme r-cran-gstat locales \
  jupyter-nbconvert python3-ipykernel python3-pandas python3-matplotlib

begin "gcc, warnings are errors, all tests"
configure_and_build gcc all -DCMAKE_C_COMPILER=gcc -DCMAKE_BUILD_TYPE=Release
run_tests gcc

begin "clang, address and undefined sanitizers, unit and command-line tests"
configure_and_build clang all -DCMAKE_C_COMPILER=clang -DCMAKE_BUILD_TYPE=Debug \
  -DCMAKE_C_FLAGS=-O1 -DSCATTERWISE_SANITIZE=address,undefined
run_tests clang --label-regex '^(unit|cli)$'

begin "clang, thread sanitizer, two threads at once"
configure_and_build threads test_threads -DCMAKE_C_COMPILER=clang \
  -DCMAKE_BUILD_TYPE=Debug -DCMAKE_C_FLAGS=-O1 -DSCATTERWISE_SANITIZE=thread
run_tests threads --tests-regex '^host.threads$'

begin "fuzzing"
configure_and_build fuzz all -DCMAKE_C_COMPILER=clang -DCMAKE_BUILD_TYPE=Release \
  -DSCATTERWISE_BUILD_TESTS=OFF -DSCATTERWISE_BUILD_CLI=OFF \
  -DSCATTERWISE_BUILD_FUZZERS=ON \
  -DSCATTERWISE_FUZZ_SECONDS="${SCATTERWISE_FUZZ_SECONDS:-20}" \
  -DSCATTERWISE_SANITIZE=address,undefined,fuzzer-no-link
run_tests fuzz

echo
echo "ALL PASSED in $SECONDS s"
