#!/bin/sh
# SPDX-License-Identifier: MIT
# The second engine: AFL++ on the same checks, without sanitizers but with guards behind every block.
# Usage: sh tests/guard/fuzz/afl.sh [SECONDS] [TARGET...]   15 minutes, structs and lists, where nothing else is said
set -u
cd "$(dirname "$0")/../../.." || exit 1
. tests/packages.sh
seconds=900
case ${1:-} in [0-9]*) seconds=$1 && shift ;; esac
[ $# -gt 0 ] || set -- structs lists
build=build/afl

install_packages $packages_build $packages_fuzz afl++ || exit 1
cmake -S . -B $build -DCMAKE_BUILD_TYPE=Debug -DCMAKE_C_FLAGS=-O2 -DCMAKE_C_COMPILER=afl-clang-fast \
    -DCMAKE_CXX_COMPILER=afl-clang-fast++ -DFERRULE_FUZZ=ON -DFERRULE_EXAMPLES=OFF -DFERRULE_PYTHON=OFF >$build.txt 2>&1 &&
    cmake --build $build -j 2 --target fuzzers >>$build.txt 2>&1 || { tail -n 40 $build.txt; exit 1; }
/usr/bin/python3 -B tests/guard/fuzz/keep.py --unpack $build/seeds || exit 1
export AFL_NO_UI=1 AFL_SKIP_CPUFREQ=1 AFL_NO_AFFINITY=1 AFL_I_DONT_CARE_ABOUT_MISSING_CRASHES=1 AFL_FAST_CAL=1
for target in "$@"; do
    afl-fuzz -V "$seconds" -t 10000+ -m none -i "$build/seeds/$target" -o "$build/afl_$target" -- \
        "$build/tests/guard/fuzz/fuzz_$target" >"$build/$target.txt" 2>&1 &
done
wait
for target in "$@"; do
    echo "$target:" $(grep -E '^(run_time|execs_done|corpus_count|edges_found|saved_crashes|saved_hangs)' "$build/afl_$target/default/fuzzer_stats" |
        tr -s ' ' | tr '\n' ',')
    grep -q '^saved_crashes *: 0' "$build/afl_$target/default/fuzzer_stats" || failed=1
done
exit "${failed:-0}"
