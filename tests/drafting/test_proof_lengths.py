"""Proof lengths show slips: planted inch slips, a search over every choice, and shapely's distances."""

import math
import re
from itertools import combinations

import pytest

from drafting.chalk import plan
from drafting.chalk_marks import Mark, PieceMarks, Proof
from drafting.geometry.point import Point
from drafting.order import Order, Result, make
from drafting.pieces import Piece
from drafting.proof_lengths import PROOFS, SHOWN, choose, shows, unproven
from drafting.units import INCH, TAPES, USUAL_TAPE, Tape
from tests.drafting.chalk_piece import dress, varied

EIGHTH = Tape("in", "1/8")
WAYS = ((INCH, 0.0), (-INCH, 0.0), (0.0, INCH), (0.0, -INCH))


WOMAN = {"stature": 163, "bust_girth": 96, "waist_girth": 80, "hip_girth": 103, "head_girth": 56}
MAN = {"stature": 178, "bust_girth": 104, "waist_girth": 92, "hip_girth": 102}
SHAPES: tuple[dict[str, object], ...] = (
    {},
    {"flare": "bell", "body": "flared"},
    {"flare": "wide", "overarm_angle": 0, "underarm": "deep"},
    {"sleeve_length": 25, "length": "ankle"},
    {"length": "hip", "narrowest_at": 1},
)
DRAFTS = [(body, shape) for body in (WOMAN, MAN) for shape in SHAPES]


def drafted(body: dict[str, int], style: dict[str, object]) -> Piece:
    cloth = {"width": 180, "stretch_across": 60, "stretch_along": 40, "recovery": "good", "one_way": False}
    person = {"name": "A", "kind": "man" if body is MAN else "woman", "unit": "cm", "measures": body}
    order = Order.model_validate({"person": person, "style": style, "cloth": cloth})
    made = make(order, with_ways_out=False)
    assert isinstance(made, Result)
    return made.draft.pieces[0]


def marked(piece: Piece, tape: Tape = EIGHTH) -> PieceMarks:
    return plan((piece,), tape).pieces[0]


def slips(found: PieceMarks, kinds: tuple[str, ...]) -> list[float]:
    return [
        shows(found.marks, found.proofs, mark.id, dx, dy)
        for mark in found.marks
        if mark.kind in kinds
        for dx, dy in WAYS
    ]


@pytest.mark.parametrize("tape", TAPES, ids=lambda tape: f"{tape.unit} {tape.step}")
def test_an_inch_on_any_corner_or_level_of_ten_pieces_shows(tape: Tape) -> None:
    seen = [change >= SHOWN for piece in varied() for change in slips(marked(piece, tape), ("corner", "level"))]
    assert len(seen) == 10 * 6 * 4
    assert all(seen)


def test_an_inch_on_corners_and_levels_of_ten_drafts_shows() -> None:
    seen = []
    for body, style in DRAFTS:
        found = marked(drafted(body, style))
        changes = slips(found, ("corner", "level"))
        seen.extend(change >= SHOWN for change in changes)
        assert len(found.proofs) == PROOFS
        assert (min(changes) < SHOWN) == bool(unproven(found.marks, found.proofs))
    assert sum(seen) >= 0.95 * len(seen)


def test_what_five_lengths_cannot_prove_is_to_be_measured_twice() -> None:
    found = plan((dress(sleeve=0.1),), EIGHTH)
    alone = unproven(found.pieces[0].marks, found.pieces[0].proofs)
    says = next(step.says for step in found.steps if step.title == "Proof lengths")
    assert alone
    listed = re.split(r"measure (?:it|them) twice", says)[1]
    assert all(f"({mark.order}) {mark.label[0].lower()}{mark.label[1:]}" in listed for mark in alone)
    assert " twice" not in str(plan((dress(),), EIGHTH).steps)


def test_guides_are_proven_too_where_five_lengths_reach() -> None:
    seen = [change >= SHOWN for piece in varied() for change in slips(marked(piece), ("guide",))]
    assert sum(seen) >= 0.9 * len(seen)
    assert all(change >= SHOWN for change in slips(marked(dress()), ("corner", "level", "guide")))


def test_four_of_the_five_lengths_leave_a_slip_unseen() -> None:
    found = marked(dress())
    for left_out in found.proofs:
        fewer = PieceMarks(found.piece, found.marks, tuple(proof for proof in found.proofs if proof != left_out))
        assert min(slips(fewer, ("corner", "level", "guide"))) < SHOWN


