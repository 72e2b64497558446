#!/usr/bin/env bash
# Before the first release only: throws away both sets of migrations and makes one new "First" in each.
# After a release, add a migration instead (see DEVELOPERS.md).
set -euo pipefail
cd "$(dirname "$0")/.."
dotnet tool restore > /dev/null
for provider in Sqlite Postgres; do
  rm -rf "migrations/$provider/Migrations"
  dotnet ef migrations add First --project "migrations/$provider" --startup-project "migrations/$provider" -o Migrations
done
