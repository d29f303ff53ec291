#!/bin/sh
# SPDX-License-Identifier: MIT
# Installs the packages of all languages on a bare system (Debian), and runs the manual's examples there with nothing but the
# interpreters, outside the source tree and while that is away. Prints one line per language.
# Usage: BARE_SYSTEM=yes sh tests/agree/languages/bare_system.sh    as root; it installs below /usr, so only where nothing can be spoiled
set -eu
[ "${BARE_SYSTEM:-}" = yes ] || {
    echo "This installs below /usr. Run it on a system that may be thrown away: BARE_SYSTEM=yes sh $0" >&2
    exit 2
}
cd "$(dirname "$0")/../../.."
. tests/packages.sh
install_packages $packages_build $packages_languages

cmake --preset languages -DCMAKE_INSTALL_PREFIX=/usr >/dev/null
cmake --build --preset languages >build/build.txt 2>&1 || { tail -n 40 build/build.txt; exit 1; }
cmake --build build/release -j 2 >build/build.txt 2>&1 || { tail -n 40 build/build.txt; exit 1; }
cmake --install build/release >/dev/null

source=$(pwd)
outside=$(mktemp -d)
cp docs/examples/embed* "$outside"
cd "$outside"
mv "$source" "$source.away"
trap 'mv "$source.away" "$source"' EXIT
failed=0
# try NAME EXPECTED COMMAND...
try() {
    name=$1
    expected=$2
    shift 2
    if "$@" >said.txt 2>&1 && cmp -s said.txt "$expected"; then
        echo "$name=installed by cmake --install, example runs"
    else
        echo "$name=failed"
        cat said.txt
        failed=1
    fi
}
try python embed.txt /usr/bin/python3 embed.py
try lua embed_lua.txt lua5.4 embed.lua
try tcl embed_tcl.txt tclsh8.6 embed.tcl
try perl embed_pl.txt perl embed.pl
try ruby embed_rb.txt ruby embed.rb
try java embed_java.txt java -cp /usr/share/java/ferrule.jar embed.java
assembly=$(find /usr/lib -name Ferrule.dll)
mcs -r:"$assembly" -out:embed.exe embed.cs
try csharp embed_cs.txt env MONO_PATH="$(dirname "$assembly")" mono embed.exe
lua5.4 -e 'assert(#require("ferrule").help("crimp_diameter") > 500)' &&
    ruby -rferrule -e 'exit Ferrule.help("crimp_diameter").size > 500' &&
    perl -MFerrule -e 'exit !(length Ferrule::help("crimp_diameter") > 500)' &&
    echo 'package require ferrule; exit [expr {[string length [ferrule::help crimp_diameter]] <= 500}]' | tclsh8.6 &&
    /usr/bin/python3 -c 'import ferrule; assert len(ferrule.crimp_diameter.__doc__) > 500' || { echo 'help does not help'; failed=1; }
exit "$failed"
