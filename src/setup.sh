#!/bin/sh
# From a fresh Debian 12 to a running program, or to a checked one, with one command:
#   sh src/setup.sh demo             install what the program lacks, build it, show it on the invented samples
#   sh src/setup.sh check [--quick]  the same, then what the tests need, then the whole suite
# Needs root, or sudo, only when something must be installed. Stops at the first failure, with its reason.
set -eu

# A tool counts as there when it can be run, wherever it came from; a library, when its package is installed.
program_tools='g++ cmake ninja:ninja-build'
program_libraries='libeigen3-dev nlohmann-json3-dev libhowardhinnant-date-dev libcli11-dev libfmt-dev libexpected-dev libtomlplusplus-dev libcurl4-openssl-dev libsoci-dev libsqlite3-dev libpq-dev libssl-dev libcsv-dev coinor-libcbc-dev coinor-libclp-dev libical-dev pkg-config ca-certificates tzdata'
# The tests' weather server and its certificate, a second hand on a book.
test_tools='python3 openssl sqlite3'
test_libraries='doctest-dev libbenchmark-dev libsundials-dev python3-aiosmtpd python3-icalendar'
# Large servers, left out by --quick.
large_packages='postgresql postfix sasl2-bin'

root=$(cd -- "$(dirname -- "$0")/.." && pwd)

say() { printf '%s\n' "$*"; }
stop() { printf 'setup: %s\n' "$*" >&2; exit 1; }

usage() {
  say 'usage: sh src/setup.sh demo             build the program and show it on the invented samples'
  say '       sh src/setup.sh check [--quick]  the same, then run the whole test suite'
}

have() { command -v "$1" >/dev/null 2>&1; }

missing_tools() { # arguments: tool, or tool:package
  for pair in "$@"; do
    have "${pair%%:*}" || printf '%s ' "${pair##*:}"
  done
}

missing_libraries() {
  for package in "$@"; do
    [ "$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || printf '%s ' "$package"
  done
}

as_root() {
  if [ "$(id -u)" -eq 0 ]; then "$@"; else sudo "$@"; fi
}

apt_get() {
  as_root env DEBIAN_FRONTEND=noninteractive LC_ALL=C apt-get -o DPkg::Lock::Timeout=300 "$@" </dev/null
}

# Arguments: packages. Says what and how much before anything is installed.
install_packages() {
  say "== To be installed: $*"
  [ "$(id -u)" -eq 0 ] || have sudo || stop "neither root nor sudo: ask whoever runs this machine to install: $*"
  # One unreachable source of many must not stop us: if it was needed, the install below fails and says so.
  apt_get update -qq || say 'warning: apt-get update failed; going on with the package lists that are here' >&2
  # --assume-no prints the whole plan with its size, then declines; its exit code says only that it declined.
  plan=$(apt_get install --no-install-recommends --assume-no "$@" 2>&1) || true
  case $plan in
    *'After this operation'*) say "$plan" | sed -n '/newly installed,/p; /^Need to get/p; /^After this operation/p' ;;
    *) say "$plan" >&2; stop "apt-get cannot install: $*" ;;
  esac
  apt_get install -qq -y --no-install-recommends -o Dpkg::Use-Pty=0 "$@" >/dev/null || stop "apt-get could not install: $*"
}

provide() { # arguments: the tools in one word, then the library packages
  tools=$1
  shift
  if have apt-get && have dpkg-query; then
    # shellcheck disable=SC2086
    needed="$(missing_tools $tools)$(missing_libraries "$@")"
    # Split on purpose: package names hold no spaces.
    # shellcheck disable=SC2086
    if [ -n "$needed" ]; then install_packages $needed; else say '== Nothing to install'; fi
  else
    # shellcheck disable=SC2086
    say "== No apt-get here; Debian's names of what must be there: $(printf '%s ' $tools | sed 's/ninja://')$*"
    # shellcheck disable=SC2086
    needed=$(missing_tools $tools)
    [ -z "$needed" ] || stop "these tools are not there: $needed"
  fi
}

build() { # arguments: preset, then further arguments of the build step
  preset=$1
  shift
  say "== Building (preset $preset, in build/release)"
  log=$(mktemp)
  if ! cmake --preset "$preset" >"$log" 2>&1; then
    cat "$log" >&2
    rm -f "$log"
    stop 'cmake could not prepare the build: see above'
  fi
  rm -f "$log"
  cmake --build --preset "$preset" "$@" || stop 'the build failed: see above'
}

show_demo() {
  say '== Demo: an invented fortnight (weather-samples/README.md), asked on its first morning'
  build/release/sapdraw days --weather weather-samples/demo-fortnight.json --trees weather-samples/trees.csv \
    --now 2026-07-06T10:30Z || stop "the demo ended with exit code $?"
  say
  say '== Demo: a week of bookings, and the plan after rain came into the forecast'
  folder=$(mktemp -d)
  sh weather-samples/rainy-week/load.sh build/release/sapdraw "$folder/book.sqlite" 2>/dev/null &&
    build/release/sapdraw plan show --book "$folder/book.sqlite" --weather weather-samples/wet-week.json --now 2026-07-13T22:00Z &&
    build/release/sapdraw plan rework --book "$folder/book.sqlite" --weather weather-samples/wet-week.json --now 2026-07-13T22:00Z ||
    stop "the demo ended with exit code $?"
  say
  say '== Demo: what crews are told: a good day; thunder at three, corrected at noon; old weather, so preparation only'
  printf '[post]\nsending = "on"\ntexts = "standard-output"\ncall = "555-0100"\n' >"$folder/config.toml"
  told() { # arguments: weather, now, further arguments
    weather=$1 now=$2
    shift 2
    build/release/sapdraw morning --book "$folder/book.sqlite" --config "$folder/config.toml" --weather "weather-samples/$weather" --now "$now" "$@"
  }
  told fair-week.json 2026-07-13T23:00Z --evening --crew A &&
    told fair-week.json 2026-07-13T23:00Z --evening --crew D &&
    told stormy-tuesday.json 2026-07-14T17:05Z --correction --crew D || stop "the demo ended with exit code $?"
  build/release/sapdraw text preview --book "$folder/book.sqlite" --config "$folder/config.toml" --crew A \
    --weather weather-samples/fair-week-met.json --now 2026-07-14T23:00Z || stop "the demo ended with exit code $?"
  rm -r "$folder"
}

demo() {
  # shellcheck disable=SC2086
  provide "$program_tools" $program_libraries
  build release --target sapdraw
  show_demo
}

check() {
  demo
  # shellcheck disable=SC2086
  if [ "${1-}" = --quick ]; then large=''; else large=$large_packages; fi
  # shellcheck disable=SC2086
  provide "$program_tools $test_tools" $test_libraries $large
  build check
  say '== Test suite'
  sh tests/run-suite.sh "$@" build/release
}

cd "$root"
case "${1-} ${2-}" in
  'demo ') demo ;;
  'check ') check ;;
  'check --quick') check --quick ;;
  '--help ' | '-h ') usage ;;
  *) usage >&2; exit 2 ;;
esac
