#!/bin/sh
# Fuzzes every reader, one after the other on one core: sh tests/fuzz/run.sh BUILD_FOLDER SECONDS [READER...]
# Corpora start from the samples and broken inputs kept in the tree and grow in BUILD_FOLDER/corpus. A find is left in BUILD_FOLDER/finds,
# cut down as far as a minute goes; put it into tests/broken under the reader's name, where the suite replays it.
set -eu
build=$1 seconds=$2
shift 2
[ $# -gt 0 ] || set -- weather points alerts observations stations geocoding daily_rain rain_stations kept gauge trees
mkdir -p "$build/finds"
failed=0
for reader in "$@"; do
  corpus=$build/corpus/$reader
  mkdir -p "$corpus"
  while read -r seed; do cp "$seed" "$corpus/seed-$(basename "$seed")"; done <"$build/seeds-$reader.txt"
  echo "== $reader"
  # The largest seed is a few thousand bytes but for whole forecasts, of which the first 64 KiB are enough.
  nice "$build/fuzz-$reader" -max_total_time="$seconds" -max_len=65536 -timeout=10 -rss_limit_mb=2048 -print_final_stats=1 \
    -artifact_prefix="$build/finds/$reader-" "$corpus" >"$build/fuzz-$reader.log" 2>&1 || failed=1
  grep -E "stat::number_of_executed_units|^Done|SUMMARY|DEADLYSIGNAL" "$build/fuzz-$reader.log" || true
done
for find in "$build/finds"/*-crash-*; do
  [ -e "$find" ] || continue
  reader=$(basename "$find" | sed 's/-crash-.*//')
  nice "$build/fuzz-$reader" -minimize_crash=1 -max_total_time=60 -exact_artifact_path="$find.small" "$find" >/dev/null 2>&1 || true
done
exit $failed
