# SPDX-License-Identifier: MIT
# To be read by a script: . tests/agree/sql/headers.sh

# postgresql_headers: prints the folder of the PostgreSQL server's headers. The package that has them depends on a compiler
# and its libraries of 300 MB, of which none is used here: where it is not installed it is only unpacked, below build.
postgresql_headers() {
    headers=$(/usr/lib/postgresql/15/bin/pg_config --includedir-server) || return 1
    if [ ! -f "$headers/postgres.h" ]; then
        unpacked=$PWD/build/postgresql-headers
        if [ ! -f "$unpacked$headers/postgres.h" ]; then
            mkdir -p "$unpacked"
            (cd "$unpacked" && { apt-get download -qq postgresql-server-dev-15 || { apt-get update -qq && apt-get download -qq postgresql-server-dev-15; }; } &&
                dpkg-deb -x postgresql-server-dev-15_*.deb .) >&2 || return 1
        fi
        headers=$unpacked$headers
    fi
    echo "$headers"
}

# build_databases: the SQL functions, in build/release.
build_databases() {
    built_with=$(postgresql_headers) || return 1
    cmake --preset databases -DPG_CONFIG=/usr/lib/postgresql/15/bin/pg_config -DFERRULE_POSTGRESQL_INCLUDE_DIR="$built_with" &&
        cmake --build --preset databases
}
