# Sourced by cli/try.sh and tests/run.sh: what must be on the machine, by Debian's names.

say() { printf '\n== %s\n' "$*"; }

stop() {
  printf '%s\n' "$*" >&2
  exit 1
}

building_packages="g++ cmake ninja-build libeigen3-dev libboost-dev libfmt-dev libcli11-dev
  nlohmann-json3-dev librandom123-dev libtbb-dev libxsimd-dev node-d3"

# need_packages PACKAGE...: installs those that are missing where apt-get is at hand; elsewhere says
# what is needed, and stops where even the compiler or CMake is absent.
need_packages() {
  if ! command -v apt-get >/dev/null 2>&1 || ! command -v dpkg-query >/dev/null 2>&1; then
    need_tools "$@"
    return
  fi
  missing=""
  for package in "$@"; do
    status=$(dpkg-query -W -f '${Status}' "$package" 2>/dev/null || true)
    [ "$status" = "install ok installed" ] || missing="$missing $package"
  done
  if [ -z "$missing" ]; then
    say "All packages are installed already"
    return
  fi
  say "Installing with apt-get:$missing"
  as_root=""
  if [ "$(id -u)" -ne 0 ]; then
    command -v sudo >/dev/null 2>&1 ||
      stop "You are not root and there is no sudo. As root, run: apt-get install$missing"
    as_root=sudo
  fi
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get -q update
  # shellcheck disable=SC2086  # a list of words
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get -q -y --no-install-recommends install $missing
}

need_tools() {
  say "This is not a Debian system, so nothing is installed for you"
  echo "Needed: a C++20 compiler (g++ 12 or later), CMake 3.25, Ninja, Eigen 3.4, Boost 1.74,"
  echo "fmt 9, CLI11 2.1, nlohmann-json 3.11, oneTBB 2021, Random123 1.14, xsimd 8, D3 5. On Debian 12 these are the packages"
  echo "  $*"
  for tool in cmake ninja c++; do
    command -v "$tool" >/dev/null 2>&1 || stop "There is no '$tool' here. Install it and try again."
  done
}

cores() { nproc 2>/dev/null || echo 2; }
