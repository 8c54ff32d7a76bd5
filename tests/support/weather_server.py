#!/usr/bin/env python3
"""An HTTP server for tests: answers as it is told, and misbehaves on demand.

  weather_server.py --control FILE --log FILE [--tls CERT KEY] [--latency-ms N]

Prints its port. CONTROL is JSON, read anew for every request: a list of routes, the first whose `path` (a regular expression, matched from the
beginning against path and query) fits and whose `times` are not used up answers. A route has
  status (200), type ("application/json"), body (text) or file (path; "{0}" stands for a group of the path's expression), headers (object),
  etag (answered with 304 when the request brings it), modified (likewise), fault (below), times (how often it may answer)
Faults: hang (never answers), drip (a byte at a time), endless (a body without end), reset (closes in mid-body with RST), short (fewer bytes than
announced), bomb (gzip that grows a thousandfold), empty (closes without a word), mirror (redirects to itself with a counter).
Every request is logged as a line of JSON: method, path, headers, time. Standard library only.
"""
import argparse
import gzip
import http.server
import json
import os
import re
import socket
import struct
import threading
import time

from child_server import Server, serve

LOCK = threading.Lock()
USED = {}
READ = {}


def current_routes(path):
    stamp = (os.stat(path).st_mtime_ns, os.stat(path).st_ino)
    if READ.get("stamp") != stamp:
        with open(path) as control:
            READ["routes"] = json.load(control)
        READ["stamp"] = stamp
    return READ["routes"]


class Handler(http.server.BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"
    disable_nagle_algorithm = True

    def log_message(self, *args):
        pass

    def do_GET(self):
        server = self.server
        with LOCK:
            with open(server.log_path, "a") as log:
                log.write(json.dumps({"method": self.command, "path": self.path, "headers": dict(self.headers.items()), "time": time.time()}) + "\n")
        if server.latency_s:
            time.sleep(server.latency_s)
        routes = current_routes(server.control)
        for number, route in enumerate(routes):
            match = re.match(route["path"], self.path)
            if not match:
                continue
            with LOCK:
                key = (number, route["path"])
                if "times" in route and USED.get(key, 0) >= route["times"]:
                    continue
                USED[key] = USED.get(key, 0) + 1
            return self.answer(route, match)
        self.answer({"status": 404, "type": "application/problem+json", "body": '{"title":"Not Found"}'}, None)

    def answer(self, route, match):
        fault = route.get("fault")
        body = route.get("body", "").encode()
        if "file" in route:
            name = re.sub(r"\{(\d)\}", lambda m: match.group(int(m.group(1)) + 1), route["file"])
            if not os.path.exists(name):
                return self.answer({"status": 404, "type": "application/problem+json", "body": '{"title":"Not Found"}'}, None)
            with open(name, "rb") as file:
                body = file.read()
        unchanged = ("etag" in route and self.headers.get("If-None-Match") == route["etag"]) or (
            "modified" in route and self.headers.get("If-Modified-Since") == route["modified"])
        if fault == "hang":
            time.sleep(60)
            return
        if fault == "empty":
            self.close_connection = True
            return
        status = 304 if unchanged else route.get("status", 200)
        if fault == "mirror":
            status = 302
        self.send_response_only(status)
        self.send_header("Date", self.date_time_string())
        self.send_header("Content-Type", route.get("type", "application/json"))
        for name, value in route.get("headers", {}).items():
            self.send_header(name, value)
        if "etag" in route:
            self.send_header("ETag", route["etag"])
        if "modified" in route:
            self.send_header("Last-Modified", route["modified"])
        if fault == "mirror":
            self.send_header("Location", self.path + "x")
        if status == 304:
            self.end_headers()
            return
        if fault == "endless":
            self.send_header("Transfer-Encoding", "chunked")
            self.end_headers()
            chunk = b"x" * 65536
            try:
                while True:
                    self.wfile.write(b"10000\r\n" + chunk + b"\r\n")
            except OSError:
                self.close_connection = True
            return
        if fault == "bomb":
            body = gzip.compress(b"[" + b"0," * (40 << 20) + b"0]", 9)
            self.send_header("Content-Encoding", "gzip")
        elif "gzip" in self.headers.get("Accept-Encoding", "") and not fault and len(body) > 200:
            body = gzip.compress(body)
            self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Length", str(len(body) + (100 if fault == "short" else 0)))
        self.end_headers()
        if fault == "drip":
            try:
                for byte in body:
                    self.wfile.write(bytes([byte]))
                    self.wfile.flush()
                    time.sleep(0.5)
            except OSError:
                self.close_connection = True
            return
        if fault in ("reset", "short"):
            self.wfile.write(body[: len(body) // 2] if fault == "reset" else body)
            self.wfile.flush()
            if fault == "reset":
                self.connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
            self.close_connection = True
            self.connection.close()
            return
        self.wfile.write(body)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--control", required=True)
    parser.add_argument("--log", required=True)
    parser.add_argument("--tls", nargs=2)
    parser.add_argument("--latency-ms", type=float, default=0.0)
    given = parser.parse_args()
    server = Server(("127.0.0.1", 0), Handler)
    server.control, server.log_path, server.latency_s = given.control, given.log, given.latency_ms / 1000.0
    serve(server, *(given.tls or []))


if __name__ == "__main__":
    main()
