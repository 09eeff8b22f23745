# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck shell=bash
# Sourced by sample_sites/run and tests/run: installs the Debian packages that are lacking, and builds.

build_packages=(
  g++ cmake ninja-build pkg-config
  libboost-dev libfmt-dev nlohmann-json3-dev libcli11-dev libtomlplusplus-dev libsqlite3-dev libsodium-dev libpoppler-cpp-dev
  libmuparser-dev libzip-dev libical-dev libqrencode-dev
  qt6-base-dev qt6-l10n-tools qt6-translations-l10n libqt6opengl6-dev qt6-charts-dev libgl-dev libopengl-dev libegl-dev
  libgtest-dev libgmock-dev fonts-dejavu-core
)
test_packages=(poppler-utils zbar-tools sqlite3 clang-format mold)
lint_packages=(clang-tidy)

# need_packages NAME...: nothing when all are there; else installs them as root or through sudo without asking,
# or prints the one command to run and ends.
need_packages() {
  local lacking=() name
  for name in "$@"; do
    if [ "$(dpkg-query -W -f '${db:Status-Status}' "$name" 2>/dev/null)" != installed ]; then
      lacking+=("$name")
    fi
  done
  [ ${#lacking[@]} -eq 0 ] && return 0
  local as_root=()
  if [ "$(id -u)" -ne 0 ]; then
    if command -v sudo >/dev/null && sudo -n true 2>/dev/null; then
      as_root=(sudo -n)
    else
      printf 'These Debian packages are lacking. Run this once, then start again:\n  sudo apt-get install -y --no-install-recommends %s\n' \
        "${lacking[*]}" >&2
      exit 1
    fi
  fi
  echo "Installing ${#lacking[@]} Debian packages: ${lacking[*]}"
  "${as_root[@]}" apt-get update -qq
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${lacking[@]}" </dev/null
}

# build PRESET TARGET...: configures when needed and builds, all targets when none is named.
build() {
  local preset=$1
  shift
  cmake --preset "$preset" >"$log_folder/configure-$preset.log" 2>&1 || {
    cat "$log_folder/configure-$preset.log" >&2
    echo "Configuring \"$preset\" failed; the reason stands above." >&2
    exit 1
  }
  cmake --build --preset "$preset" ${1:+--target "$@"}
}
