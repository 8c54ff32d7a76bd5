"""A text gateway of the tests: HTTPS, answers by path, keeps every request as a line of JSON. Ends when its stdin does.

  /status/NUMBER[/RETRY-AFTER]   that status
  /ok                            {"status": "queued", "count": 1}
  /hang                          takes the request and says nothing
  /hang-once                     the same for a request that it has not had before, else /ok
  /cut                           takes the request and closes
  /half                          status 200 of a body that breaks off
"""
import argparse
import http.server
import json
import pathlib
import sys
import threading
import time

sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "support"))
from child_server import Server, serve  # noqa: E402: it lies beside, not among the packages


class Handler(http.server.BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"

    def log_message(self, *arguments):
        pass

    def do_POST(self):
        body = self.rfile.read(int(self.headers.get("Content-Length", 0))).decode("utf-8", "replace")
        with self.server.lock, open(self.server.log_path, "a") as log:
            log.write(json.dumps({"method": self.command, "path": self.path, "headers": dict(self.headers), "body": body}) + "\n")
            is_new = (self.path, body) not in self.server.seen
            self.server.seen.add((self.path, body))
        words = self.path.split("?")[0].strip("/").split("/")
        hangs = words[0] == "hang" or (words[0] == "hang-once" and is_new)
        if hangs:
            time.sleep(60)
        if hangs or words[0] == "cut":
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


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--log", required=True)
    parser.add_argument("--certificate", required=True)
    parser.add_argument("--key", required=True)
    given = parser.parse_args()
    server = Server(("127.0.0.1", 0), Handler)
    server.log_path, server.lock = given.log, threading.Lock()
    server.seen = set()
    serve(server, given.certificate, given.key)


if __name__ == "__main__":
    main()
