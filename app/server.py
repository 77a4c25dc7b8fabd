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

POLICY = (
    "default-src 'self' blob: data: ws: wss:; script-src 'self' blob: 'unsafe-inline' 'unsafe-eval' "
    "'wasm-unsafe-eval'; style-src 'self' 'unsafe-inline'"
)


def guard(inner: Asgi, log: Path | None = None) -> Asgi:
    """Wrap the app: give it our fonts and a client that keeps to reading order, forbid other hosts, log each request.

    A line of the log has method, status, - and path.
    """
    client = in_reading_order((Path(get_package_web_dir()) / CLIENT.strip("/")).read_bytes())
    mark = f'"{hashlib.sha256(client).hexdigest()}"'.encode()
    web = Path(get_package_web_dir()) / "assets"
    families = [
        *json.loads((web / "FontManifest.json").read_text("utf-8")),
        {"family": "Roboto", "fonts": [{"asset": "fonts/roboto.woff2"}]},
        *json.loads((ASSETS / "fonts" / "fonts.json").read_text("utf-8")),
    ]
    manifest, spare = json.dumps(families).encode(), (web / "fonts" / "roboto.woff2").read_bytes()

    async def outer(scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await inner(scope, receive, send)
            return
        path: str = scope["path"]

        async def noted(message: MutableMapping[str, Any]) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message.get("headers", ()), (b"content-security-policy", POLICY.encode())]
                if log:
                    with log.open("a", encoding="utf-8") as file:
                        file.write(f"{scope['method']} {message['status']} - {path}\n")
            await send(message)

        if path == CLIENT:
            known = (b"if-none-match", mark) in scope["headers"]
            headers = [(b"content-type", b"text/javascript"), (b"etag", mark), (b"cache-control", b"no-cache")]
            await noted({"type": "http.response.start", "status": 304 if known else 200, "headers": headers})
            await noted({"type": "http.response.body", "body": b"" if known else client})
            return
        if path == FONTS or path.startswith(SEARCHED):
            body, kind = (manifest, b"application/json") if path == FONTS else (spare, b"font/woff2")
            length = str(len(body)).encode()
            await noted(
                {
                    "type": "http.response.start",
                    "status": 200,
                    "headers": [(b"content-type", kind), (b"content-length", length)],
                }
            )
            await noted({"type": "http.response.body", "body": body})
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
