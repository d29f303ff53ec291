#!/bin/sh
# SPDX-License-Identifier: MIT
# The Debian packages: built, looked at by lintian, installed, used, removed; nothing may be left.
# Usage: sh tests/release/bare/packages.sh [--bare] [--record]   as root
# Without --bare in a layer over this system, which has everything that the packages need.
# With --bare in a new Debian 12, where apt fetches what they need; then the packages are built twice and compared as well.
# --record, with --bare, writes tests/release/proof/records/packages_debian.json.
set -eu
cd "$(dirname "$0")/../../.."
. tests/packages.sh
. tests/release/bare/system.sh
own_mounts "$0" "$@"
case " $* " in *' --bare '*) bare=yes ;; *) bare= ;; esac
made=$PWD/build/debian
work=$(mktemp -d "$PWD/build/packages.XXXXXX")
# What is mounted goes with the namespace, so that only what lies below it is removed.
trap 'umount -R -l "$work/layer" 2>/dev/null || :; umount -l "$work/bare/proc" "$work/bare/dev" 2>/dev/null || :; rm -rf --one-file-system "$work"' EXIT

if [ "$bare" ]; then
    install_packages debootstrap
    commit=$(git rev-parse HEAD)
    sh bindings/packaging/debian/build.sh "$made" "$commit"
    sh bindings/packaging/debian/build.sh "$work/second" "$commit" >"$work/second.txt" || {
        cat "$work/second.txt"
        exit 1
    }
    for package in "$made"/*.deb; do
        cmp "$package" "$work/second/${package##*/}"
    done
    echo "Built twice: the same bytes"
    below=$work/bare
    bare_system "$below"
    enter "$below"
else
    sh bindings/packaging/debian/build.sh --short "$made"
    below=/
fi

packages=$(cd "$made" && ls ./*.deb | grep -v dbgsym)
names=$(for package in $packages; do basename "${package%%_*}"; done)
if [ "$bare" ]; then
    # What ours need comes first, so that the layer above holds nothing but ours.
    mkdir -p "$below/packages"
    (cd "$made" && cp $packages "$below/packages")
    inside "$below" apt-get update -qq
    needed=$(inside "$below" sh -c 'cd /packages && apt-get install -s ./*.deb' | awk '/^Inst/ {print $2}' | grep -vxF "$names")
    inside "$below" apt-get install -y -qq --no-install-recommends gcc libc6-dev pkg-config lua5.4 sqlite3 default-jdk-headless mono-mcs $needed >"$work/apt.txt" 2>&1 || {
        tail -n 30 "$work/apt.txt"
        exit 1
    }
    umount "$below/proc" "$below/dev"
fi
layer "$work/layer" "$below" || {
    echo "Layers cannot be mounted here: the packages are built, and not installed."
    mkdir -p build/log
    echo "The Debian packages were not installed: layers cannot be mounted here." >>build/log/left_out.txt
    exit 0
}
system=$work/layer/system
enter "$system"
mkdir -p "$system/tmp/packages" "$system/tmp/try"
(cd "$made" && cp $packages "$system/tmp/packages")
cp docs/examples/* tests/guard/install/outside/outside.c tests/release/bare/try_packages.sh "$system/tmp/try"

# What somebody installed here before, from source, is out of the way, and counts neither as added nor as taken.
(cd "$made" && for package in $packages; do dpkg-deb --fsys-tarfile "$package" | tar -t; done) | grep -v '/$' | (cd "$system" && xargs rm -f)
find "$system/usr/local" -iname '*ferrule*' -prune -exec rm -rf {} +
changes "$work/layer" "$below" >"$work/before.txt"
ours() {
    changes "$work/layer" "$below" | grep -vxFf "$work/before.txt" || :
}
inside "$system" sh -c 'dpkg -i /tmp/packages/*.deb' >"$work/dpkg.txt" 2>&1 || {
    cat "$work/dpkg.txt"
    exit 1
}
count=$(ours | grep -c .)
inside "$system" sh /tmp/try/try_packages.sh /tmp/try
inside "$system" dpkg --purge $names >"$work/dpkg.txt" 2>&1 || {
    cat "$work/dpkg.txt"
    exit 1
}
left=$(ours)
if [ "$left" ] || [ "$count" -lt 100 ]; then
    echo "$count files and folders installed; left after removing all packages: $left"
    exit 1
fi
said="$count files and folders were installed, and all of them were gone after removing the packages."
echo "$said"
case " $* " in *' --record '*) /usr/bin/python3 tests/release/bare/record.py packages "$made" "$said" ;; esac
