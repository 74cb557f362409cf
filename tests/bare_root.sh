#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Runs both commands of the README in a bare Debian 12: a minimal root made by
# mmdebstrap from this machine's own Debian sources, with a fresh clone of the
# last commit in it. Needs root, mmdebstrap and git; not part of CI.
#
#   tests/bare_root.sh [FOLDER]    keeps the root in FOLDER when one is named
set -euo pipefail
cd "$(dirname "$0")/.."

if [ $# -gt 0 ]; then
  root="$1"
else
  root="$(mktemp -d)"
  trap 'umount -q "$root/dev/pts" "$root/proc" || true
    rm -rf --one-file-system "$root"' EXIT
fi

sources=(/etc/apt/sources.list.d/debian.sources /etc/apt/sources.list)
for source in "${sources[@]}"; do
  [ -s "$source" ] && break
done

if [ ! -d "$root/usr" ]; then
  mmdebstrap --variant=minbase bookworm "$root" "$source"
fi
rm -rf "$root/srv/scatterwise"
git clone --quiet . "$root/srv/scatterwise"
# How this machine reaches its package sources.
cp -L /etc/resolv.conf /etc/hosts "$root/etc/"
cp /etc/apt/apt.conf.d/*proxy* "$root/etc/apt/apt.conf.d/" 2>/dev/null || true
mountpoint -q "$root/proc" || mount -t proc proc "$root/proc"
# A terminal can only be opened where there are pseudo-terminals.
mountpoint -q "$root/dev/pts" || mount --bind /dev/pts "$root/dev/pts"

in_root() {
  chroot "$root" /usr/bin/env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin HOME=/ \
    bash -c "cd /srv/scatterwise && time $1"
}
echo "=== ./src/tryout.sh"
in_root ./src/tryout.sh
echo "=== ./src/tryout.sh again: no apt this time"
in_root ./src/tryout.sh | tail -n 3
echo "=== ./tests/run.sh"
in_root ./tests/run.sh
echo "Both commands work in a bare Debian $(cat "$root/etc/debian_version")."
