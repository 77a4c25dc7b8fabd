"""Proof lengths show slips: planted inch slips, a search over every choice, and shapely's distances."""

import json
import math
import re
from dataclasses import replace
from itertools import combinations

import pytest

from drafting.chalk.marks import Mark, PieceMarks, Proof
from drafting.chalk.plan import plan
from drafting.chalk.proof_lengths import PROOFS, SHOWN, choose, shows, unproven
from drafting.contract.pieces import Piece
from drafting.geometry.point import Point
from drafting.order import Order, Result, make
from drafting.record.documents import draft_json
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


def wanted(found: PieceMarks) -> list[Mark]:
    return [mark for mark in found.marks if mark.kind in ("corner", "level")]


def moved(found: PieceMarks, name: str, dx: float, dy: float) -> float:
    """The largest change of a proof length when one mark is chalked off, reckoned here from the readings."""
    places = {mark.id: (mark.across.mm, mark.down.mm) for mark in found.marks}
    off = {**places, name: (places[name][0] + dx, places[name][1] + dy)}
    return max(
        abs(math.dist(off[p.start], off[p.end]) - math.dist(places[p.start], places[p.end])) for p in found.proofs
    )


def slips(found: PieceMarks, kinds: tuple[str, ...]) -> list[float]:
    return [
        shows(found.marks, found.proofs, mark.id, dx, dy)
        for mark in found.marks
        if mark.kind in kinds
        for dx, dy in WAYS
    ]


@pytest.mark.parametrize("tape", TAPES, ids=lambda tape: f"{tape.unit} {tape.step}")
def test_an_inch_on_any_corner_or_level_of_ten_pieces_shows(tape: Tape) -> None:
    seen = []
    for piece in varied():
        found = marked(piece, tape)
        alone = {mark.id for mark in unproven(found.marks, found.proofs)}
        proven = replace(found, marks=tuple(mark for mark in found.marks if mark.id not in alone))
        assert all(moved(found, mark.id, *way) >= SHOWN for mark in wanted(proven) for way in WAYS)
        seen += [moved(found, mark.id, *way) >= SHOWN for mark in wanted(found) for way in WAYS]
    assert len(seen) == 10 * 6 * 4
    assert sum(seen) >= 0.95 * len(seen)


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
    assert all(change >= SHOWN for change in slips(marked(dress()), ("corner", "level")))


def test_four_of_the_five_lengths_leave_a_slip_unseen() -> None:
    found = marked(dress())
    for left_out in found.proofs:
        fewer = PieceMarks(found.piece, found.marks, tuple(proof for proof in found.proofs if proof != left_out))
        assert min(slips(fewer, ("corner", "level", "guide"))) < SHOWN


@pytest.mark.parametrize("tape", [Tape("cm", "0.5"), Tape("in", "1/8"), Tape("cm", "0.5", 1200.0)], ids=str)
def test_every_length_slants_is_on_the_tape_is_told_apart_and_the_sleeve_is_among_them(tape: Tape) -> None:
    """The rules of the issue on whole drafts, the places and distances reckoned here."""
    for body, style in DRAFTS:
        piece = drafted(body, style)
        found = marked(piece, tape)
        places = {mark.id: mark.chalked for mark in found.marks}
        runs = [(places[proof.start], places[proof.end]) for proof in found.proofs]
        assert len(runs) == PROOFS
        for start, end in runs:
            long = math.hypot(end.x - start.x, end.y - start.y)
            assert long <= (tape.length or USUAL_TAPE[tape.unit])
            assert min(abs(end.x - start.x), abs(end.y - start.y)) >= 0.309 * long  # sin 18°
        for (a, b), (c, d) in combinations(runs, 2):
            assert abs(math.dist((a.x, a.y), (b.x, b.y)) - math.dist((c.x, c.y), (d.x, d.y))) >= 10.0
            apart = [
                max(math.dist((a.x, a.y), (e.x, e.y)), math.dist((b.x, b.y), (f.x, f.y))) for e, f in ((c, d), (d, c))
            ]
            assert min(apart) >= 80.0
        ends = {end for proof in found.proofs for end in (proof.start, proof.end)}
        for name in ("underarm", "narrowest"):
            for notch in (notch for notch in piece.notches if notch.id == name):
                near = min(
                    found.marks, key=lambda mark, at=notch.outer: math.dist((mark.point.x, mark.point.y), (at.x, at.y))
                )
                assert near.id in ends, (style, name, near.id)


