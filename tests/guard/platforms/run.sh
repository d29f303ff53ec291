#!/bin/sh
# SPDX-License-Identifier: MIT
# The same answer everywhere: installs the compilers and emulators (Debian), builds for each target, compares the bits.
# Usage: sh tests/guard/platforms/run.sh [--ci] [--record] [TARGET...]    without targets: all, about 1 GB of packages
set -u
cd "$(dirname "$0")/../../.." || exit 1
. tests/packages.sh
# shellcheck disable=SC2046
install_packages cmake make gcc clang python3 $(/usr/bin/python3 tests/guard/platforms/run.py --packages "$@") || exit 1
exec /usr/bin/python3 tests/guard/platforms/run.py "$@"
