#!/bin/sh
# SPDX-License-Identifier: MIT
# Builds the SQL functions for SQLite and PostgreSQL into build/release and tests them. Installs what is missing (Debian).
# Usage: sh tests/agree/sql/run.sh [--record]   --record: writes what was measured into tests/release/proof/records/databases.json
set -eu
cd "$(dirname "$0")/../../.."
. tests/packages.sh
. tests/agree/sql/headers.sh
install_packages $packages_build $packages_databases python3-numpy valgrind

build_databases
ctest --preset databases
if [ "${1-}" = --record ]; then
    FERRULE_PYTHON_PATH=build/release/python PYTHONDONTWRITEBYTECODE=1 /usr/bin/python3 tests/agree/sql/check_sql.py record build/release
fi
