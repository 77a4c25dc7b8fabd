"""The change that makes Flet's client keep to the reading order: what is changed, and where it is served."""

from pathlib import Path

import pytest
from flet_web import get_package_web_dir

from app.reading_order import in_reading_order


@pytest.fixture(scope="module")
def client() -> bytes:
    return (Path(get_package_web_dir()) / "main.dart.js").read_bytes()


def test_only_the_end_of_what_scrolls_is_changed(client: bytes) -> None:
    changed = in_reading_order(client)
    start = next(at for at, (old, new) in enumerate(zip(client, changed, strict=False)) if old != new)
    longer = len(changed) - len(client)
    assert changed[start - 9 :].startswith(b")}return A.")
    assert changed[start + 1 + longer :] == client[start + 1 :]
    assert 0 < longer < 30


@pytest.mark.parametrize("times", [0, 2])
def test_a_client_that_is_not_known_is_not_changed(client: bytes, times: int) -> None:
    with pytest.raises(ValueError, match=f"{times} makers of groups and {times} that scroll"):
        in_reading_order(client * times)
