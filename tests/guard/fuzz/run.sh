#!/bin/sh
# SPDX-License-Identifier: MIT
# Builds the fuzzers under the address and undefined-behaviour sanitizers and runs them, two at a time, from the committed
# inputs (tests/guard/fuzz/corpus). What they find new stays in build/fuzz/found, what breaks a promise in build/fuzz/broken.
# Usage: sh tests/guard/fuzz/run.sh [SECONDS] [TARGET...]   SECONDS for each target: 30 where not given; TARGETs: all
# The last two, which share most of their code with others, run half as long where it is less than a minute.
# After a long run, /usr/bin/python3 tests/guard/fuzz/keep.py shortens what was found and writes the record.
set -u
cd "$(dirname "$0")/../../.." || exit 1
. tests/packages.sh
. tests/agree/sql/headers.sh
seconds=30
case ${1:-} in [0-9]*) seconds=$1 && shift ;; esac
targets=${*:-text structs lists trials python sql numpy postgresql}
build=build/fuzz

install_packages $packages_build $packages_fuzz $packages_databases || exit 1
headers=$(postgresql_headers) || exit 1
cmake -S . -B $build -DCMAKE_BUILD_TYPE=Debug -DCMAKE_C_FLAGS=-O1 -DCMAKE_C_COMPILER=clang -DCMAKE_CXX_COMPILER=clang++ \
    -DFERRULE_FUZZ=ON -DFERRULE_SANITIZE=address,undefined -DFERRULE_EXAMPLES=OFF -DFERRULE_SQLITE=ON -DFERRULE_POSTGRESQL=ON \
    -DPG_CONFIG=/usr/lib/postgresql/15/bin/pg_config -DFERRULE_POSTGRESQL_INCLUDE_DIR="$headers" >$build.txt 2>&1 &&
    cmake --build $build -j 2 --target fuzzers >>$build.txt 2>&1 || { tail -n 40 $build.txt; exit 1; }

/usr/bin/python3 -B tests/guard/fuzz/keep.py --unpack $build/seeds || exit 1

# Leaks can only be looked for where ptrace is allowed.
echo 'int main(void) { return 0; }' >$build/leak.c
clang -fsanitize=address $build/leak.c -o $build/leak && $build/leak 2>/dev/null || export ASAN_OPTIONS=detect_leaks=0
export UBSAN_OPTIONS=print_stacktrace=1

# play TARGET SECONDS. The leak check takes what Python holds behind the headers of its collector for lost, which with NumPy is
# much.
play() {
    if [ "$1" = postgresql ]; then
        /usr/bin/python3 -B tests/guard/fuzz/fuzz_postgresql.py $build run "$2" "$build/found/$1" "$build/seeds/$1"
    else
        leaks=
        [ "$1" != numpy ] || leaks=:detect_leaks=0
        ASAN_OPTIONS="${ASAN_OPTIONS:-}$leaks" "$build/tests/guard/fuzz/fuzz_$1" -max_total_time="$2" -timeout=60 -rss_limit_mb=4096 -max_len=600 -len_control=0 \
            -print_final_stats=1 -artifact_prefix="$build/broken/$1-" "$build/found/$1" "$build/seeds/$1"
    fi
}

run() {
    mkdir -p "$build/found/$1" "$build/broken"
    limit=$seconds
    case $1 in numpy | postgresql) [ "$seconds" -ge 60 ] || limit=$((seconds / 2)) ;; esac
    play "$1" "$limit" >"$build/$1.txt" 2>&1
    status=$?
    printf '%-10s %8s runs, %s\n' "$1" "$(sed -n 's/^stat::number_of_executed_units: *//p' "$build/$1.txt")" \
        "$(grep -E 'INITED|NEW|REDUCE|pulse|DONE' "$build/$1.txt" | tail -n 1 | sed 's/.*\(cov: [0-9]* ft: [0-9]* corp: [^ ]*\).*/\1/')"
    [ $status = 0 ] || { echo "$1 FAILED"; grep -avE '(NEW|REDUCE|RELOAD|pulse|DONE|INITED) |^    #1[0-9]' "$build/$1.txt" | tail -n 60; return 1; }
}

failed=0
set -- $targets
while [ $# -gt 0 ]; do
    run "$1" &
    first=$!
    if [ $# -gt 1 ]; then
        shift
        run "$1" || failed=1
    fi
    wait $first || failed=1
    shift
done
exit $failed