def test_one_look_is_true_as_drafted_and_false_with_across_and_down_exchanged() -> None:
    for piece in [*varied(), *(drafted(body, style) for body, style in DRAFTS)]:
        found = marked(piece)
        assert found.look is not None
        mark = next(mark for mark in found.marks if mark.id == found.look.mark)
        told = re.match(
            r"Look: \((\d+)\) lies farther (from the fold|down from 0|down from the first 0) than (.*?)\.",
            found.look.says,
        )
        assert told is not None
        assert int(told[1]) == mark.order
        across, down = mark.across.mm, mark.down.mm
        true, exchanged = (
            (across > down, down > across) if told[2] == "from the fold" else (down > across, across > down)
        )
        assert true
        assert not exchanged
        assert abs(across - down) >= 150.0, "a difference that the eye sees"
        assert (found.look.farther == "across") == (told[2] == "from the fold")
        down_from = "down from the first 0" if any(one.zero > 1 for one in found.marks) else "down from 0"
        assert {told[2], told[3]} == {"from the fold", down_from}


def test_a_mark_of_equal_readings_is_never_looked_at() -> None:
    from drafting.chalk.look import look_of

    assert look_of([spot("top", 0, 0, "fold"), spot("a", 500, 400)], "the fold") is None
    far = look_of([spot("top", 0, 0, "fold"), spot("a", 560, 400)], "the fold")
    low = look_of([spot("top", 0, 0, "fold"), spot("a", 400, 560)], "the centre line")
    assert far is not None
    assert low is not None
    assert "farther from the fold than down from 0" in far.says
    assert "farther down from 0 than from the centre line" in low.says


def test_the_look_stands_in_the_steps_and_in_the_record() -> None:
    cloth = {"width": 180, "stretch_across": 60, "stretch_along": 40, "recovery": "good", "one_way": False}
    person = {"name": "A", "kind": "woman", "unit": "cm", "measures": WOMAN}
    made = make(Order.model_validate({"person": person, "style": {}, "cloth": cloth}), with_ways_out=False)
    assert made.plan is not None
    record = json.loads(draft_json(made))
    for piece, marks in zip(record["pieces"], made.plan.pieces, strict=True):
        if marks.same_as is None:
            assert marks.look is not None
            assert piece["look"] == {"mark": marks.look.mark, "farther": marks.look.farther, "says": marks.look.says}
            assert any(marks.look.says in step.says for step in made.plan.steps if step.title == "Proof lengths")


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


@pytest.mark.sampled(4)
@pytest.mark.parametrize("seed", range(8))
def test_no_other_five_lengths_show_more(seed: int) -> None:
    """Against every choice of five of the slanting lengths between six scattered marks."""
    marks = [spot("top", 0, 0, "fold")]
    for number in range(5):
        x, y = 90 + (seed * 131 + number * 227) % 610, 70 + (seed * 173 + number * 389) % 1000
        marks.append(spot(f"m{number}", x, y))
    chosen = choose(marks, EIGHTH)
    pairs = [pair for pair in combinations(marks, 2) if slants(*pair)]
    groups = [group for n in range(1, PROOFS + 1) for group in combinations(pairs, n) if told_apart(group)]
    best = max(shown(marks, proofs_of(group)) for group in groups)
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


def told_apart(group: tuple[tuple[Mark, Mark], ...]) -> bool:
    for (a, b), (c, d) in combinations(group, 2):
        if abs(a.chalked.distance(b.chalked) - c.chalked.distance(d.chalked)) < 10.0:
            return False
        for e, f in ((c, d), (d, c)):
            if max(a.chalked.distance(e.chalked), b.chalked.distance(f.chalked)) < 80.0:
                return False
    return True


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
