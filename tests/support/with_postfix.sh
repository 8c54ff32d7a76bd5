#!/bin/sh
# Runs a program with a mail server of its own beside it: sh with_postfix.sh PROGRAM [ARGUMENT...]
# The program finds in SAPDRAW_TEST_MAIL a folder: `port` (STARTTLS) and `tls-port` (TLS from the first byte) on localhost, `ca.pem`, and
# `mail/`, where whatever the server takes for the domain crews.example lies as a Maildir each. Login: office@localhost, password right.
# All of it lives in a scratch folder and is gone afterwards. The server can only be started as root.
set -eu
[ -x /usr/sbin/postfix ] && [ -x /usr/sbin/saslpasswd2 ] || { echo 'with_postfix: expected the packages postfix and sasl2-bin to be installed' >&2; exit 1; }
[ "$(id -u)" -eq 0 ] || { echo 'with_postfix: expected to be run as root' >&2; exit 1; }
folder=$(mktemp -d)
chmod 755 "$folder"
stop() {
  /usr/sbin/postfix -c "$folder/etc" stop >/dev/null 2>&1 || true
  rm -rf "$folder"
}
trap stop EXIT
trap 'exit 1' INT TERM

free_port() { /usr/bin/python3 -c 'import socket; s = socket.socket(); s.bind(("127.0.0.1", 0)); print(s.getsockname()[1])'; }
port=$(free_port)
tls_port=$(free_port)
printf '%s\n' "$port" > "$folder/port"
printf '%s\n' "$tls_port" > "$folder/tls-port"

here=$PWD
cd "$folder"
key='-newkey ec -pkeyopt ec_paramgen_curve:prime256v1 -nodes'
# Split on purpose.
# shellcheck disable=SC2086
openssl req -x509 $key -days 2 -subj /CN=Tests -keyout ca.key -out ca.pem 2>/dev/null
# shellcheck disable=SC2086
openssl req $key -subj /CN=localhost -keyout server.key -out server.csr 2>/dev/null
printf 'subjectAltName=DNS:localhost,IP:127.0.0.1\n' > names
openssl x509 -req -in server.csr -CA ca.pem -CAkey ca.key -CAcreateserial -days 2 -extfile names -out server.pem 2>/dev/null

mkdir etc etc/sasl queue data mail sasl
chown postfix data mail
printf 'pwcheck_method: auxprop\nauxprop_plugin: sasldb\nmech_list: PLAIN LOGIN\nsasldb_path: %s/sasl/users\n' "$folder" > etc/sasl/smtpd.conf  # where Debian's postfix looks
printf 'right' | /usr/sbin/saslpasswd2 -p -c -f sasl/users -u localhost office
chown -R postfix sasl
cat > etc/main.cf <<CF
compatibility_level = 3.6
queue_directory = $folder/queue
data_directory = $folder/data
maillog_file = $folder/mail.log
maillog_file_prefixes = $folder
myhostname = localhost
mydestination =
inet_interfaces = 127.0.0.1
inet_protocols = ipv4
mynetworks =
local_recipient_maps =
default_transport = error:nothing leaves this machine
virtual_mailbox_domains = crews.example
virtual_mailbox_base = $folder/mail
virtual_mailbox_maps = texthash:$folder/etc/boxes
virtual_minimum_uid = 1
virtual_uid_maps = static:$(id -u postfix)
virtual_gid_maps = static:$(id -g postfix)
smtpd_tls_cert_file = $folder/server.pem
smtpd_tls_key_file = $folder/server.key
smtpd_tls_auth_only = yes
smtpd_sasl_auth_enable = yes
smtpd_sasl_local_domain = localhost

smtpd_relay_restrictions = permit_sasl_authenticated, reject
smtpd_recipient_restrictions = check_recipient_access regexp:$folder/etc/refused, permit_sasl_authenticated, reject
message_size_limit = 50000000
CF
# Three people have a box; two more are refused before one is looked for.
printf '%s@crews.example %s/\n' lead lead crew crew office office > etc/boxes
printf '/^nobody@/ 550 no such person\n/^later@/ 451 later\n' > etc/refused
cat > etc/master.cf <<CF
127.0.0.1:$port inet n - n - - smtpd -o smtpd_tls_security_level=encrypt
127.0.0.1:$tls_port inet n - n - - smtpd -o smtpd_tls_wrappermode=yes
pickup unix n - n 60 1 pickup
cleanup unix n - n - 0 cleanup
qmgr unix n - n 300 1 qmgr
tlsmgr unix - - n 1000? 1 tlsmgr
rewrite unix - - n - - trivial-rewrite
bounce unix - - n - 0 bounce
defer unix - - n - 0 bounce
trace unix - - n - 0 bounce
verify unix - - n - 1 verify
flush unix n - n 1000? 0 flush
proxymap unix - - n - - proxymap
error unix - - n - - error
retry unix - - n - - error
discard unix - - n - - discard
virtual unix - n n - - virtual
anvil unix - - n - 1 anvil
postlog unix-dgram n - n - 1 postlogd
CF
/usr/sbin/postfix -c "$folder/etc" start >/dev/null 2>&1 || { cat "$folder/mail.log" >&2; exit 1; }
SAPDRAW_TEST_MAIL=$folder
export SAPDRAW_TEST_MAIL
cd "$here"
code=0
"$@" || code=$?
[ "$code" -eq 0 ] || tail -n 20 "$folder/mail.log" >&2
exit "$code"
