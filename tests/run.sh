#!/bin/sh
# SPDX-License-Identifier: MIT
# Installs what the tests need (Debian), then runs all of them and prints what was done and how long it took.
# Each step's output goes to build/log/STEP.txt and is shown where the step failed. Exit status 0: all passed.
# Usage: sh tests/run.sh [STEP...]   without steps: all of them
set -u
cd "$(dirname "$0")/.." || exit 1
. tests/packages.sh

log=build/log
summary=
passed=0
failed=0
wanted=" $* "
mkdir -p "$log"

# step NAME COMMAND...: runs a command, unless other steps were asked for.
step() {
    name=$1
    shift
    case $wanted in '  ' | *" $name "*) ;; *) return 0 ;; esac
    [ ! -t 1 ] || printf '%-12s ' "$name"
    start=$(date +%s)
    if "$@" >"$log/$name.txt" 2>&1 </dev/null; then
        verdict=passed
        passed=$((passed + 1))
    else
        verdict=FAILED
        failed=$((failed + 1))
    fi
    line=$(printf '%-12s %s %4d s' "$name" "$verdict" $(($(date +%s) - start)))
    [ ! -t 1 ] || printf '\r'
    echo "$line"
    [ "$verdict" = passed ] || tail -n 80 "$log/$name.txt"
    summary="$summary$line
"
}

ours() {
    git ls-files "$@"
}

sanitize() {
    # The leak check needs ptrace, which some containers forbid: it is left out where a program without leaks fails.
    echo 'int main(void) { return 0; }' >build/leak.c
    clang -fsanitize=address build/leak.c -o build/leak || return 1
    if ! build/leak; then
        export ASAN_OPTIONS=detect_leaks=0
        build/leak || return 1
        echo 'The leak check does not work on this machine and is left out.' >"$log/left_out.txt"
    fi
    cmake --workflow --preset sanitize
}

clang_release() {
    cmake -S . -B build/clang -DCMAKE_BUILD_TYPE=Release -DCMAKE_C_COMPILER=clang -DCMAKE_CXX_COMPILER=clang++ \
        -DFERRULE_PYTHON=OFF -DFERRULE_EXAMPLES=OFF &&
        cmake --build build/clang -j 2 && ctest --test-dir build/clang -j 2 --output-on-failure -R '^c_'
}

format() {
    ours '*.c' '*.h' '*.cpp' | xargs clang-format --dry-run -Werror
}

tidy() {
    ours 'lib/*.c' | xargs clang-tidy -p build/release --quiet
}

# variableScope does not see that a loop carries a variable from one round to the next.
check_code() {
    cppcheck --std=c11 --enable=warning,style,performance,portability --suppress=variableScope --inline-suppr \
        --error-exitcode=1 --quiet -I include -I lib lib
}

manual() {
    cmake --workflow --preset manual && /usr/bin/python3 tests/manual/check_manual.py build/release/manual
}

# Words and signs that may not stand in what is published.
unfinished() {
    ! git grep -nwE 'TO''DO|FIX''ME|XX''X'
}

rm -f "$log/left_out.txt"
step packages install_packages $packages_build $packages_test $packages_languages $packages_platforms $packages_databases $packages_debian
step release cmake --workflow --preset release
step languages cmake --workflow --preset languages
step databases sh tests/sql/run.sh
step sanitize sanitize
step clang clang_release
step coverage /usr/bin/python3 tests/coverage/measure.py
step checks /usr/bin/python3 tests/checks/run.py --short
step format format
step tidy tidy
step cppcheck check_code
step platforms sh tests/platforms/run.sh --ci
step abi /usr/bin/python3 tests/abi/check.py
step licences /usr/bin/python3 cmake/sbom.py --check
step reproducible /usr/bin/python3 tests/reproducible/build_twice.py
step local sh tests/bare/local.sh
step debian sh tests/bare/packages.sh
step wheel /usr/bin/python3 tests/python/wheel.py
step unfinished unfinished
step manual manual
step fuzz sh tests/fuzz/run.sh 30
step breakage /usr/bin/python3 tests/breakage/break_formulas.py die press window
step mutation /usr/bin/python3 tests/breakage/mutate.py --count 12 --lower 75 press.c joint.c compression.c window.c

printf '\n%s' "$summary"
[ ! -f "$log/left_out.txt" ] || cat "$log/left_out.txt"
[ "$failed" = 0 ] || echo "See $log."
echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
