#!/bin/sh
# SPDX-License-Identifier: MIT
# Uses what is installed, as somebody who has no source tree: C by pkg-config, every language, the manual.
# Usage, in the system: sh try_packages.sh FOLDER   FOLDER: copies of docs/examples and tests/install/outside
# NAMES of what to try may follow; without: all. Exit status 0: all of it works.
set -eu
cd "$1"
shift
[ $# != 0 ] || set -- c python bulk lua tcl perl ruby manual

same() {
    [ "$1" = "$2" ] || {
        printf '%s: printed\n%s\nnot\n%s\n' "$thing" "$1" "$2" >&2
        exit 1
    }
}

try_c() {
    cc -std=c11 -Wall -Werror outside.c -o shared $(pkg-config --cflags --libs ferrule)
    same "$(./shared)" "23.51 mm"
    cc -std=c11 -Wall -Werror outside.c -o static $(pkg-config --cflags ferrule) -l:libferrule.a -lm
    same "$(./static)" "23.51 mm"
    readelf -d shared | grep -q 'NEEDED.*libferrule\.so\.[0-9]*\]'
}

try_python() {
    same "$(/usr/bin/python3 embed.py)" "$(cat embed.txt)"
    same "$(/usr/bin/python3 quick.py)" "$(cat quick.txt)"
}

try_bulk() {
    same "$(/usr/bin/python3 bulk_arrays.py)" "$(cat bulk_arrays.txt)"
}

try_lua() {
    same "$(lua5.4 embed.lua 2>&1)" "$(cat embed_lua.txt)"
}

try_tcl() {
    same "$(tclsh8.6 embed.tcl 2>&1)" "$(cat embed_tcl.txt)"
}

try_perl() {
    same "$(/usr/bin/perl embed.pl 2>&1)" "$(cat embed_pl.txt)"
}

try_ruby() {
    same "$(/usr/bin/ruby embed.rb 2>&1)" "$(cat embed_rb.txt)"
}

try_manual() {
    test -s /usr/share/doc/ferrule-doc/html/index.html
    test -s /usr/share/doc/ferrule-doc/html/mathjax/MathJax.js
}

for thing in "$@"; do
    "try_$thing"
    echo "$thing: works"
done
