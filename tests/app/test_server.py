"""What the server adds to Flet's answers: our scripts in the page and in the client, and marks to know a file by."""

import asyncio
from pathlib import Path
from typing import Any

import pytest

from app import server

PAGE = b"<html><head><title></title></head></html>"
WEB = Path(server.__file__).resolve().parents[1] / "assets" / "web"


def answer(path: str, *sent: tuple[bytes, bytes], status: int = 200, kind: bytes = b"text/html") -> tuple[Any, bytes]:
    """The first message and the whole body of an answer, behind which an app answers everything with a page."""
    got: list[Any] = []

    async def inner(scope: Any, receive: Any, send: Any) -> None:
        headers = [(b"content-type", kind), (b"content-length", str(len(PAGE)).encode()), (b"x-kept", b"1")]
        await send({"type": "http.response.start", "status": status, "headers": headers})
        await send({"type": "http.response.body", "body": PAGE, "more_body": True})
        await send({"type": "http.response.body", "body": b"", "more_body": False})

    async def send(message: Any) -> None:
        got.append(message)

    async def receive() -> Any:
        return {"type": "http.disconnect"}

    scope = {"type": "http", "method": "GET", "path": path, "headers": list(sent)}
    asyncio.run(server.guard(inner)(scope, receive, send))
    return got[0], b"".join(each["body"] for each in got[1:])


def test_every_page_begins_with_the_script_that_runs_first() -> None:
    start, body = answer("/garment/g1")
    assert body.startswith(b'<html><head><script src="/web/first.js"></script>')
    assert body.replace(b'<script src="/web/first.js"></script>', b"") == PAGE
    headers = dict(start["headers"])
    assert headers[b"content-length"] == str(len(body)).encode()
    assert headers[b"x-kept"] == b"1"
    assert b"default-src 'self'" in headers[b"content-security-policy"]
    assert (WEB / "first.js").is_file()


@pytest.mark.parametrize(("status", "kind"), [(304, b"text/html"), (404, b"text/html"), (200, b"text/javascript")])
def test_what_is_no_page_stays_as_it_is(status: int, kind: bytes) -> None:
    start, body = answer("/other", status=status, kind=kind)
    assert body == PAGE
    assert dict(start["headers"])[b"content-length"] == str(len(PAGE)).encode()


@pytest.mark.parametrize("path", [server.CLIENT, server.FONTS, server.AWAKE, f"{server.SEARCHED}/some.woff2"])
def test_our_own_files_are_sent_once(path: str) -> None:
    start, body = answer(path)
    assert start["status"] == 200
    assert len(body) > 100
    mark = dict(start["headers"])[b"etag"]
    again, nothing = answer(path, (b"if-none-match", mark))
    assert (again["status"], nothing) == (304, b"")
    assert answer(path, (b"if-none-match", b'"another"'))[1] == body


def test_our_script_comes_behind_the_clients_own() -> None:
    _, body = answer(server.AWAKE)
    assert body.endswith((WEB / "awake.js").read_bytes())
    assert body.index(b"var Wakelock") < body.index(b"Wakelock.toggle = ")
