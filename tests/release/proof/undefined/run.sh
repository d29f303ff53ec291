#!/bin/sh
# SPDX-License-Identifier: MIT
# No undefined behaviour, proven with Frama-C's Eva: installs it (862 MB) and runs run.py, which takes an hour or more.
# Usage: sh tests/release/proof/undefined/run.sh [NAME...]   as run.py
set -eu
cd "$(dirname "$0")/../../../.."
. tests/packages.sh
install_packages python3 $packages_proof
exec /usr/bin/python3 -B tests/release/proof/undefined/run.py "$@"
