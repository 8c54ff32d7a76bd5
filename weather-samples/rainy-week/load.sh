#!/bin/sh
# The invented office of the rainy week into a new book: load.sh PROGRAM BOOK
set -eu
program=$1 book=$2
here=$(cd -- "$(dirname -- "$0")" && pwd)
for pair in 'crew depot:depots' 'crew:crews' 'crew member:members' 'crew licence:licences' 'crew rig:rigs' 'crew tank:tanks' 'book rule:rules' \
  'client:clients' 'site:sites' 'tree:trees' 'booking:jobs'; do
  # shellcheck disable=SC2086
  "$program" ${pair%%:*} import "$here/${pair##*:}.csv" --book "$book" --by demo --now 2026-07-12T15:00Z >/dev/null
done
