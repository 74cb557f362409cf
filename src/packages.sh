# SPDX-License-Identifier: GPL-3.0-or-later
# Sourced by src/tryout.sh and tests/run.sh: Debian packages by name.

# need_packages NAME...: installs those that are not there yet. Asks nothing,
# pulls in nothing that is only recommended, and does not touch apt at all when
# everything is there.
need_packages() {
  local name missing=() as_root=()
  if ! command -v dpkg-query >/dev/null; then
    echo "This is no Debian system; make sure its own packages give: $*" >&2
    return 0
  fi
  for name in "$@"; do
    [ "$(dpkg-query -W -f='${db:Status-Status}' "$name" 2>/dev/null)" = installed ] ||
      missing+=("$name")
  done
  [ ${#missing[@]} -gt 0 ] || return 0
  if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null; then
      echo "Not root and no sudo here; have root install: ${missing[*]}" >&2
      return 1
    fi
    as_root=(sudo)
  fi
  echo "Installing ${missing[*]}"
  # One unreachable source need not matter: the installation decides.
  "${as_root[@]}" apt-get -q update || echo "apt-get update had complaints" >&2
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
    apt-get -q -y --no-install-recommends install "${missing[@]}"
}
