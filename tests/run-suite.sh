#!/bin/sh
# Runs every test that ctest knows and adds up their cases: sh tests/run-suite.sh [--quick] [BUILD-DIRECTORY]
# The last line is `N passed, N failed`; the exit code is 1 when anything failed or nothing ran.
#
# A test says how many cases it ran: by doctest's own summary or by a line `N passed, N failed`; any other counts as one
# case, by its exit code. A crash, a timeout, and a doctest run without a case count as failed: doctest passes when a
# filter or a parse error leaves it nothing to do, and so would ctest.
# --quick leaves out the tests labelled `large` (big servers, browsers) and names them.
set -eu

quick=no
if [ "${1-}" = --quick ]; then
  quick=yes
  shift
fi
cd -- "$(dirname -- "$0")/.."
build=${1-build/release}
[ -f "$build/CTestTestfile.cmake" ] || { echo "run-suite: $build: holds no tests: configure with -DSAPDRAW_TESTS=ON" >&2; exit 1; }
log=$build/Testing/suite.log
mkdir -p "$build/Testing"

set -- --test-dir "$build" --verbose --timeout 900 --parallel "$(nproc 2>/dev/null || echo 1)"
if [ "$quick" = yes ]; then
  left_out=$(ctest --test-dir "$build" -N -L '^large$' | sed -n 's/^ *Test *#[0-9]*: *//p' | tr '\n' ' ')
  echo "left out by --quick: ${left_out:-nothing}"
  set -- "$@" -LE '^large$'
fi
# The verdict is read from the log: ctest's own exit code knows nothing of tests that ran no case.
ctest "$@" >"$log" 2>&1 || true

awk '
  # Lines of test 7 start with "7: "; its end reads "3/12 Test  #7: air ....   Passed    0.04 sec".
  match($0, /^[0-9]+: /) {
    id = substr($0, 1, RLENGTH - 2)
    line = substr($0, RLENGTH + 1)
    output[id] = output[id] line "\n"
    if (line ~ /^\[doctest\]/) speaks_doctest[id] = 1
    if (line ~ /^\[doctest\] test cases: *[0-9]+ \| *[0-9]+ passed \| *[0-9]+ failed/) {
      split(line, part, "|")
      passed[id] += count(part[2]); failed[id] += count(part[3])
    } else if (line ~ /^[0-9]+ passed, [0-9]+ failed$/) {
      split(line, part, ",")
      passed[id] += count(part[1]); failed[id] += count(part[2])
    }
    next
  }
  match($0, /^ *[0-9]+\/[0-9]+ Test +#[0-9]+: /) {
    id = $0
    sub(/^[^#]*#/, "", id); sub(/:.*/, "", id)
    rest = substr($0, RLENGTH + 1)
    name = rest; sub(/[ .].*/, "", name)
    ending = rest; sub(/^[^ ]* *\.*/, "", ending); gsub(/^[ *]+/, "", ending); sub(/ +[0-9.]+ sec.*/, "", ending)
    trouble = ""
    if (passed[id] + failed[id] == 0) {
      if (speaks_doctest[id]) trouble = "ran no case"
      else if (ending == "Passed") passed[id] = 1
    }
    if (ending != "Passed" && failed[id] == 0) trouble = ending
    if (trouble != "") failed[id]++
    printf "%-20s %5d passed %4d failed%s\n", name, passed[id], failed[id], trouble == "" ? "" : "  (" trouble ")"
    if (failed[id] > 0) details = details "\n---- " name " ----\n" output[id]
    all_passed += passed[id]; all_failed += failed[id]
    tests++
  }
  function count(text) { gsub(/[^0-9]/, "", text); return text + 0 }
  END {
    printf "%s", details
    if (tests == 0) { print "run-suite: ctest ran no test"; all_failed++ }
    printf "%d passed, %d failed\n", all_passed, all_failed
    exit all_failed > 0
  }' "$log"
