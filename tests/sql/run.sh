#!/bin/sh
# SPDX-License-Identifier: MIT
# Builds the SQL functions for SQLite and PostgreSQL into build/release and tests them. Installs what is missing (Debian).
# Usage: sh tests/sql/run.sh [--record]   --record: writes what was measured into tests/proof/records/databases.json
set -eu
cd "$(dirname "$0")/../.."
. tests/packages.sh
install_packages $packages_build $packages_databases python3-numpy valgrind

# The package with the server's headers depends on a compiler and its libraries of 300 MB, of which none is used here:
# where it is not installed it is only unpacked.
headers=$(/usr/lib/postgresql/15/bin/pg_config --includedir-server)
if [ ! -f "$headers/postgres.h" ]; then
    unpacked=$PWD/build/postgresql-headers
    if [ ! -f "$unpacked$headers/postgres.h" ]; then
        mkdir -p "$unpacked"
        (cd "$unpacked" && { apt-get download -qq postgresql-server-dev-15 || { apt-get update -qq && apt-get download -qq postgresql-server-dev-15; }; } &&
            dpkg-deb -x postgresql-server-dev-15_*.deb .)
    fi
    headers=$unpacked$headers
fi

cmake --preset databases -DPG_CONFIG=/usr/lib/postgresql/15/bin/pg_config -DFERRULE_POSTGRESQL_INCLUDE_DIR="$headers"
cmake --build --preset databases
ctest --preset databases
if [ "${1-}" = --record ]; then
    FERRULE_PYTHON_PATH=build/release/python PYTHONDONTWRITEBYTECODE=1 /usr/bin/python3 tests/sql/check_sql.py record build/release
fi
