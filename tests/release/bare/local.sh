#!/bin/sh
# SPDX-License-Identifier: MIT
# Installs from source to /usr/local in a layer over this system, uses it there without telling any language where to look,
# removes it by the target uninstall; nothing may be left. The same with the databases' parts. Then the archive that cpack makes.
# Usage: sh tests/release/bare/local.sh   as root; takes build/release, and builds what is missing in it
set -eu
cd "$(dirname "$0")/../../.."
. tests/packages.sh
. tests/release/bare/system.sh
. tests/agree/sql/headers.sh
own_mounts "$0" "$@"
here=$PWD
mkdir -p build
work=$(mktemp -d "$here/build/local.XXXXXX")
trap 'umount -R -l "$work/layer" 2>/dev/null || :; rm -rf --one-file-system "$work"' EXIT

install_packages $packages_build $packages_languages $packages_databases
{
    build_databases && cmake --preset languages && cmake --build build/release -j 2 --target languages ferrule ferrule_static ferrule_ufuncs
} \
    >"$work/build.txt" 2>&1 || {
    tail -n 30 "$work/build.txt"
    exit 1
}

layer "$work/layer" / || {
    mkdir -p build/log
    echo "Installing to /usr/local was not tried: layers cannot be mounted here." | tee -a build/log/left_out.txt
    exit 0
}
system=$work/layer/system
enter "$system"
mkdir -p "$system/tmp/try"
cp docs/examples/* tests/guard/install/outside/outside.c tests/release/bare/try_packages.sh "$system/tmp/try"
ours() {
    changes "$work/layer" / | grep -vF ": $here/" | grep -vxFf "$work/before.txt" || :
}
install_all() {
    inside "$system" sh -c "cmake --install '$here/build/release' --prefix /usr/local && ldconfig" >/dev/null
    for component in sqlite postgresql; do
        inside "$system" cmake --install "$here/build/release" --prefix /usr/local --component "$component" >/dev/null
    done
}
remove_all() {
    inside "$system" cmake --build "$here/build/release" --target uninstall >/dev/null
}
# Once without looking: what somebody installed here before is gone then, and counts neither as added nor as taken.
: >"$work/before.txt"
install_all
remove_all
ours >"$work/now.txt"
mv "$work/now.txt" "$work/before.txt"

install_all
count=$(ours | grep -c .)
inside "$system" sh /tmp/try/try_packages.sh /tmp/try c python bulk lua tcl perl ruby java csharp sqlite postgresql
remove_all
left=$(ours)
if [ "$left" ] || [ "$count" -lt 40 ]; then
    echo "$count files and folders installed; left after removing them: $left"
    exit 1
fi
echo "$count files and folders installed to /usr/local and for the databases, all of them gone after removing them"

inside "$system" sh -c "cd '$here/build/release' && cpack -B /tmp/packed >/dev/null && tar -C /tmp/packed -xzf /tmp/packed/*.tar.gz"
packed=$(cd "$system/tmp/packed" && find ./ferrule-*/ -type f | sed 's,^\./[^/]*/,,')
for name in include/ferrule/ferrule.h lib/libferrule.a lib/pkgconfig/ferrule.pc share/lua/5.4/ferrule.lua; do
    echo "$packed" | grep -qxF "$name" || {
        printf '%s is not in the archive, which has\n%s\n' "$name" "$packed"
        exit 1
    }
done
echo "$(echo "$packed" | wc -l) files in the archive"
