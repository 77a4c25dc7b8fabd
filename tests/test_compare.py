"""`build/compare` notices what differs between two drafts, and nothing else."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "build"))

import compare

DRAFT = {"width": 12.5, "says": ["The neck opens."], "places": [[1.0, 2.0], [3.0, 4.0]], "good": True, "none": None}


def kinds(other: object) -> list[str]:
    return [place for place, _ in compare.differences(DRAFT, other, "")]


@pytest.mark.parametrize("moved", [0.0, 0.9e-9, -0.9e-9])
def test_the_same_numbers_and_words_differ_nowhere(moved: float) -> None:
    assert kinds({**DRAFT, "width": 12.5 + moved}) == []


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("width", 12.5 + 1.1e-9),
        ("width", 12.5 - 1.1e-9),
        ("width", "12.5"),
        ("says", ["The neck opens"]),
        ("says", []),
        ("places", [[1.0, 2.0], [3.0, 4.00001]]),
        ("good", 1),
        ("none", 0),
        ("more", "a word"),
    ],
)
def test_every_difference_is_told_with_its_place(key: str, value: object) -> None:
    assert kinds({**DRAFT, key: value}) == [f"/{key}"]


def test_what_is_left_out_is_told() -> None:
    assert kinds({key: value for key, value in DRAFT.items() if key != "good"}) == ["/good"]


def test_drafts_are_paired_by_person_and_style() -> None:
    before = [["Ilse", "plain", 1], ["Ilse", "wide", 2], ["Otto", "plain", 3], ["Otto", "wide", 4]]
    after = [["Ilse", "plain", 1], ["Ilse", "new", 9], ["Ilse", "wide", 2], ["Otto", "plain", 3], ["Otto", "new", 9]]
    found = list(compare.paired(iter(before), iter(after)))
    assert found == [
        (["Ilse", "plain", 1], ["Ilse", "plain", 1]),
        (["Ilse", "wide", 2], ["Ilse", "wide", 2]),
        (None, ["Ilse", "new", 9]),
        (["Otto", "plain", 3], ["Otto", "plain", 3]),
        (["Otto", "wide", 4], None),
        (None, ["Otto", "new", 9]),
    ]
