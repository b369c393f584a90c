#!/bin/sh
# Makes the types files of the shelf afresh from the points files in the folders beside them:
#   sh netlists/shelf/refit.sh [PROGRAM]      PROGRAM: idlepoint where it is not installed
# Stops at the first points file that does not fit. What the fit says of one type:
#   idlepoint fit netlists/shelf/power/2N3055.points
set -eu
LC_ALL=C
export LC_ALL
program=$(command -v "${1:-idlepoint}")
case $program in /*) ;; *) program=$PWD/$program ;; esac
cd "$(dirname "$0")"
for folder in power drivers small diodes; do
  made=$folder.types.new
  echo "# Made by refit.sh from the points files in $folder/. Mend those, not this." > "$made"
  for points in "$folder"/*.points; do
    types=$("$program" fit "$points")
    printf '\n%s\n' "$(printf '%s\n' "$types" | grep -v '^#' | sed '/^$/d')" >> "$made"
  done
  mv "$made" "$folder.types"
done
