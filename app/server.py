"""Server mode: Python on this computer, the screen in a browser, here or on the local network.

What is typed passes through this process but is kept by each browser (app.storage.ServerStore).
"""

from __future__ import annotations

import hashlib
import json
import re
import secrets
from collections.abc import Awaitable, Callable, Iterable, MutableMapping
from pathlib import Path
from typing import Any

import flet as ft
from flet_web import get_package_web_dir

from app.own_host import asking_no_other_host
from app.policy import policy_of, taking_the_nonce, with_nonce
from app.reading_order import in_reading_order
from drafting.render.assets import ASSETS

Scope = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[MutableMapping[str, Any]]]
Send = Callable[[MutableMapping[str, Any]], Awaitable[None]]
Header = tuple[bytes, bytes]
Asgi = Callable[[Scope, Receive, Send], Awaitable[None]]

CLIENT = "/main.dart.js"
START = "/flutter_bootstrap.js"
FONTS = "/assets/FontManifest.json"
SEARCHED = "/assets/fonts/noto"
"""Where Flet's client reads its fonts, so that ours are there before the first word is painted, and where it looks for
a font with a glyph that ours lack: without an answer it asks again and again."""
AWAKE = "/assets/packages/wakelock_plus/assets/no_sleep.js"
"""The client's own script for a screen that stays awake; ours (web/awake.js) goes at its end."""
HEAD = b"<head>"
FIRST = b'<script src="/web/first.js"></script>'
"""Goes right after HEAD into every page, as in the site's: it must run before all else."""

_HOST = re.compile(rb"[\w.\-]+(:\d+)?|\[[\da-fA-F:]+\](:\d+)?")
_CONDITIONS = (b"if-none-match", b"if-modified-since")
"""What a browser says of the page that it has kept. A page is always sent anew: its nonce is for once."""
_KEEPING = (b"etag", b"last-modified", b"cache-control", b"content-length")


def marked(body: bytes, kind: bytes) -> tuple[bytes, bytes, bytes]:
    """Something to answer with: what, of which kind, and the mark by which a browser knows it again."""
    return body, kind, f'"{hashlib.sha256(body).hexdigest()}"'.encode()


def guard(inner: Asgi, log: Path | None = None) -> Asgi:
    """Wrap the app: give it our fonts and scripts, a client that keeps to reading order and its host, a policy, a log.

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
        START: marked(taking_the_nonce((web / START.strip("/")).read_text("utf-8")).encode(), b"text/javascript"),
        FONTS: marked(json.dumps(families).encode(), b"application/json"),
        AWAKE: marked(awake, b"text/javascript"),
    }
    spare = marked((web / "assets" / "fonts" / "roboto.woff2").read_bytes(), b"font/woff2")

    async def outer(scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await inner(scope, receive, send)
            return
        path: str = scope["path"]
        scope = {**scope, "headers": asked_anew(scope["headers"])}
        begun: MutableMapping[str, Any] | None = None  # of a page, until all of it is there
        page = b""

        async def noted(message: MutableMapping[str, Any]) -> None:
            nonlocal begun, page
            if message["type"] == "http.response.start":
                headers = [*message.get("headers", ())]
                kind = dict(headers).get(b"content-type", b"")
                if log:
                    with log.open("a", encoding="utf-8") as file:
                        file.write(f"{scope['method']} {message['status']} - {path}\n")
                if scope["method"] == "GET" and message["status"] == 200 and kind.startswith(b"text/html"):
                    begun = message
                    return
                message["headers"] = [*headers, (b"content-security-policy", policy_of("").encode())]
            elif begun is not None:
                page += message.get("body", b"")
                if message.get("more_body"):
                    return
                headers, body = finished(begun.get("headers", ()), page, scope["headers"])
                await send({**begun, "headers": headers})
                message = {**message, "body": body}
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


def asked_anew(headers: Iterable[Header]) -> list[Header]:
    """The headers of a request, without what was kept where a page is asked for."""
    found = [*headers]
    if b"text/html" not in dict(found).get(b"accept", b""):
        return found
    return [(name, value) for name, value in found if name not in _CONDITIONS]


def finished(headers: Iterable[Header], page: bytes, asked: Iterable[Header]) -> tuple[list[Header], bytes]:
    """The headers and the text of a page with its first script, its nonce and its policy."""
    nonce = secrets.token_urlsafe(16)
    text = with_nonce(page.replace(HEAD, HEAD + FIRST, 1).decode("utf-8"), nonce)
    host = dict(asked).get(b"host", b"")
    here = host.decode() if _HOST.fullmatch(host) else ""
    policy = policy_of(text, nonce, f"ws://{here} wss://{here}" if here else "")
    body = text.encode()
    kept = [(name, value) for name, value in headers if name not in _KEEPING]
    return [
        *kept,
        (b"content-length", str(len(body)).encode()),
        (b"cache-control", b"no-store"),
        (b"content-security-policy", policy.encode()),
    ], body


def serve(main: Callable[[ft.Page], Any], host: str = "127.0.0.1", port: int = 8000, log: Path | None = None) -> None:
    """Serve the app until interrupted. Use a host of 0.0.0.0 for the local network."""
    import uvicorn  # noqa: PLC0415 - the static site has none and never serves

    inner = ft.run(
        main, export_asgi_app=True, assets_dir=str(ASSETS), no_cdn=True, name="", web_renderer=ft.WebRenderer.CANVAS_KIT
    )
    uvicorn.run(guard(inner, log), host=host, port=port, log_level="warning", ws_max_size=64 * 1024 * 1024)
