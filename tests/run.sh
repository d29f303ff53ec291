#!/bin/sh
# SPDX-License-Identifier: MIT
# Installs what the tests need (Debian), runs them, and prints what was done and how many seconds it took. Each step's output
# goes to build/log/STEP.txt and is shown where the step failed. The last line counts; exit status 0: all passed.
# Usage: sh tests/run.sh             what everybody should see pass: C under sanitizers, Python, SQLite, Lua, examples
#        sh tests/run.sh all         that, and all that takes other languages, servers, compilers and longer
#        sh tests/run.sh STEP...     single steps, by the names below
# `all` does not repeat the first steps where they passed on the very same files (build/log/first.txt).
set -u
cd "$(dirname "$0")/.." || exit 1
. tests/packages.sh
. tests/agree/sql/headers.sh

first='packages unit build tests unfinished'
rest='packages_all build_all rest sanitize clang coverage checks rounding format tidy cppcheck platforms abi licences reproducible local
    debian wheel manual new_function fuzz breakage mutation'
log=build/log
summary=
passed=0
failed=0
began=$(date +%s)
mkdir -p "$log"

# ---- the steps -----------------------------------------------------------------------------------------------------------

do_packages() {
    install_packages $packages_build $packages_first
}

# The leak check needs ptrace, which some containers forbid: it is left out where a program without leaks fails.
with_leak_check() {
    echo 'int main(void) { return 0; }' >build/leak.c
    "$1" -fsanitize=address build/leak.c -o build/leak || return 1
    if ! build/leak; then
        export ASAN_OPTIONS=detect_leaks=0
        build/leak || return 1
        echo 'The leak check does not work on this machine and is left out.' >"$log/left_out.txt"
    fi
    shift
    "$@"
}

do_unit() {
    with_leak_check gcc cmake --workflow --preset unit
}

do_build() {
    cmake --preset first && cmake --build --preset first
}

do_tests() {
    do_build && ctest --preset first
}

# Words and signs that may not stand in what is published.
do_unfinished() {
    ! git grep -nwE 'TO''DO|FIX''ME|XX''X'
}

do_packages_all() {
    install_packages $packages_build $packages_first $packages_test $packages_languages $packages_platforms $packages_databases \
        $packages_debian
}

# Every language, database, test and the manual's sources, in the folder of the first build.
do_build_all() {
    headers=$(postgresql_headers) &&
        cmake --preset all -DPG_CONFIG=/usr/lib/postgresql/15/bin/pg_config -DFERRULE_POSTGRESQL_INCLUDE_DIR="$headers" &&
        cmake --build --preset all
}

do_rest() {
    do_build_all && ctest --preset rest
}

do_languages() {
    do_build_all && ctest --preset languages
}

do_databases() {
    do_build_all && ctest --preset databases
}

do_sanitize() {
    with_leak_check clang cmake --workflow --preset sanitize
}

do_clang() {
    cmake -S . -B build/clang -DCMAKE_BUILD_TYPE=Release -DCMAKE_C_COMPILER=clang -DCMAKE_CXX_COMPILER=clang++ \
        -DFERRULE_PYTHON=OFF -DFERRULE_EXAMPLES=OFF -DFERRULE_TESTS=unit &&
        cmake --build build/clang -j 2 && ctest --test-dir build/clang -j 2 --output-on-failure
}

do_coverage() {
    /usr/bin/python3 tests/guard/coverage/measure.py
}

do_checks() {
    /usr/bin/python3 tests/guard/checks/run.py --short
}

do_rounding() {
    /usr/bin/python3 tests/release/proof/rounding/run.py
}

do_format() {
    git ls-files '*.c' '*.h' '*.cpp' | xargs clang-format --dry-run -Werror
}

do_tidy() {
    [ -f build/release/compile_commands.json ] || cmake --preset first || return 1
    git ls-files 'lib/*.c' | xargs -n 3 -P 2 clang-tidy -p build/release --quiet
}

# variableScope does not see that a loop carries a variable from one round to the next.
do_cppcheck() {
    cppcheck -j 2 --std=c11 --enable=warning,style,performance,portability --suppress=variableScope --inline-suppr \
        --error-exitcode=1 --quiet -I include -I lib lib
}

do_platforms() {
    sh tests/guard/platforms/run.sh --ci
}

do_abi() {
    /usr/bin/python3 tests/guard/abi/check.py
}

do_licences() {
    /usr/bin/python3 bindings/packaging/sbom.py --check
}

do_reproducible() {
    /usr/bin/python3 tests/release/reproducible/build_twice.py
}

do_local() {
    sh tests/release/bare/local.sh
}

do_debian() {
    sh tests/release/bare/packages.sh
}

do_wheel() {
    /usr/bin/python3 tests/agree/python/wheel.py
}

do_manual() {
    cmake --workflow --preset manual && /usr/bin/python3 tests/agree/manual/check_manual.py build/release/manual
}

do_new_function() {
    /usr/bin/python3 tests/agree/catalogue/try_new_function.py
}

do_fuzz() {
    sh tests/guard/fuzz/run.sh 30
}

do_breakage() {
    /usr/bin/python3 tests/guard/breakage/break_formulas.py die press window
}

do_mutation() {
    /usr/bin/python3 tests/guard/breakage/mutate.py --count 12 --lowest 75 crimp/press.c crimp/joint.c crimp/compression.c crimp/window.c
}

# ---- running them --------------------------------------------------------------------------------------------------------

# step NAME: runs it; a line of the table.
step() {
    [ ! -t 1 ] || printf '%-12s ' "$1"
    start=$(date +%s)
    if "do_$1" >"$log/$1.txt" 2>&1 </dev/null; then
        verdict=passed
        passed=$((passed + 1))
    else
        verdict=FAILED
        failed=$((failed + 1))
    fi
    line=$(printf '%-12s %s %4d s' "$1" "$verdict" $(($(date +%s) - start)))
    [ ! -t 1 ] || printf '\r'
    echo "$line"
    [ "$verdict" = passed ] || tail -n 80 "$log/$1.txt"
    summary="$summary$line
"
}

# Names the files as they are now, committed or not; nothing where git cannot say it.
tree() {
    rm -f build/index &&
        GIT_INDEX_FILE=build/index git add -A . 2>/dev/null && GIT_INDEX_FILE=build/index git write-tree 2>/dev/null
}

steps=$*
case $steps in
'') steps=$first ;;
all)
    steps="$first $rest"
    if [ -s "$log/first.txt" ] && [ "$(tree)" = "$(cat "$log/first.txt")" ]; then
        echo "The first steps passed on these files and are not repeated."
        steps=$rest
    fi
    ;;
esac
for name in $steps; do
    case " $first $rest languages databases " in
    *[[:space:]]"$name"[[:space:]]*) ;;
    *)
        echo "There is no step $name. Steps:" $first $rest languages databases >&2
        exit 2
        ;;
    esac
done
rm -f "$log/left_out.txt"
for name in $steps; do
    step "$name"
    if [ "$name" = unfinished ] && [ "$steps" != unfinished ]; then
        rm -f "$log/first.txt"
        [ "$failed" != 0 ] || tree >"$log/first.txt"
    fi
done

printf '\n%s%-12s        %4d s\n' "$summary" together $(($(date +%s) - began))
[ ! -f "$log/left_out.txt" ] || cat "$log/left_out.txt"
[ "$failed" = 0 ] || echo "See $log."
echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
