#!/bin/sh
# The README's promise on a Debian 12 that holds nothing yet: sh tests/soak/bare-debian.sh demo|check [WORK-DIRECTORY]
# Makes a minimal root by debootstrap (kept in WORK-DIRECTORY/base for the next trial), clones HEAD into a fresh copy
# of it, runs the one command there, and says how long it took and how much disk it cost.
# Needs root, debootstrap, git, and the machine's own Debian mirror; about 2 GB below WORK-DIRECTORY (/var/tmp/bare).
set -eu

what=${1-}
case $what in demo | check) ;; *) echo 'usage: sh tests/soak/bare-debian.sh demo|check [WORK-DIRECTORY]' >&2; exit 2 ;; esac
work=${2-/var/tmp/bare}
tree=$(cd -- "$(dirname -- "$0")/../.." && pwd)
base=$work/base
bare=$work/$what
mirror=$(sed -n 's/^URIs: *//p; s/^deb  *\(http[^ ]*\).*/\1/p' /etc/apt/sources.list.d/debian.sources /etc/apt/sources.list 2>/dev/null | head -n 1)

release_mounts() {
  for mount in "$bare/proc" "$bare/dev/shm"; do
    ! mountpoint -q "$mount" || umount "$mount"
  done
}
trap release_mounts EXIT

megabytes() { du -smx "$bare" | cut -f 1; }

mkdir -p "$work"
[ -e "$base/etc/debian_version" ] || debootstrap --variant=minbase bookworm "$base" "${mirror:-http://deb.debian.org/debian}"
release_mounts
rm -rf --one-file-system "$bare"
cp -a "$base" "$bare"

# The way to the mirror is this machine's; what is installed is not.
cp /etc/hosts /etc/resolv.conf "$bare/etc/"
if [ -e /etc/apt/sources.list.d/debian.sources ]; then
  cp /etc/apt/sources.list.d/debian.sources "$bare/etc/apt/sources.list.d/"
  : >"$bare/etc/apt/sources.list"
fi
grep -lE '^ *Acquire::(http|https|Check)' /etc/apt/apt.conf.d/* 2>/dev/null | while read -r settings; do
  cp "$settings" "$bare/etc/apt/apt.conf.d/"
done
mount -t proc proc "$bare/proc"
mkdir -p "$bare/dev/shm"
mount -t tmpfs tmpfs "$bare/dev/shm"
git clone -q --no-hardlinks "$tree" "$bare/root/sapdraw"
set -- PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin HOME=/root
if [ "$what" = check ] && [ -n "${SAPDRAW_OUTSIDE_DATA-}" ]; then
  cp -a "$SAPDRAW_OUTSIDE_DATA" "$bare/root/outside-data"
  set -- "$@" SAPDRAW_OUTSIDE_DATA=/root/outside-data
fi

before=$(megabytes)
start=$(date +%s)
code=0
chroot "$bare" env -i "$@" sh -c "cd /root/sapdraw && exec sh src/setup.sh $what" </dev/null || code=$?
seconds=$(($(date +%s) - start))
echo "bare-debian: setup.sh $what: exit code $code after $((seconds / 60)) min $((seconds % 60)) s; disk $before MB before, $(megabytes) MB after"
exit "$code"
