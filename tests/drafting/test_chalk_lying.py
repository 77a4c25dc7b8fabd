"""The steps at the table tell the truth for every way of laying and every piece."""

import re

import pytest

from drafting.chalk.lying import lyings
from drafting.chalk.plan import ChalkPlan, plan
from drafting.chalk.words.places import TOWARDS
from drafting.geometry.point import Point
from drafting.layout import at_table, in_cutting_order
from drafting.layout.shapes import moved
from drafting.units import Tape
from tests.drafting.laid_cases import CASES, laid_case

TAPE = Tape("cm", "0.5")


def told(name: str) -> ChalkPlan:
    result, layout = laid_case(name)
    return plan(result.draft.pieces, TAPE, layout=layout)


def says(made: ChalkPlan, piece: str) -> str:
    return " ".join(step.says for step in made.steps if step.piece == piece and step.title not in {"Count", "Places"})


@pytest.mark.parametrize("name", [name for name, case in CASES.items() if case[3] == "open"])
def test_nothing_laid_open_is_on_a_fold(name: str):
    made = told(name)
    for step in made.steps:
        assert "fold" not in step.says.lower(), step
        assert "both layers" not in step.says, step
    for piece in made.pieces:
        assert all("fold" not in mark.label for mark in piece.marks)
    assert "The other half" in [step.title for step in made.steps]


@pytest.mark.parametrize("name", CASES)
def test_only_what_lies_on_a_fold_is_kept_uncut_there(name: str):
    result, layout = laid_case(name)
    made = told(name)
    for piece in result.draft.pieces:
        places = [place for place in layout.places if place.piece == piece.name]
        across = layout.way == "crosswise" and places[0].layers == 2
        folded = piece.on_fold and (across or not places[0].opened)
        assert ("Never cut the fold" in says(made, piece.name)) == folded, piece.name
        cut = next(step.says for step in made.steps if step.piece == piece.name and step.title == "Cut")
        assert ("through both layers" in cut) == (places[0].layers == 2)
        assert ("centre line" in says(made, piece.name)) == (piece.on_fold and not folded)
        if not piece.on_fold:
            assert "centre back cutting line" in says(made, piece.name)
            assert f"{piece.name} on the fold" not in made.steps[-1].says


@pytest.mark.parametrize("name", CASES)
def test_every_place_is_told_by_its_readings(name: str):
    result, layout = laid_case(name)
    made = told(name)
    everything = " ".join(step.says for step in made.steps)
    if name.startswith("half") and all(not place.opened for place in layout.places):
        assert "Chalk 0 at the top of the fold" in everything
        return
    places = next(step.says for step in made.steps if step.title == "Places")
    for laying in at_table(layout, result.draft.pieces, TAPE).layings:
        if laying.across.steps:
            assert f"{laying.across.pretty} from {laying.counted_from}" in places
        assert laying.down.steps == 0 or f"{laying.down.pretty} from the cut end" in places
    for place in in_cutting_order(layout, result.draft.pieces):
        if place.turned % 360 == 180:
            assert "towards the cut end" in says(made, place.piece)
    titles = [step.title for step in made.steps]
    for piece in result.draft.pieces:
        more = sum(place.piece == piece.name for place in layout.places) - 1
        assert titles.count(f"The second {piece.label.lower()}") == min(more, 1)


def test_the_lower_sleeve_has_its_own_words():
    for name in ("half, joined", "seam, joined", "crosswise, joined with a seam", "part fold, joined"):
        made = told(name)
        spoken = says(made, "lower_sleeve")
        for wrong in ("shoulder", "neck", "column", "bust", "waist", "hip", "hem"):
            assert re.search(rf"\b{wrong}\b", spoken) is None, (name, wrong)
        for right in ("sleeve end", "joint", "under seam"):
            assert right in spoken
        marks = next(piece for piece in made.pieces if piece.piece == "lower_sleeve")
        assert {mark.stage for mark in marks.marks} <= {"levels", "widths", "sleeve"}
        assert marks.proofs
        front = next(piece for piece in made.pieces if piece.piece == "front")
        assert not any("sleeve end" in mark.label for mark in front.marks), "the upper sleeve ends in its joint"


def test_the_back_is_chalked_from_the_front_where_it_lies():
    assert "fold to fold" in says(told("two folds"), "back")
    assert "right fold" in says(told("two folds"), "back")
    assert "opened out flat" in says(told("open"), "back")
    assert "fold the other end over" in says(told("crosswise"), "back")
    assert "next length" in says(told("half"), "back")


def test_pieces_are_counted_in_the_plural():
    for name in CASES:
        count = told(name).steps[-1].says
        for number, word in re.findall(r"(\d+) (lower sleeve\w*|back\w*|front\w*)", count):
            assert word.endswith("s") == (int(number) > 1)


@pytest.mark.parametrize("name", CASES)
def test_down_and_across_run_as_the_piece_lies(name: str):
    """The two directions in words, against a step down and a step across on the piece as it is turned and mirrored."""
    result, layout = laid_case(name)
    sides = {
        "half": ("towards the fold", "towards the selvages"),
        "two_folds": ("towards the left fold", "towards the right fold"),
    }.get(layout.way, ("to the left", "to the right"))
    for lies in lyings(result.draft.pieces, layout, TAPE):
        for spot in lies.spots:
            at = spot.at
            origin, down, across = moved(
                (Point(0, 0), Point(0, 1), Point(1, 0)), at.turned, at.mirrored, at.x, at.y
            )  # fmt: skip
            step = down - origin
            runs = {
                (0, 1): "away from the cut end",
                (0, -1): "towards the cut end",
                (-1, 0): "towards the left edge",
                (1, 0): "towards the right edge",
            }[round(step.x), round(step.y)]
            assert TOWARDS[spot.down] == runs
            assert spot.turned == (runs == "towards the cut end")
            if lies.kind == "half":
                aside = across - origin
                expected = {
                    (-1, 0): sides[0],
                    (1, 0): sides[1],
                    (0, 1): "away from the cut end",
                    (0, -1): "towards the cut end",
                }[round(aside.x), round(aside.y)]
            else:
                expected = "to both sides of it" if lies.kind == "whole" else "away from the fold"
            assert TOWARDS[spot.across] == expected
