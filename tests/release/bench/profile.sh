#!/bin/sh
# SPDX-License-Identifier: MIT
# Where the instructions go, counted by valgrind (which has no 512-bit vectors: trials take the narrow way).
# Usage, in the project's folder after `cmake --workflow --preset release`: sh tests/release/bench/profile.sh > tests/release/bench/profile.txt
set -eu
build=${1:-build/release}
counts=$(mktemp)
trap 'rm -f "$counts"' EXIT
valgrind --tool=callgrind --callgrind-out-file="$counts" "$build/tests/release/bench/profile" >/dev/null 2>&1
echo "Instructions: 100,000 scalar crimp diameters, 100,000 rows plain and 100,000 rows with ends free in bulk,"
echo "10,000 exact shares one by one and 10,000 in bulk, 4 blocks of trials."
callgrind_annotate --inclusive=yes "$counts" | sed -n '/^Ir/,$p' | grep -E ':(fer_[a-z_]*|[a-z_]*in_bulk|main|PROGRAM)|PROGRAM' | sed "s/ \[.*//; s/???://" | head -60
