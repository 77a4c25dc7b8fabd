"""Serve a built site for trying out and for tests: precompressed files, revalidation by hash, one log line a request.

Any host of plain files will do in earnest. A phone installs the site only over HTTPS, or from this computer itself.
"""

from __future__ import annotations

import argparse
import hashlib
import mimetypes
import posixpath
import re
import sys
import threading
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import ClassVar
from urllib.parse import unquote, urlsplit

TYPES = {
    ".mjs": "text/javascript",
    ".js": "text/javascript",
    ".wasm": "application/wasm",
    ".json": "application/json",
    ".woff2": "font/woff2",
    ".ttf": "font/ttf",
    ".otf": "font/otf",
}


class Handler(BaseHTTPRequestHandler):
    """Answers GET and HEAD from the site's folder, under the base the site was built for."""

    protocol_version = "HTTP/1.1"
    root: ClassVar[Path]
    base: ClassVar[str] = "/"
    log_file: ClassVar[Path | None] = None
    lock: ClassVar[threading.Lock] = threading.Lock()

    def do_GET(self) -> None:
        """Answer with the file, its .br copy, or 304 when the browser has it."""
        asked = posixpath.normpath(unquote(urlsplit(self.path).path))
        inside = asked + "/" if asked + "/" == self.base else asked
        if not inside.startswith(self.base):
            return self.answer(404)
        name = inside[len(self.base) :] or "index.html"
        path = (self.root / name).resolve()
        if not path.is_relative_to(self.root):
            return self.answer(404)
        if not path.is_file():
            if path.suffix:
                return self.answer(404)
            path = self.root / "index.html"
        kind = TYPES.get(path.suffix) or mimetypes.guess_type(path.name)[0] or "application/octet-stream"
        small = path.with_name(path.name + ".br")
        encoding = "br" if "br" in self.headers.get("Accept-Encoding", "") and small.is_file() else ""
        data = (small if encoding else path).read_bytes()
        tag = f'"{hashlib.sha256(data).hexdigest()[:20]}"'
        headers = {
            "ETag": tag,
            "Cache-Control": "no-cache",
            "Vary": "Accept-Encoding",
            "X-Content-Type-Options": "nosniff",
        }
        if self.headers.get("If-None-Match") == tag:
            return self.answer(304, headers)
        headers["Content-Type"] = kind
        if encoding:
            headers["Content-Encoding"] = encoding
        return self.answer(200, headers, data)

    do_HEAD = do_GET  # noqa: N815 - the base class calls it so

    def answer(self, status: int, headers: dict[str, str] | None = None, data: bytes = b"") -> None:
        """Send the answer and write its log line: method, status, bytes sent, path."""
        sent = data if self.command == "GET" else b""
        if self.log_file:
            with self.lock, self.log_file.open("a", encoding="utf-8") as log:
                log.write(f"{self.command} {status} {len(sent)} {self.path}\n")
        self.send_response(status)
        for name, value in (headers or {}).items():
            self.send_header(name, value)
        if status != 304:
            self.send_header("Content-Length", str(len(data)))
        self.end_headers()
        try:
            self.wfile.write(sent)
        except (BrokenPipeError, ConnectionResetError):
            self.close_connection = True

    def log_message(self, *_: object) -> None:
        """Say nothing on the terminal."""


def serve(folder: Path, host: str = "127.0.0.1", port: int = 8080, log: Path | None = None) -> None:
    """Serve a built site until interrupted; prints the address. Port 0 takes a free one."""
    found = re.search(r'<base href="([^"]*)"', (folder / "index.html").read_text("utf-8"))
    Handler.root, Handler.base, Handler.log_file = folder.resolve(), found[1] if found else "/", log
    ThreadingHTTPServer.daemon_threads = True
    with ThreadingHTTPServer((host, port), Handler) as server:
        print(f"http://{host}:{server.server_address[1]}{Handler.base}", flush=True)
        try:
            server.serve_forever()
        except KeyboardInterrupt:
            sys.stdout.write("\n")


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--host", default="127.0.0.1")
    parser.add_argument("--port", type=int, default=0)
    parser.add_argument("--log", type=Path)
    given = parser.parse_args()
    serve(given.folder, given.host, given.port, given.log)
