#!/usr/bin/env bash
# The one test command: builds with warnings as errors, checks format and pending model changes, runs every test on SQLite
# and on PostgreSQL, and closes with "N passed, N failed, N skipped" alone on a line.
# On Debian as root it installs what is missing; a mail server for the tests comes with the tools of .config/dotnet-tools.json. With CI=true a skipped test is a failure.
set -uo pipefail
cd "$(dirname "$0")/.."
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1 MSBUILDDISABLENODEREUSE=1
failed=0
say() { printf '\n== %s\n' "$*"; }
check() { say "$1"; shift; if ! "$@"; then echo "FAILED: $*"; failed=$((failed + 1)); fi; }

install_missing() {
  [ "$(id -u)" = 0 ] && command -v apt-get > /dev/null || return 0
  local wanted=()
  command -v chromium > /dev/null || wanted+=(chromium)
  command -v pdftotext > /dev/null || wanted+=(poppler-utils)
  ls /usr/lib/postgresql/*/bin/initdb > /dev/null 2>&1 || wanted+=(postgresql)
  command -v python3 > /dev/null || wanted+=(python3)
  /usr/bin/python3 -c 'import icalendar' > /dev/null 2>&1 || wanted+=(python3-icalendar)
  fc-list 2> /dev/null | grep -qi liberation || wanted+=(fonts-liberation)
  [ ${#wanted[@]} = 0 ] && return 0
  apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq "${wanted[@]}" > /dev/null
}

results=$(mktemp -d)
finish() { bash tests/postgres.sh stop; rm -rf "$results"; }
trap finish EXIT

say "Tools"
install_missing || echo "Some tools could not be installed; what needs them is skipped by name."

check "Restore" dotnet restore --nologo -v quiet
check "Build, warnings are errors" dotnet build --no-restore --nologo -v quiet
check "Format" dotnet format --no-restore --verify-no-changes -v quiet
dotnet tool restore > /dev/null
for provider in Sqlite Postgres; do
  check "No model change without a migration ($provider)" \
    dotnet ef migrations has-pending-model-changes --no-build --project "migrations/$provider" --startup-project "migrations/$provider"
done
if [ -f tests/Reference/rebuild.sh ] && command -v npm > /dev/null; then
  check "Reference tables are what their scripts make" bash tests/Reference/rebuild.sh
fi

run_tests() { # name of the run, project, further arguments
  say "$1"
  dotnet test "$2" "${@:3}" --no-build --nologo -v quiet --logger "trx;LogFileName=$1.trx" --results-directory "$results" || failed=$((failed + 1))
}
run_tests "Engineering" tests/Engineering.Tests
run_tests "Business on SQLite" tests/Business.Tests
# Two processes on one database need the server; they run with it below.
run_tests "Web on SQLite" tests/Web.Tests --filter "FullyQualifiedName!~TwoProcesses"
if server=$(bash tests/postgres.sh start); then
  export OFFICE_TEST_POSTGRES="$server"
  run_tests "Business on PostgreSQL" tests/Business.Tests
  # The verbs are tested on a folder of their own, without the server.
  run_tests "Web on PostgreSQL" tests/Web.Tests --filter "FullyQualifiedName!~Web.Tests.Commands"
  unset OFFICE_TEST_POSTGRES
else
  echo "FAILED: no PostgreSQL to test on"; failed=$((failed + 1))
fi
run_tests "Browser" tests/Browser.Tests

read -r passed broken skipped < <(
  for file in "$results"/*.trx; do
    grep -o '<Counters [^>]*>' "$file" | head -n 1
  done | awk '{ match($0, /total="[0-9]+"/); t += substr($0, RSTART + 7, RLENGTH - 8)
                match($0, /executed="[0-9]+"/); e += substr($0, RSTART + 10, RLENGTH - 11)
                match($0, / passed="[0-9]+"/); p += substr($0, RSTART + 9, RLENGTH - 10) }
              END { print p + 0, e - p, t - e }')
[ "${passed:-0}" = 0 ] && failed=$((failed + 1))
if [ "${CI:-}" = true ] && [ "${skipped:-0}" != 0 ]; then echo "With CI=true a skipped test is a failure."; failed=$((failed + 1)); fi
[ "$failed" != 0 ] && [ "${broken:-0}" = 0 ] && broken=$failed
printf '\n%s passed, %s failed, %s skipped\n' "${passed:-0}" "${broken:-0}" "${skipped:-0}"
[ "$failed" = 0 ] && [ "${broken:-0}" = 0 ]
