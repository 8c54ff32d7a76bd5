#!/bin/sh
# Kills two writers of the weather cache 200 times and looks for half entries; the suite does the same 20 times.
#   sh tests/soak/cache_kills.sh [BUILD_DIR]
set -eu
build=${1:-build/release}
SAPDRAW_KILLS=200 "$build/test-net" --test-case='killed at any moment*'
