#!/bin/sh
# SPDX-License-Identifier: MIT
# Runs a command beside a PostgreSQL server of its own: new data folder, a socket and no port, stopped at the end.
# Usage: server.sh WORK_FOLDER EXTENSION_FOLDER COMMAND...   EXTENSION_FOLDER: ferrule.so, ferrule.control, ferrule--*.sql
# The command finds PGHOST, PGUSER, PGDATABASE in its environment. The work folder has to be reachable by any user,
# since the server does not run as root: as root it runs as the user postgres.
set -eu
work=$1
extension=$2
shift 2
programs=$(pg_config --bindir)
rm -rf "$work"
mkdir -p "$work"
work=$(cd "$work" && pwd)
# The server reads extensions only from its own folders: a copy of them that holds ours, and links to all the rest.
