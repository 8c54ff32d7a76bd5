#!/bin/sh
# tests/run-suite.sh against small made-up suites. Argument: the doctest executable of tests/layering, of which
# the cases that depend on nothing but themselves are run.
set -eu

doctest=$1
run_suite=$(cd -- "$(dirname -- "$0")/.." && pwd)/run-suite.sh
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
passed=0
failed=0

# Arguments: what is claimed, the tests as ctest lists them, the closing line and exit code expected, further options.
expect() {
  claim=$1 closing=$3 code=$4
  printf '%s\n' "$2" >"$work/CTestTestfile.cmake"
  shift 4
  got=0
  sh "$run_suite" "$@" "$work" >"$work/output" 2>&1 || got=$?
  if [ "$(tail -n 1 "$work/output")" = "$closing" ] && [ "$got" = "$code" ]; then
    passed=$((passed + 1))
  else
    failed=$((failed + 1))
    echo "NOT SO: $claim: expected '$closing' with exit code $code, got exit code $got and:"
    sed 's/^/  | /' "$work/output"
  fi
}

one='add_test(one sh "-c" "echo \"2 passed, 0 failed\"")'
cases=$("$doctest" --source-file="*checker_test.cpp" --count | sed -n 's/.*: *\([0-9][0-9]*\)$/\1/p')

expect 'cases of all tests are added up' "$one
add_test(two \"$doctest\" \"--source-file=*checker_test.cpp\")" "$((cases + 2)) passed, 0 failed" 0
expect 'a failed case fails the suite' "$one
add_test(two sh \"-c\" \"echo '3 passed, 1 failed'; exit 1\")" '5 passed, 1 failed' 1
expect 'a failed exit fails the suite even when every case passed' "$one
add_test(two sh \"-c\" \"echo '3 passed, 0 failed'; exit 1\")" '5 passed, 1 failed' 1
expect 'a doctest run without a case counts as failed' "$one
add_test(two \"$doctest\" \"--test-case=no such case\")" '2 passed, 1 failed' 1
expect 'a doctest run that ends before its summary counts as failed' "$one
add_test(two sh \"-c\" \"echo '[doctest] doctest version is 2.4.9'\")" '2 passed, 1 failed' 1
expect 'a test that counts nothing is one case by its exit code' "$one
add_test(two true)
add_test(three false)" '3 passed, 1 failed' 1
expect 'a crash counts as failed' "$one
add_test(two sh \"-c\" \"kill -SEGV \\\$\\\$\")" '2 passed, 1 failed' 1
expect 'a test that takes too long counts as failed' "$one
add_test(two sleep 20)
set_tests_properties(two PROPERTIES TIMEOUT 1)" '2 passed, 1 failed' 1
expect 'a test whose program is not there counts as failed' "$one
add_test(two \"$work/nothing\")" '2 passed, 1 failed' 1
expect 'a suite without a test fails' '' '0 passed, 1 failed' 1
large='set_tests_properties(two PROPERTIES LABELS large)'
expect '--quick leaves out what is labelled large' "$one
add_test(two false)
$large" '2 passed, 0 failed' 0 --quick

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
