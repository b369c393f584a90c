#!/bin/sh
# Builds the program and asks it one question: where to set the trimmers of a demo stage.
set -eu
cd "$(dirname "$0")/.."
. cli/packages.sh

stage=netlists/quarry-30w.stage
program=build/release/cli/idlepoint

# shellcheck disable=SC2086  # a list of words
need_packages $building_packages

say "Building build/release (the program alone; some ten minutes on two cores)"
cmake --preset release -DIDLEPOINT_TESTS=OFF
cmake --build --preset release --target idlepoint --parallel "$(cores)"

say "$program preset $stage"
status=0
"$program" preset "$stage" || status=$?
[ "$status" -le 1 ] || stop "The program ended with status $status."

say "What else it answers"
cat <<HINTS
  $program readings $stage
      what the meter should show at every point
  $program readings $stage --fault "Q605 open"
      the same with a fault
  $program check $stage
      whether the drawing was copied right
  $program --help
      all commands
The stages in netlists/ are invented; docs/guide.md says how to draw your own.
HINTS
