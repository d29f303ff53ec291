#!/bin/sh
# SPDX-License-Identifier: MIT
# The tables of this folder in a database, and the decision on each press as a view; all data invented. A cell that cannot be read ends it.
# Usage: sh examples/quality/run.sh [MODULE [FOLDER]]           in SQLite, in memory; MODULE: mod_ferrule, with its folder
#        sh examples/quality/run.sh --postgresql [FOLDER]       in PostgreSQL: the database that psql finds (PGHOST, PGDATABASE ...), a
#                                                               schema ferrule_quality, which is made anew
# FOLDER: the tables (usual: those beside this script), their columns in the order of schema.sql.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
tables='batch crimps study blocks bursts gauge'
rows() { case $1 in crimps | blocks | bursts) echo "${1%s}_rows" ;; *) echo "$1_rows" ;; esac }

if [ "${1-}" = --postgresql ]; then
    cd "${2-$here}"
    database() { PGOPTIONS='-c client_min_messages=error -c search_path=ferrule_quality,public' psql -qAtX -v ON_ERROR_STOP=1 "$@"; }
    {
        cat "$here/schema.sql"
        for table in $tables; do
            printf '%s\n' "\\copy $(rows "$table") FROM PROGRAM 'grep -v ^# $table.csv' CSV HEADER"  # echo reads \c
        done
        cat "$here/views.sql" "$here/postgresql/documents.sql" "$here/decisions.sql" "$here/report.sql"
    } >"${TMPDIR-/tmp}/quality.$$.sql"
    trap 'rm -f "${TMPDIR-/tmp}/quality.$$.sql"' EXIT
    database -c 'CREATE EXTENSION IF NOT EXISTS ferrule' -c 'DROP SCHEMA IF EXISTS ferrule_quality CASCADE' -c 'CREATE SCHEMA ferrule_quality' \
        -f "${TMPDIR-/tmp}/quality.$$.sql"
    exit
fi

module=${1-$here/../../build/release/sqlite/mod_ferrule}
if [ ! -f "$module.so" ]; then
    echo 'No mod_ferrule.so: build with -DFERRULE_SQLITE=ON, or say where it is.' >&2
    exit 2
fi
module=$(cd "$(dirname "$module")" && pwd)/$(basename "$module")
cd "${2-$here}"
{
    echo ".read '$here/schema.sql'"
    for table in $tables; do
        echo ".import --csv --skip 1 \"|grep -v ^# $table.csv\" $(rows "$table")"
    done
    printf ".read '%s'\n" "$here/views.sql" "$here/sqlite/documents.sql" "$here/decisions.sql" "$here/report.sql"
} | sqlite3 -batch -bail -cmd ".load '$module'" "${FERRULE_QUALITY_FILE-:memory:}"
