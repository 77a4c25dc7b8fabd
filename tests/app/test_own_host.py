"""The client asks no other host for a script: what is changed for it, and where it is served."""

import asyncio
import re
from pathlib import Path
from typing import Any

import pytest
from flet_web import get_package_web_dir

from app import server
from app.own_host import asking_no_other_host


@pytest.fixture(scope="module")
def client() -> bytes:
    return (Path(get_package_web_dir()) / "main.dart.js").read_bytes()


def test_the_one_script_of_another_host_is_never_put_on_the_page(client: bytes) -> None:
    changed = asking_no_other_host(client)
    start = next(at for at, (old, new) in enumerate(zip(client, changed, strict=False)) if old != new)
    gone = len(client) - len(changed)
    assert changed[start:] == client[start + gone :], "in one place"
    assert 0 < gone < 40
    put = rb"\.document\.body\.append\("
    assert len(re.findall(put, client)) == len(re.findall(put, changed)) + 1
    assert b'createElement("script")' in client[start - 200 : start]


@pytest.mark.parametrize("times", [0, 2])
def test_a_client_that_is_not_known_is_not_changed(client: bytes, times: int) -> None:
    with pytest.raises(ValueError, match=f"{times} scripts of another host"):
        asking_no_other_host(client * times)


def test_a_server_sends_the_changed_client() -> None:
    got: list[Any] = []

    async def none(*given: Any) -> None:
        raise AssertionError("our own files are not asked of Flet")

    async def send(message: Any) -> None:
        got.append(message)

    scope = {"type": "http", "method": "GET", "path": server.CLIENT, "headers": []}
    asyncio.run(server.guard(none)(scope, none, send))
    with pytest.raises(ValueError, match="0 scripts"):
        asking_no_other_host(got[1]["body"])
