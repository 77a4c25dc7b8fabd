"""Nothing confirmed is lost and nothing unconfirmed shows as saved, in random histories of tabs, faults and reloads."""

import os

import pytest

from app.state import FrozenDraft
from tests.app.histories import frozen_demo, play

SHORT, EACH = 150, 10
"""Histories of each store in the short form, 300 in all, and how many one test plays."""
MANY = 5000
"""Histories of each store in the long form."""
FROM, UNTIL = (int(part) for part in os.environ.get("HISTORIES", f"0-{SHORT}").split("-"))


@pytest.fixture(scope="module")
def frozen() -> FrozenDraft:
    return frozen_demo()


@pytest.mark.parametrize("kind", ["memory", "server"])
@pytest.mark.parametrize("first", range(FROM, UNTIL, EACH))
def test_nothing_confirmed_is_lost(kind: str, first: int, frozen: FrozenDraft) -> None:
    for seed in range(first, first + EACH):
        play(seed, kind, frozen)


@pytest.mark.long
@pytest.mark.parametrize("kind", ["memory", "server"])
@pytest.mark.parametrize("first", range(0, MANY, MANY // 20))
def test_nothing_confirmed_is_lost_in_ten_thousand(kind: str, first: int, frozen: FrozenDraft) -> None:
    for seed in range(first, first + MANY // 20):
        play(seed, kind, frozen)
