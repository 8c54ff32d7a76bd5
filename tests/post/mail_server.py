"""A mail server of the tests that fails on purpose (aiosmtpd): STARTTLS or TLS from the first byte, login office / right. Keeps each mail
taken as a line of JSON, read by Python's own parser. Ends when its stdin does. What it does is told by the recipient's name:

  451 550         that answer to RCPT
  data451 data554 that answer after the mail
  cut-rcpt        closes instead of an answer to RCPT
  cut-mid         answers 354, takes some of the mail, closes
  cut-after       takes the mail and closes
  slow-rcpt slow-after   says nothing for a minute, there
"""
import argparse
import asyncio
import email
import email.policy
import json
import os
import ssl
import sys
import threading
import time

from aiosmtpd.controller import Controller
from aiosmtpd.smtp import SMTP, AuthResult


def name_of(address):
    return address.strip("<>").split("@")[0]


class Server(SMTP):
    async def smtp_DATA(self, argument):
        if self.envelope.rcpt_tos and name_of(self.envelope.rcpt_tos[0]) == "cut-mid":
            await self.push("354 go on")
            await self._reader.read(4096)
            self.transport.abort()
            return
        await super().smtp_DATA(argument)


class Handler:
    def __init__(self, log_path):
        self.log_path = log_path

    async def handle_RCPT(self, server, session, envelope, address, options):
        name = name_of(address)
        if name in ("451", "550"):
            return name + " as told"
        if name == "cut-rcpt":
            server.transport.abort()
        if name == "slow-rcpt":
            await asyncio.sleep(60)
        envelope.rcpt_tos.append(address)
        return "250 ok"

    async def handle_DATA(self, server, session, envelope):
        name = name_of(envelope.rcpt_tos[0])
        if name in ("data451", "data554"):
            return name[4:] + " as told"
        if name == "slow-after":
            await asyncio.sleep(60)
        mail = email.message_from_bytes(envelope.content, policy=email.policy.default)
        parts = [part for part in mail.walk() if not part.is_multipart()]
        with open(self.log_path, "a") as log:
            log.write(json.dumps({
                "from": envelope.mail_from, "to": envelope.rcpt_tos,
                "headers": {key: str(value) for key, value in mail.items()}, "names": [key for key in mail.keys()],
                "defects": [str(defect) for part in mail.walk() for defect in part.defects],
                "parts": [{"type": part.get_content_type(), "name": part.get_filename(),
                           "bytes": part.get_payload(decode=True).decode("utf-8", "replace")} for part in parts]}) + "\n")
        if name == "cut-after":
            server.transport.abort()
        return "250 taken"


def authenticate(server, session, envelope, mechanism, data):
    return AuthResult(success=(data.login, data.password) == (b"office", b"right"), handled=False)


class Listening(Controller):
    def factory(self):
        return Server(self.handler, enable_SMTPUTF8=False, data_size_limit=100_000_000, tls_context=self.starttls, require_starttls=self.starttls is not None,
                      auth_required=True, auth_require_tls=self.starttls is not None, authenticator=authenticate)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--log", required=True)
    parser.add_argument("--certificate", required=True)
    parser.add_argument("--key", required=True)
    parser.add_argument("--tls", choices=["starttls", "implicit", "none"], required=True)
    given = parser.parse_args()
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(given.certificate, given.key)
    import socket
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    server = Listening(Handler(given.log), hostname="127.0.0.1", port=port, ssl_context=context if given.tls == "implicit" else None)
    server.starttls = context if given.tls == "starttls" else None
    server.start()
    print(port, flush=True)
    sys.stdin.read()
    os._exit(0)


if __name__ == "__main__":
    main()
