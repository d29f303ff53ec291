#!/bin/sh
# SPDX-License-Identifier: MIT
# The library on bare microcontrollers: installs the compiler (Debian), then sizes, stack, what is needed.
# Usage: sh tests/guard/platforms/freestanding.sh [--record]
set -u
cd "$(dirname "$0")/../../.." || exit 1
. tests/packages.sh
install_packages cmake make python3 gcc-arm-none-eabi libnewlib-arm-none-eabi || exit 1
exec /usr/bin/python3 tests/guard/platforms/freestanding.py "$@"
