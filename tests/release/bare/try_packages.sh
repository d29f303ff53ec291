#!/bin/sh
# SPDX-License-Identifier: MIT
# Uses what is installed, as somebody who has no source tree: C by pkg-config, every language, the manual.
# Usage, in the system: sh try_packages.sh FOLDER   FOLDER: copies of docs/examples and tests/guard/install/outside
# NAMES of what to try may follow; without: all. Exit status 0: all of it works.
set -eu
cd "$1"
shift
[ $# != 0 ] || set -- c python bulk lua tcl perl ruby java csharp sqlite postgresql manual

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

# Where the installation put it, the system's or the local one.
try_java() {
    jar=/usr/share/java/ferrule.jar
    [ -f "$jar" ] || jar=/usr/local/share/java/ferrule.jar
    same "$(java -cp "$jar" embed.java 2>&1)" "$(cat embed_java.txt)"
}

try_csharp() {
    mcs -pkg:ferrule-cil -out:embed.exe embed.cs
    # Of a package the assembly is in Mono's cache.
    [ ! -d /usr/local/lib/cli/ferrule ] || export MONO_PATH=/usr/local/lib/cli/ferrule
    same "$(mono embed.exe 2>&1)" "$(cat embed_cs.txt)"
    unset MONO_PATH
}

question="SELECT round(CAST(fer_crimp_diameter_mm(12.7, 19.9, 12.95, 2.4, 0.2) AS numeric), 6) = 23.51"

# The loader finds it among the system's libraries, not among the local ones.
try_sqlite() {
    module=/usr/local/lib/mod_ferrule
    [ -f "$module.so" ] || module=mod_ferrule
    same "$(sqlite3 :memory: ".load $module" "$question")" 1
}

# A server of its own, which root may not run.
try_postgresql() {
    bin=/usr/lib/postgresql/15/bin
    mkdir server
    chown postgres server
    runuser -u postgres -- "$bin/initdb" -D "$PWD/server/data" -A trust -N >server.txt
    runuser -u postgres -- "$bin/pg_ctl" -D "$PWD/server/data" -w -l "$PWD/server/log" -o "-k $PWD/server -h ''" start >>server.txt
    answer=$(runuser -u postgres -- psql -h "$PWD/server" -qAtX -c "CREATE EXTENSION ferrule" -c "$question" 2>&1) || :
    runuser -u postgres -- "$bin/pg_ctl" -D "$PWD/server/data" -w -m fast stop >>server.txt
    same "$answer" t
}

try_manual() {
    test -s /usr/share/doc/ferrule-doc/html/index.html
    test -s /usr/share/doc/ferrule-doc/html/mathjax/MathJax.js
}

for thing in "$@"; do
    "try_$thing"
    echo "$thing: works"
done
