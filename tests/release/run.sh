#!/bin/sh
# SPDX-License-Identifier: MIT
# The release check: all tests, then everything that the records of tests/release/proof say how to repeat, the bare machine included.
# It takes hours, and root. Each command's output goes to build/log/release/NUMBER.txt.
# Usage: sh tests/release/run.sh [--list] [WORD...]   --list: only show the commands; WORD: only commands that have it in them
# Exit status 0: all passed, nothing is uncommitted, and docs/CHANGELOG.md knows the version.
set -u
cd "$(dirname "$0")/../.." || exit 1
list=
if [ "${1:-}" = --list ]; then
    list=yes
    shift
fi
log=build/log/release
mkdir -p "$log"

# A record is all it takes to be part of the release check. What tests/run.sh does is done once, as a whole.
/usr/bin/python3 - >"$log/commands.txt" <<'END' || exit 1
import sys
sys.path.insert(0, "tests/release/proof")
import record
commands = [command for found in record.load().values() for command in found["commands"]]
others = [command for command in commands if not command.startswith("sh tests/run.sh")]
print(*dict.fromkeys(["sh tests/run.sh", "sh tests/run.sh all", "sh tests/release/bare/run.sh",
                     "/usr/bin/python3 tests/agree/python/numpy_two.py", "/usr/bin/python3 tests/release/bench/bench_many_rows.py", *others]), sep="\n")
END

passed=0
failed=0
number=0
version=$(sed -n 's/^#define FER_VERSION_[MP][A-Z]* \([0-9]*\).*/\1/p' include/ferrule/version.h | paste -sd .)
if [ ! "$list" ]; then
    if grep -q "^## $version, " docs/CHANGELOG.md && [ -z "$(git status --porcelain)" ]; then
        passed=1
    else
        echo "FAILED  version $version is not dated in docs/CHANGELOG.md, or something is uncommitted"
        failed=1
    fi
fi
while read -r command <&3; do
    number=$((number + 1))
    chosen=yes
    for word in "$@"; do
        case $command in *"$word"*) chosen=yes && break ;; *) chosen= ;; esac
    done
    [ "$chosen" ] || continue
    if [ "$list" ]; then
        echo "$command"
        continue
    fi
    start=$(date +%s)
    if sh -c "$command" >"$log/$number.txt" 2>&1 </dev/null; then
        verdict=passed
        passed=$((passed + 1))
    else
        verdict=FAILED
        failed=$((failed + 1))
    fi
    printf '%s %5d s  %s\n' "$verdict" $(($(date +%s) - start)) "$command"
done 3<"$log/commands.txt"
[ ! "$list" ] || exit 0

echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
