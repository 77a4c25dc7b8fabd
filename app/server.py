"""Server mode: Python on this computer, the screen in a browser, here or on the local network.

What is typed passes through this process but is kept by each browser (app.storage.ServerStore).
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Awaitable, Callable, MutableMapping
from pathlib import Path
from typing import Any

import flet as ft
from flet_web import get_package_web_dir

from app.own_host import asking_no_other_host
from app.reading_order import in_reading_order

Scope = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[MutableMapping[str, Any]]]
Send = Callable[[MutableMapping[str, Any]], Awaitable[None]]
Asgi = Callable[[Scope, Receive, Send], Awaitable[None]]

ASSETS = Path(__file__).resolve().parents[1] / "assets"
CLIENT = "/main.dart.js"
FONTS = "/assets/FontManifest.json"
SEARCHED = "/assets/fonts/noto"
"""Where Flet's client reads its fonts, so that ours are there before the first word is painted, and where it looks for
a font with a glyph that ours lack: without an answer it asks again and again."""
AWAKE = "/assets/packages/wakelock_plus/assets/no_sleep.js"
"""The client's own script for a screen that stays awake; ours (web/awake.js) goes at its end."""
HEAD = b"<head>"
FIRST = b'<script src="/web/first.js"></script>'
"""Goes right after HEAD into every page, as in the site's: it must run before all else."""

POLICY = (
    "default-src 'self' blob: data: ws: wss:; script-src 'self' blob: 'unsafe-inline' 'unsafe-eval' "
    "'wasm-unsafe-eval'; style-src 'self' 'unsafe-inline'"
)


def marked(body: bytes, kind: bytes) -> tuple[bytes, bytes, bytes]:
    """Something to answer with: what, of which kind, and the mark by which a browser knows it again."""
    return body, kind, f'"{hashlib.sha256(body).hexdigest()}"'.encode()


def guard(inner: Asgi, log: Path | None = None) -> Asgi:
    """Wrap the app: give it our fonts and scripts and a client that keeps to reading order, forbid other hosts, log.

    A line of the log, one for each request, has method, status, - and path.
    """
    web = Path(get_package_web_dir())
    families = [
        *json.loads((web / FONTS.strip("/")).read_text("utf-8")),
        {"family": "Roboto", "fonts": [{"asset": "fonts/roboto.woff2"}]},
        *json.loads((ASSETS / "fonts" / "fonts.json").read_text("utf-8")),
    ]
    awake = (web / AWAKE.strip("/")).read_bytes() + (ASSETS / "web" / "awake.js").read_bytes()
    client = asking_no_other_host(in_reading_order((web / CLIENT.strip("/")).read_bytes()))
    ours = {
        CLIENT: marked(client, b"text/javascript"),
        FONTS: marked(json.dumps(families).encode(), b"application/json"),
        AWAKE: marked(awake, b"text/javascript"),
    }
    spare = marked((web / "assets" / "fonts" / "roboto.woff2").read_bytes(), b"font/woff2")

    async def outer(scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await inner(scope, receive, send)
            return
        path: str = scope["path"]
        a_page = False

        async def noted(message: MutableMapping[str, Any]) -> None:
            nonlocal a_page
            if message["type"] == "http.response.start":
                headers = [*message.get("headers", ())]
                kind = dict(headers).get(b"content-type", b"")
                a_page = message["status"] == 200 and kind.startswith(b"text/html")
                if a_page:
                    headers = [
                        (name, str(int(value) + len(FIRST)).encode() if name == b"content-length" else value)
                        for name, value in headers
                    ]
                message["headers"] = [*headers, (b"content-security-policy", POLICY.encode())]
                if log:
                    with log.open("a", encoding="utf-8") as file:
                        file.write(f"{scope['method']} {message['status']} - {path}\n")
            elif a_page:
                message["body"] = message["body"].replace(HEAD, HEAD + FIRST, 1)
            await send(message)

        if path in ours or path.startswith(SEARCHED):
            body, kind, mark = ours.get(path, spare)
            known = (b"if-none-match", mark) in scope["headers"]
            headers = [(b"content-type", kind), (b"etag", mark), (b"cache-control", b"no-cache")]
            await noted({"type": "http.response.start", "status": 304 if known else 200, "headers": headers})
            await noted({"type": "http.response.body", "body": b"" if known else body})
            return
        await inner(scope, receive, noted)

    return outer


def serve(main: Callable[[ft.Page], Any], host: str = "127.0.0.1", port: int = 8000, log: Path | None = None) -> None:
    """Serve the app until interrupted. Use a host of 0.0.0.0 for the local network."""
    import uvicorn  # noqa: PLC0415 - the static site has none and never serves

    inner = ft.run(
        main, export_asgi_app=True, assets_dir=str(ASSETS), no_cdn=True, name="", web_renderer=ft.WebRenderer.CANVAS_KIT
    )
    uvicorn.run(guard(inner, log), host=host, port=port, log_level="warning", ws_max_size=64 * 1024 * 1024)
