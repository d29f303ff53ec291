#!/bin/sh
# SPDX-License-Identifier: MIT
# Installs the Debian packages of one version and then those of the next over them, in a layer over this system: no file may belong
# to two packages without saying so, nothing may be left unconfigured, and a program linked to the old library still finds it.
# Usage: sh tests/release/bare/one_after_other.sh OLD_FOLDER NEW_FOLDER   as root; each made by bindings/packaging/debian/build.sh
set -eu
cd "$(dirname "$0")/../../.."
. tests/release/bare/system.sh
own_mounts "$0" "$@"
mkdir -p build
work=$(mktemp -d "$PWD/build/upgrade.XXXXXX")
trap 'umount -R -l "$work/layer" 2>/dev/null || :; rm -rf --one-file-system "$work"' EXIT
layer "$work/layer" /
system=$work/layer/system
enter "$system"
for set in "$1" "$2"; do
    rm -rf "$system/tmp/packages"
    mkdir -p "$system/tmp/packages"
    for package in "$set"/*.deb; do
        case $package in *dbgsym*) ;; *) cp "$package" "$system/tmp/packages" ;; esac
    done
    inside "$system" sh -c 'dpkg -i /tmp/packages/*.deb' >"$work/dpkg.txt" 2>&1 || {
        cat "$work/dpkg.txt"
        exit 1
    }
    echo "$(ls "$system/tmp/packages" | wc -l) packages of $(ls "$system/tmp/packages" | sed -n '1s/[^_]*_\([^_]*\)_.*/\1/p') installed"
done
unfinished=$(inside "$system" dpkg --audit)
[ -z "$unfinished" ] || {
    echo "$unfinished"
    exit 1
}
# Every file of both sets' packages of other names is still there; one that the newer took over counts as there.
for package in "$1"/*.deb "$2"/*.deb; do
    name=$(basename "$package")
    name=${name%%_*}
    inside "$system" dpkg -V "$name" | grep -v ' c /' | sed "s/^/$name: /" || :
done >"$work/changed.txt"
if [ -s "$work/changed.txt" ]; then
    cat "$work/changed.txt"
    exit 1
fi
inside "$system" dpkg -l '*ferrule*' | awk '/^ii/ {print $2, $3}'
