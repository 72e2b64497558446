#!/usr/bin/env bash
# A throw-away PostgreSQL on loopback for the tests: `tests/postgres.sh start` prints its connection string,
# `tests/postgres.sh stop` ends it and removes its files. Needs the server's binaries (Debian: postgresql).
set -euo pipefail
# A database of its own for every class of tests is a thousand files each: in memory, where there is room, that takes a tenth of the time.
home="${TMPDIR:-/tmp}"
[ "$(df --output=avail /dev/shm 2> /dev/null | tail -n 1)" -gt 4000000 ] 2> /dev/null && [ -w /dev/shm ] && home=/dev/shm
case "$home" in /dev/shm/*) home=/dev/shm ;; esac
[ -d /dev/shm/office-test-postgres ] && home=/dev/shm
where="$home/office-test-postgres"
bin=$(ls -d /usr/lib/postgresql/*/bin 2>/dev/null | tail -n 1)
port=54329
as() { if [ "$(id -u)" = 0 ]; then runuser -u postgres -- "$@"; else "$@"; fi; }
case "${1:-}" in
  start)
    if [ -f "$where/data/postmaster.pid" ] && as "$bin/pg_ctl" -D "$where/data" status > /dev/null 2>&1; then :; else
      rm -rf "$where"; mkdir -p "$where"
      [ "$(id -u)" = 0 ] && chown postgres "$where"
      as "$bin/initdb" -D "$where/data" -U office --auth=trust --encoding=UTF8 --locale=C > "$where/initdb.log" 2>&1
      as "$bin/pg_ctl" -D "$where/data" -w -l "$where/server.log" \
        -o "-p $port -k $where -c listen_addresses=127.0.0.1 -c max_connections=200 -c fsync=off -c full_page_writes=off -c wal_level=minimal -c max_wal_senders=0" start > /dev/null
    fi
    echo "Host=127.0.0.1;Port=$port;Username=office;Database=postgres;Include Error Detail=true"
    ;;
  stop)
    as "$bin/pg_ctl" -D "$where/data" -m immediate stop > /dev/null 2>&1 || true
    rm -rf "$where"
    ;;
  *) echo "usage: tests/postgres.sh start|stop" >&2; exit 2 ;;
esac
