#!/bin/sh
# SPDX-License-Identifier: MIT
# The commands of the README, in a clone of the commit that is checked out, on a bare Debian 12 that has nothing but git,
# sh and apt. Needs root and debootstrap; takes what the tests take, and the time to fetch all packages.
# Usage: sh tests/release/bare/run.sh [--record] [COMMAND...]   without commands: those of the README
# --record writes tests/release/proof/records/bare.json. Exit status 0: all commands passed.
set -eu
cd "$(dirname "$0")/../../.."
. tests/packages.sh
. tests/release/bare/system.sh
own_mounts "$0" "$@"
install_packages debootstrap
record=
if [ "${1:-}" = --record ]; then
    record=yes
    shift
fi
if [ $# = 0 ]; then
    # Shown as `sh NAME.sh    # what it does`.
    set --
    for script in $(sed -n 's/^sh \([a-z/]*\.sh\) .*/\1/p' README.md); do
        set -- "$@" "sh $script"
    done
fi
[ $# != 0 ]

mkdir -p build/bare
system=$(mktemp -d "$PWD/build/bare/system.XXXXXX")
trap 'umount -R -l "$system/proc" "$system/dev" 2>/dev/null || :; rm -rf --one-file-system "$system"' EXIT
bare_system "$system"
enter "$system"
count=$(inside "$system" dpkg-query -W -f='.' | wc -c)
echo "$count packages on the bare system"
mkdir -p "$system/home/user"
git clone -q . "$system/home/user/ferrule"

failed=0
for command in "$@"; do
    start=$(date +%s)
    code=0
    inside "$system" sh -c "cd /home/user/ferrule && $command" >build/bare/output.txt 2>&1 || code=$?
    seconds=$(($(date +%s) - start))
    cat build/bare/output.txt
    echo "exit status $code after $seconds s: $command"
    [ "$code" = 0 ] || failed=1
    # A record names no folder of one machine.
    last=$(tail -n 1 build/bare/output.txt | sed 's,file:///home/user/ferrule/,,')
    printf '%s\t%s\t%s\t%s\n' "$command" "$code" "$seconds" "$last" >>"$system/rows"
done
[ ! "$record" ] || /usr/bin/python3 tests/release/bare/record.py bare "$system/rows" "$count"
exit "$failed"
