"""What the server adds to Flet's answers: our scripts in the page and in the client, and marks to know a file by."""

import asyncio
from pathlib import Path
from typing import Any

import pytest

from app import server
from app.own_host import asking_no_other_host

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


def policy_in(start: Any) -> str:
    return dict(start["headers"])[b"content-security-policy"].decode()


def test_a_page_is_sent_anew_with_a_nonce_for_once() -> None:
    (first, _), (second, _) = answer("/"), answer("/")
    nonces = {part for each in (first, second) for part in policy_in(each).split() if "nonce" in part}
    assert len(nonces) == 2
    assert dict(first["headers"])[b"cache-control"] == b"no-store"
    for kind in (b"text/html", b"text/html,application/xhtml+xml"):
        kept = server.asked_anew([(b"accept", kind), (b"if-none-match", b"1"), (b"if-modified-since", b"2")])
        assert kept == [(b"accept", kind)]
    assert len(server.asked_anew([(b"accept", b"*/*"), (b"if-none-match", b"1")])) == 2, "files may be kept"


@pytest.mark.parametrize(("path", "kind"), [("/", b"text/html"), ("/x.js", b"text/javascript"), (server.CLIENT, b"")])
def test_no_policy_lets_text_be_run(path: str, kind: bytes) -> None:
    policy = policy_in(answer(path, kind=kind)[0])
    assert "'unsafe-" not in policy
    assert "default-src 'self'" in policy


@pytest.mark.parametrize(
    ("host", "reach"),
    [
        (b"127.0.0.1:8000", "ws://127.0.0.1:8000 wss://127.0.0.1:8000"),
        (b"[fe80::1]:8000", "ws://[fe80::1]:8000 wss://[fe80::1]:8000"),
        (b"sewing-room.local", "ws://sewing-room.local wss://sewing-room.local"),
        (b"a; script-src *", ""),
        (b"a b", ""),
        (b"", ""),
    ],
)
def test_a_page_connects_to_its_own_host_alone(host: bytes, reach: str) -> None:
    policy = policy_in(answer("/", (b"host", host))[0])
    found = [each for each in policy.split("; ") if each.startswith("connect-src")]
    assert found == ([f"connect-src 'self' blob: data: {reach}"] if reach else [])


def test_the_client_of_a_server_asks_no_other_host_and_takes_the_nonce() -> None:
    assert b"?.nonce" in answer(server.START)[1]
    _, client = answer(server.CLIENT)
    with pytest.raises(ValueError, match="0 scripts"):
        asking_no_other_host(client)
