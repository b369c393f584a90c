#!/bin/sh
# Everything that must hold before a change is taken: builds and runs all tests. Ends with an exit
# status other than 0 at the first thing that fails.
#
#   sanitizers     preset dev: every test but the heavy ones
#   headers        preset headers: compiled alone, every header that has no source of its own
#   fuzzing        preset fuzz: the reader fed with a fixed number of damaged files
#   as installed   preset bench: the heavy tests, the program, batches and KINSOL as optimised, the bench
#                  sheet in a browser, and the benchmark run once; `cmake --workflow --preset bench` runs every test so
set -eu
cd "$(dirname "$0")/.."
. cli/packages.sh

jobs=$(cores)
fuzz_runs=10000

# A step's name, its command, and how long it took.
step() {
  name=$1
  shift
  say "$name: $*"
  began=$(date +%s)
  "$@"
  echo "-- $name took $(($(date +%s) - began)) s"
}

# shellcheck disable=SC2086  # a list of words
need_packages $building_packages catch2 clang libclang-rt-dev libsundials-dev libsuitesparse-dev \
  chromium chromium-driver python3-selenium poppler-utils

# Used where it is already there; never asked for.
if command -v ccache >/dev/null 2>&1; then
  export CMAKE_CXX_COMPILER_LAUNCHER="${CMAKE_CXX_COMPILER_LAUNCHER:-ccache}" CCACHE_NOHASHDIR=1
  export CCACHE_BASEDIR="$PWD"
fi

step "Sanitizers, configure" cmake --preset dev
step "Sanitizers, build" cmake --build --preset dev --parallel "$jobs"
step "Sanitizers, tests" ctest --preset dev --parallel "$jobs"

step "Headers alone, configure" cmake --preset headers
step "Headers alone, build" cmake --build --preset headers --parallel "$jobs"

step "Fuzzing, configure" cmake --preset fuzz
step "Fuzzing, build" cmake --build --preset fuzz --parallel "$jobs"
rm -rf build/fuzz/corpus build/fuzz/seeds
mkdir -p build/fuzz/corpus build/fuzz/seeds
find netlists -type f \( -name '*.stage' -o -name '*.types' -o -name '*.job' \) | while read -r file; do
  cp "$file" "build/fuzz/seeds/$(echo "$file" | tr / -)"
done
# The fuzzer's talk goes to a file, and is shown where it found something.
fuzz() {
  build/fuzz/fuzz_reader -runs="$fuzz_runs" -seed=1 -max_len=8192 -timeout=20 -print_funcs=0 \
    -artifact_prefix=build/fuzz/ build/fuzz/corpus build/fuzz/seeds >build/fuzz/log 2>&1 || {
    tail -n 80 build/fuzz/log
    return 1
  }
  grep '^Done' build/fuzz/log
}
step "Fuzzing, $fuzz_runs files" fuzz

step "As installed, configure" cmake --preset bench
step "As installed, build" cmake --build --preset as_installed --parallel "$jobs"
step "As installed, tests" ctest --preset as_installed --parallel "$jobs"

say "All of it passed"
