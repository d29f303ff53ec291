#!/bin/sh
# SPDX-License-Identifier: MIT
# A small shop's database with set-ups and verdicts as views; all data invented. Prints the set-up sheet, the verdicts, and what
# the check constraints say to data that cannot be right.
# Usage: sh examples/erp/run.sh [MODULE]          in SQLite, a database in memory; MODULE: mod_ferrule, with its folder
#        sh examples/erp/run.sh --postgresql      in PostgreSQL: the database that psql finds (PGHOST, PGDATABASE ...), a
#                                                 schema ferrule_erp, which is made anew
set -eu
here=$(dirname "$0")

if [ "${1-}" = --postgresql ]; then
    database() { PGOPTIONS='-c client_min_messages=error -c search_path=ferrule_erp,public' psql -qAtX "$@"; }
    database -v ON_ERROR_STOP=1 -c 'CREATE EXTENSION IF NOT EXISTS ferrule' \
        -c 'DROP SCHEMA IF EXISTS ferrule_erp CASCADE' -c 'CREATE SCHEMA ferrule_erp' -f "$here/schema.sql" \
        -f "$here/data.sql" -f "$here/postgresql/documents.sql" -f "$here/views.sql" \
        -f "$here/postgresql/remarks.sql" -f "$here/postgresql/release.sql" -f "$here/postgresql/records.sql" \
        -f "$here/report.sql"
    refused=$(database -f "$here/refused.sql" 2>&1) || true
else
    module=${1-}
    for found in build/release/sqlite; do
        [ -n "$module" ] || [ ! -f "$here/../../$found/mod_ferrule.so" ] || module=$here/../../$found/mod_ferrule
    done
    if [ -z "$module" ]; then
        echo 'No mod_ferrule.so: build with -DFERRULE_SQLITE=ON, or say where it is.' >&2
        exit 2
    fi
    database() { sqlite3 -batch "$@"; }
    name=${FERRULE_ERP_FILE:-$(mktemp)}
    [ -n "${FERRULE_ERP_FILE-}" ] || trap 'rm -f "$name"' EXIT
    database -bail -cmd ".load $module" "$name" <<END
.read $here/schema.sql
.read $here/data.sql
.read $here/sqlite/documents.sql
.read $here/views.sql
.read $here/sqlite/remarks.sql
.read $here/sqlite/release.sql
.read $here/sqlite/records.sql
.read $here/report.sql
END
    refused=$(database -cmd ".load $module" "$name" <"$here/refused.sql" 2>&1) || true
fi

echo 'Refused:'
echo "$refused" | sed -n 's/.*\(fer_[a-z_]*: .*\)/- \1/p' | sed 's/ \[[A-Z_]*\]$//'
