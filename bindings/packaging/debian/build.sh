#!/bin/sh
# SPDX-License-Identifier: MIT
# Makes the Debian packages of a commit, and looks at them with lintian.
# Usage: sh bindings/packaging/debian/build.sh [--short] [FOLDER [COMMIT]]   packages and lintian.txt go to FOLDER, build/debian when left out;
# COMMIT: what is checked out, when left out
# Version and soname come from include/ferrule/version.h, the date from the commit: the same commit gives the same bytes.
# --short leaves out the debugging symbols, and does not install the 300 MB that PostgreSQL's headers depend on.
# Exit status 0: built, and lintian knows no error.
set -eu
cd "$(dirname "$0")/../../.."
. tests/packages.sh
. tests/agree/sql/headers.sh
short=
if [ "${1-}" = --short ]; then
    short=-d
    shift
fi
install_packages $packages_build $packages_languages $packages_databases $packages_debian \
    libjson-c-dev libsqlite3-dev libjs-mathjax python3-numpy python3-matplotlib python3-tqdm
if [ "$short" ]; then
    POSTGRESQL_HEADERS=$(postgresql_headers)
    export POSTGRESQL_HEADERS DEB_BUILD_OPTIONS=noautodbgsym
else
    install_packages postgresql-server-dev-15
fi

folder=${1:-build/debian}
commit=$(git rev-parse "${2:-HEAD}")
mkdir -p "$folder"
folder=$(cd "$folder" && pwd)

number() {
    git show "$commit:include/ferrule/version.h" | sed -n "s/^#define FER_VERSION_$1 \([0-9]*\).*/\1/p"
}
version=$(number MAJOR).$(number MINOR).$(number PATCH)
abi=$(number ABI)

# Everything that is there would be taken for a result.
rm -rf "$folder/source" "$folder"/*.deb "$folder"/*.buildinfo "$folder"/*.changes "$folder/lintian.txt"
source=$folder/source/ferrule-$version
mkdir -p "$source"
git archive "$commit" | tar -x -C "$source"
mv "$source/bindings/packaging/debian" "$source/debian"
/usr/bin/python3 -B "$source/bindings/api/symbols.py" --debian >"$source/debian/libferrule$abi.symbols"
grep -q "^Package: libferrule$abi\$" "$source/debian/control" || {
    echo "The soname is libferrule.so.$abi: debian/control and the files of the library package must be named after it." >&2
    exit 1
}
grep -q "^Package: libferrule$(number MAJOR).$(number MINOR)-cil\$" "$source/debian/control" || {
    echo "The assembly is Ferrule $(number MAJOR).$(number MINOR): debian/control and the files of its package must be named after it." >&2
    exit 1
}
cat >"$source/debian/changelog" <<END
ferrule ($version-1) unstable; urgency=medium

  * The library's changes are in its own list of changes.

 -- $(sed -n 's/^Maintainer: //p' "$source/debian/control")  $(git log -1 --format=%cD "$commit")
END

(cd "$source" && LC_ALL=C.UTF-8 dpkg-buildpackage -us -uc -b $short) >"$folder/build.txt" 2>&1 || {
    tail -n 60 "$folder/build.txt"
    exit 1
}
mv "$folder"/source/*.deb "$folder"/source/*.buildinfo "$folder"/source/*.changes "$folder"
rm -rf "$folder/source"
code=0
# No bug of Debian's asked for these packages.
lintian --allow-root --fail-on error,warning --suppress-tags initial-upload-closes-no-bugs "$folder"/*.changes >"$folder/lintian.txt" 2>&1 || code=$?
cat "$folder/lintian.txt"
ls -l "$folder"/*.deb | awk '{n = split($9, part, "/"); printf "%9d bytes  %s\n", $5, part[n]}'
exit "$code"