def test_five_lengths_slant_between_marks_that_are_no_curve_points_within_reach_of_a_tape() -> None:
    for piece in varied():
        found = marked(piece)
        places = {mark.id: mark for mark in found.marks}
        assert len(found.proofs) == PROOFS
        assert len({(proof.start, proof.end) for proof in found.proofs}) == PROOFS
        for proof in found.proofs:
            start, end = places[proof.start], places[proof.end]
            assert "curve" not in (start.kind, end.kind)
            assert proof.length <= USUAL_TAPE["cm"]
            if piece.anchors[4].point.x > 1.9 * piece.anchors[9].point.x:  # a sleeve that reaches past the hem
                away = end.chalked - start.chalked
                angle = math.degrees(math.atan2(abs(away.y), abs(away.x)))
                assert 18.0 - 1e-9 <= angle <= 72.0 + 1e-9


@pytest.mark.outside
def test_lengths_lie_between_the_chalked_places() -> None:
    from shapely import Point as Place

    for tape in TAPES:
        found = marked(dress(), tape)
        places = {mark.id: Place(mark.across.mm, mark.down.mm) for mark in found.marks}
        for proof in found.proofs:
            assert proof.length == pytest.approx(places[proof.start].distance(places[proof.end]), abs=1e-9)
            assert proof.reads == tape.reading(proof.length)


def test_shows_takes_the_slipped_place_itself() -> None:
    first, second = spot("a", 0, 0), spot("b", 300, 400)
    proof = Proof("a", "b", 500.0, EIGHTH.reading(500.0))
    at = second.chalked
    told = shows((first, second), (proof,), "b", 25.4, 0.0)
    assert told == pytest.approx(math.hypot(at.x + 25.4, at.y) - math.hypot(at.x, at.y), abs=1e-12)
    assert shows((first, second), (proof,), "a", -25.4, 0.0) == pytest.approx(told, abs=1e-12)
    assert shows((first, second), (), "a", 25.4, 0.0) == 0.0


@pytest.mark.parametrize("seed", range(8))
def test_no_other_five_lengths_show_more(seed: int) -> None:
    """Against every choice of five of the slanting lengths between six scattered marks."""
    marks = [spot("top", 0, 0, "fold")]
    for number in range(5):
        x, y = 90 + (seed * 131 + number * 227) % 610, 70 + (seed * 173 + number * 389) % 1000
        marks.append(spot(f"m{number}", x, y))
    chosen = choose(marks, EIGHTH)
    pairs = [pair for pair in combinations(marks, 2) if slants(*pair)]
    best = max(shown(marks, proofs_of(group)) for group in combinations(pairs, min(PROOFS, len(pairs))))
    assert shown(marks, chosen) >= best


def test_few_or_no_lengths_when_there_are_few_marks() -> None:
    assert choose([spot("top", 0, 0, "fold")], EIGHTH) == ()
    assert len(choose([spot("top", 0, 0, "fold"), spot("a", 300, 300)], EIGHTH)) == 1


def test_the_same_marks_give_the_same_lengths() -> None:
    assert [marked(piece).proofs for piece in varied()] == [marked(piece).proofs for piece in varied()]


def spot(name: str, x: float, y: float, kind: str = "corner") -> Mark:
    across, down = EIGHTH.reading(x), EIGHTH.reading(y)
    return Mark(name, name, kind, Point(x, y), across, down, 1, "straight", "widths")  # type: ignore[arg-type]


def slants(first: Mark, second: Mark) -> bool:
    away = second.chalked - first.chalked
    return away.length() >= 100 and min(abs(away.x), abs(away.y)) >= math.sin(math.radians(18)) * away.length()


def proofs_of(group: tuple[tuple[Mark, Mark], ...]) -> tuple[Proof, ...]:
    return tuple(Proof(a.id, b.id, a.chalked.distance(b.chalked), EIGHTH.reading(1.0)) for a, b in group)


def shown(marks: list[Mark], proofs: tuple[Proof, ...]) -> int:
    """Slips of the marks off the fold that the lengths show, counted from the two distances of each."""
    places = {mark.id: mark.chalked for mark in marks}
    count = 0
    for mark in marks[1:]:
        ends = [places[p.end if p.start == mark.id else p.start] for p in proofs if mark.id in (p.start, p.end)]
        at = mark.chalked
        for dx, dy in WAYS:
            moved = (math.hypot(at.x + dx - e.x, at.y + dy - e.y) - math.hypot(at.x - e.x, at.y - e.y) for e in ends)
            count += any(abs(change) >= SHOWN for change in moved)
    return count
