#!/bin/sh
# Installs into a scratch prefix and uses what lies there: install_test.sh BUILD-FOLDER
set -eu
build=$1
prefix=$(mktemp -d)
trap 'rm -r "$prefix"' EXIT
passed=0
ok() { passed=$((passed + 1)); }
fail() { echo "$*"; echo "$passed passed, 1 failed"; exit 1; }

cmake --install "$build" --prefix "$prefix" >/dev/null || fail 'cmake --install failed'
cd /
# The program finds the installed models, not those of the source tree.
"$prefix/bin/sapdraw" models >/dev/null || fail 'the installed program does not run'
mv "$prefix/share/sapdraw/models" "$prefix/away"
if "$prefix/bin/sapdraw" models >/dev/null 2>&1; then fail 'it used other models than the installed ones'; fi
mv "$prefix/away" "$prefix/share/sapdraw/models"
ok
# Every unit names the installed program, by a command line that it takes; every timer has its service.
units=$prefix/share/systemd/user
for timer in "$units"/*.timer; do
  service=${timer%.timer}.service
  [ -f "$service" ] || fail "$timer has no service"
  command=$(sed -n 's/^ExecStart=//p' "$service")
  case $command in "\"$prefix/bin/sapdraw\" "*) ;; *) fail "$service runs: $command" ;; esac
  # shellcheck disable=SC2086
  set -- $(echo "$command" | sed "s#%t#$prefix#g; s#\"##g")
  "$@" --help >/dev/null || fail "$service: the program refuses: $command"
  if grep -q '@' "$service" "$timer"; then fail "$service: something was not filled in"; fi
done
ok
if command -v systemd-analyze >/dev/null 2>&1; then
  systemd-analyze verify --man=no "$units"/*.timer "$units"/*.service 2>"$prefix/said" || { cat "$prefix/said"; fail 'systemd-analyze refuses a unit'; }
  ok
else
  echo 'skipped: no systemd-analyze here'
fi
echo "$passed passed, 0 failed"
