#!/bin/sh
# Runs a program with a PostgreSQL server of its own beside it: sh with_postgresql.sh PROGRAM [ARGUMENT...]
# The program finds the server's address in SAPDRAW_TEST_POSTGRESQL. The server lives in a scratch folder and is gone afterwards.
set -eu
bin=$(ls -d /usr/lib/postgresql/*/bin 2>/dev/null | tail -n 1)
[ -x "$bin/initdb" ] || { echo 'with_postgresql: expected the package postgresql to be installed' >&2; exit 1; }
folder=$(mktemp -d)
# The server refuses to run as root.
if [ "$(id -u)" -eq 0 ]; then
  chown postgres "$folder"
  as_server() { setpriv --reuid postgres --regid postgres --clear-groups "$@"; }
else
  as_server() { "$@"; }
fi
stop() {
  as_server "$bin/pg_ctl" -D "$folder/data" -m immediate stop >/dev/null 2>&1 || true
  rm -rf "$folder"
}
trap stop EXIT
trap 'exit 1' INT TERM
cd "$folder"
as_server "$bin/initdb" -D data -A trust -E UTF8 --locale=C.UTF-8 -U book >log 2>&1 || { cat log >&2; exit 1; }
port=$(python3 -c 'import socket; s = socket.socket(); s.bind(("127.0.0.1", 0)); print(s.getsockname()[1])')
as_server "$bin/pg_ctl" -D data -o "-k $folder -p $port -c listen_addresses=127.0.0.1" -w -l "$folder/data/log" start >/dev/null || { cat data/log >&2; exit 1; }
cd "$OLDPWD"
SAPDRAW_TEST_POSTGRESQL="postgresql://book@127.0.0.1:$port/postgres"
export SAPDRAW_TEST_POSTGRESQL
"$@"
