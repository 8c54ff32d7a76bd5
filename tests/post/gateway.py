"""A text gateway of the tests: HTTPS, answers by path, keeps every request as a line of JSON. Ends when its stdin does.

  /status/NUMBER[/RETRY-AFTER]   that status
  /ok                            {"status": "queued", "count": 1}
  /hang                          takes the request and says nothing
  /cut                           takes the request and closes
  /half                          status 200 of a body that breaks off
"""
import argparse
import http.server
import json
import os
import socketserver
import ssl
import sys
import threading
import time


class Handler(http.server.BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"

    def log_message(self, *arguments):
        pass

    def do_POST(self):
        body = self.rfile.read(int(self.headers.get("Content-Length", 0))).decode("utf-8", "replace")
        with self.server.lock, open(self.server.log_path, "a") as log:
            log.write(json.dumps({"method": self.command, "path": self.path, "headers": dict(self.headers), "body": body}) + "\n")
        words = self.path.split("?")[0].strip("/").split("/")
        if words[0] == "hang":
            time.sleep(60)
        if words[0] in ("hang", "cut"):
            self.close_connection = True
            return
        answer = json.dumps({"status": "queued", "count": 1}).encode()
        self.send_response(int(words[1]) if words[0] == "status" else 200)
        if len(words) > 2:
            self.send_header("Retry-After", words[2])
        if words[0] == "status" and words[1].startswith("3"):
            self.send_header("Location", "/ok")
        self.send_header("Content-Type", "application/json")
        self.send_header("Content-Length", str(len(answer) + (50 if words[0] == "half" else 0)))
        self.end_headers()
        self.wfile.write(answer)
        self.close_connection = True

    do_GET = do_PUT = do_POST


class Server(socketserver.ThreadingMixIn, http.server.HTTPServer):
    daemon_threads = True
    request_queue_size = 256

    def handle_error(self, request, client_address):
        pass


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--log", required=True)
    parser.add_argument("--certificate", required=True)
    parser.add_argument("--key", required=True)
    given = parser.parse_args()
    server = Server(("127.0.0.1", 0), Handler)
    server.log_path, server.lock = given.log, threading.Lock()
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(given.certificate, given.key)
    server.socket = context.wrap_socket(server.socket, server_side=True, do_handshake_on_connect=False)
    print(server.server_address[1], flush=True)
    threading.Thread(target=lambda: (sys.stdin.read(), os._exit(0)), daemon=True).start()
    server.serve_forever()


if __name__ == "__main__":
    main()
