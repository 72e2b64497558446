#!/usr/bin/env bash
# The one test command: builds with warnings as errors, checks format and pending model changes, runs every test on SQLite
# and what meets the database on PostgreSQL again, and closes with "N passed, N failed, N skipped" alone on a line.
# On Debian as root it installs what is missing; a mail server for the tests comes with the tools of .config/dotnet-tools.json. With CI=true a skipped test is a failure.
set -uo pipefail
cd "$(dirname "$0")/.."
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1 MSBUILDDISABLENODEREUSE=1
# Tests live for minutes: code is compiled once without counting how it is used, and rubbish is collected seldom.
export DOTNET_TieredPGO=0 DOTNET_gcConcurrent=0 DOTNET_GCgen0size=0x4000000
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

usings_in_order() {
  git ls-files '*.cs' | grep -v /Migrations/ | LC_ALL=C xargs awk '
    FNR == 1 { last = "" }
    /^using [A-Z][A-Za-z0-9.]*;/ {
      name = tolower(substr($2, 1, length($2) - 1)); name = (name ~ /^system(\.|$)/ ? "0" : "1") name
      if (name < last) { print FILENAME ": " $2 " stands too late"; bad = 1 }
      last = name
    }
    END { exit bad }'
}

results=$(mktemp -d)
memory=""
finish() { bash tests/postgres.sh stop; rm -rf "$results" ${memory:+"$memory"}; }
trap finish EXIT

say "Tools"
install_missing || echo "Some tools could not be installed; what needs them is skipped by name."

check "Restore" dotnet restore --nologo -v quiet
check "Build, warnings are errors" dotnet build --no-restore --nologo -v quiet
# The build has the rules of style; here are the two things it does not look at. (dotnet format whole takes minutes to load the projects.)
check "Format" dotnet format whitespace . --folder --verify-no-changes
check "Usings in order" usings_in_order
dotnet tool restore > /dev/null
for provider in Sqlite Postgres; do
  check "No model change without a migration ($provider)" \
    dotnet ef migrations has-pending-model-changes --no-build --project "migrations/$provider" --startup-project "migrations/$provider"
done
if [ -f tests/Reference/rebuild.sh ] && command -v npm > /dev/null; then
  check "Reference tables are what their scripts make" bash tests/Reference/rebuild.sh
fi

# Every class of tests has records of its own: in memory, where there is room, they are made and dropped sooner.
if [ -w /dev/shm ] && [ "$(df --output=avail /dev/shm 2> /dev/null | tail -n 1)" -gt 4000000 ] 2> /dev/null; then
  memory=$(mktemp -d /dev/shm/office-tests-XXXXXX) && export TMPDIR="$memory"
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
  # Not again: the verbs, which are tested on a folder of their own, and what ends before the database (forms, drawings, papers).
  run_tests "Web on PostgreSQL" tests/Web.Tests --filter "FullyQualifiedName!~Web.Tests.Commands&Database!=either"
  unset OFFICE_TEST_POSTGRES
else
  echo "FAILED: no PostgreSQL to test on"; failed=$((failed + 1))
fi
run_tests "Browser" tests/Browser.Tests

# What failed, with its words: the runs above name it only.
[ "$failed" = 0 ] || python3 - "$results" << 'EOF'
import pathlib, sys, xml.etree.ElementTree as xml
for file in sorted(pathlib.Path(sys.argv[1]).glob("*.trx")):
    for test in xml.parse(file).findall(".//{*}UnitTestResult"):
        if test.get("outcome") != "Failed": continue
        words = (test.findtext(".//{*}Message") or "").strip().splitlines()[:12] + (test.findtext(".//{*}StackTrace") or "").strip().splitlines()[:6]
        print("", f"FAILED {file.stem}: {test.get('testName')}", *("  " + w for w in words), sep="\n")
EOF

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
