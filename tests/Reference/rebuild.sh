#!/usr/bin/env bash
# Makes the check tables anew in a temporary folder and fails when they differ from the committed ones.
# Where npm cannot fetch the packages it says so and skips, but with CI=true fails.
# With --write it puts them in place of the committed ones instead.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cp "$here"/*.mjs "$here"/package.json "$here"/package-lock.json "$work"/
if ! (cd "$work" && npm ci --no-audit --no-fund --loglevel=error > /dev/null); then
  echo "SKIPPED: npm could not fetch the two packages, so the tables were not made anew." >&2
  [ "${CI:-}" = true ] && exit 1
  exit 0
fi
node "$work/make.mjs" "$work/tables"
if [ "${1:-}" = --write ]; then
  cp "$work"/tables/* "$here/tables/"
  echo "Tables written."
elif diff -r "$work/tables" "$here/tables"; then
  echo "The committed tables are what the scripts make."
else
  echo "The committed tables differ from what the scripts make." >&2
  exit 1
fi
