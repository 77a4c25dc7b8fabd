"""Which way is taken by itself, what is offered beside it, and what is said of cloth with nap or shade."""

import json
import math
from dataclasses import replace
from itertools import pairwise

import pytest

from drafting.__main__ import main
from drafting.cloth import ClothFacts
from drafting.contract.pieces import Edge, Piece
from drafting.garments.cut_in_one.ways import _sleeves as shorter_sleeves
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Line
from drafting.layout import (
    ONLY_PLAIN,
    FoldLine,
    Layout,
    Place,
    at_table,
    candidates,
    cost,
    going_within,
    lay,
    offers,
    ranked,
    say_laid,
    search,
    way_name,
    widths_side_by_side,
)
from drafting.layout.cost import longest_for, steps_bought
from drafting.layout.ways import plans
from drafting.order import make, ways_to_save
from drafting.record.documents import chalk_sheet_pdf, draft_json
from drafting.record.draft_file import LayoutRecord
from drafting.stepwise import finished
from drafting.units import INCH
from drafting.ways_out.find import with_changes
from drafting.work import DRAFT, Work
from tests.drafting.bodies import BODIES, draft, order, read
from tests.drafting.pdf_reading import open_pdf

#: Unwashed cloth: nothing is lost before cutting, so what is bought is the laid length and 3 cm, rounded up.
HELD = ClothFacts(1500.0, None, 15.0, 0.4, 0.2, 0.02, 0.04, "good", False)


def pages(data: bytes) -> list[str]:
    """The words of every page, with single blanks."""
    return [" ".join(page.extract_text().split()) for page in open_pdf(data).pages]


def block(name: str, width: float, height: float, cut: int = 1) -> Piece:
    """A plain rectangle on the fold."""
    line = (Point(0.0, 0.0), Point(width, 0.0), Point(width, height), Point(0.0, height))
    path = Path(tuple(Line(a, b) for a, b in pairwise(line)))
    return Piece(name, name, cut, True, (Edge("edge", path, line, 0.0),), line, (), (), ())


def layout(fold: str, length: float, chalked: int, folds: int = 0, turned: int = 0) -> Layout:
    """A layout of which only what the choice looks at is real."""
    places = (Place("a", 0, 0), Place("b", 0, 0, turned))
    return Layout(fold, 1500.0, length, length, 0.5, places, 750.0, (FoldLine(0.0, 1.0),) * folds, 0, chalked)


@pytest.mark.parametrize(
    ("length", "steps"), [(970.0, 10), (970.01, 11), (70.0, 1), (1.0, 1), (2369.0, 24), (2371.0, 25)]
)
def test_what_is_bought_is_the_laid_length_and_the_squaring_rounded_up(length: float, steps: int) -> None:
    assert steps_bought(length, HELD, "cm") == steps
    washed = replace(HELD, shrink_across=0.0, shrink_along=0.0)
    assert steps_bought(length, washed, "cm") == math.ceil((length + 30) / 0.95 / 100)
    assert steps_bought(length, HELD, "in") == math.ceil((length + 30) / 114.3)
    for cloth in (HELD, washed, replace(HELD, sold_in="in")):
        most = longest_for(steps, cloth)
        assert steps_bought(most - 0.001, cloth, cloth.sold_in) == steps
        assert steps_bought(most + 0.001, cloth, cloth.sold_in) == steps + 1


def test_each_outline_and_each_folding_costs_ten_centimetres_or_an_eighth_of_a_yard() -> None:
    assert cost(layout("half", 970.0, 2, 1), HELD) == 13
    assert cost(layout("half", 970.0, 3, 1), HELD) == 14
    assert cost(layout("half", 970.0, 2, 2), HELD) == 14
    inches = replace(HELD, sold_in="in")
    assert cost(layout("half", 970.0, 2, 1), inches) == 9 + 3  # 1000 mm are 8.75 eighths of a yard


def test_the_cheapest_is_taken_and_not_the_shortest() -> None:
    folded, spread = layout("half", 970.0, 2, 1), layout("open", 870.0, 4)
    assert ranked((spread, folded), HELD) == (folded, spread)  # 10 + 3 against 9 + 4: as dear, and more work
    less = layout("open", 770.0, 4)
    assert ranked((folded, less), HELD) == (less, folded)  # 8 + 4 against 13
    third = layout("two_folds", 600.0, 9, 2)
    assert ranked((third, folded, spread), HELD) == (folded, third, spread)  # the others by their length


def test_ties_are_settled_whatever_comes_first() -> None:
    alike = [layout(way, 970.0, 2, 1) for way in ("two_folds", "half", "part_fold", "open")]
    for turned in (alike, alike[::-1], alike[2:] + alike[:2]):
        found = ranked(turned, HELD)
        assert [one.way for one in found] == ["half", "open", "two_folds", "part_fold"]
    shorter = layout("open", 960.0, 2, 1)  # the same is bought, and the same is done
    assert ranked((*alike, shorter), HELD)[0] is shorter


def test_a_way_keeps_its_cheapest_plan_and_not_its_shortest() -> None:
    """Folded part-way, the second plan lays the wide piece single: shorter, but two outlines more than it saves."""
    pieces = (block("dress", 300, 800), block("top", 140, 150))
    cloth = replace(HELD, width=1300.0)
    found = candidates(pieces, cloth, ("part_fold",))[0]
    every = []
    for plan in plans(pieces, cloth, "part_fold"):
        alone = [one for step in [plan] for one in _placed(step, pieces, cloth)]
        every += alone
    assert len({(one.chalked, one.foldings) for one in every}) > 1
    shortest = min(every, key=lambda one: one.length)
    assert cost(found, cloth) == min(cost(one, cloth) for one in every)
    assert found.length > shortest.length + 100.0


def _placed(plan: object, pieces: tuple[Piece, ...], cloth: ClothFacts) -> list[Layout]:
    """The shortest layout of one plan alone."""
    from drafting.layout.choice import _layout
    from drafting.layout.placing import place

    best = None
    for tried in place(plan.items):  # type: ignore[attr-defined]
        best = (tried and tried.best) or best
    return [] if best is None else [_layout(plan, best[0], best[1], pieces, cloth)]  # type: ignore[arg-type]


BODY_CASES = [
    (body, style, width)
    for body in ("median woman", "child of 6")
    for style, width in (
        ({"sleeve_length": "elbow"}, "180 cm"),
        ({"lower_sleeve": "joined"}, "140 cm"),
        ({"lower_sleeve": "joined", "centre_back": "seam"}, "150 cm"),
    )
]


@pytest.mark.parametrize(("body", "style", "width"), BODY_CASES)
def test_what_buys_less_than_the_way_taken_is_offered_with_its_price(body, style, width) -> None:
    result = draft(BODIES[body], style, {"width": width})
    cloth, (taken, *others) = result.ready.cloth, result.layouts
    assert result.layout is taken

    def bought(one: Layout) -> int:
        return math.ceil((one.length + 30) / 0.95 / 100 - 1e-9)  # 5 % for the first wash

    def dear(one: Layout) -> int:
        return bought(one) + one.chalked + len(one.folds)

    assert dear(taken) == min(map(dear, result.layouts))
    offered = {offer.layout.way: offer for offer in offers(result.layouts, cloth)}
    assert set(offered) == {one.way for one in others if bought(one) < bought(taken)}
    record = json.loads(draft_json(result))
    assert [one["fold"] for one in record["offers"]] == list(offered)
    for one in record["offers"]:
        other = offered[one["fold"]].layout
        assert one["less"] == 100 * (bought(taken) - bought(other))
        assert one["says"].startswith(f"You buy {10 * (bought(taken) - bought(other))} cm less cloth, ")
        assert one["heed"] == (ONLY_PLAIN if any(place.turned for place in other.places) else "")
        assert LayoutRecord.model_validate(next(r for r in record["layouts"] if r["fold"] == one["fold"]))


def test_an_offer_says_what_it_saves_and_what_it_costs_in_work() -> None:
    taken = layout("half", 1970.0, 2, 1)
    spread, folded = layout("open", 1570.0, 8, 0, 180), layout("two_folds", 1870.0, 2, 2)
    found = offers((taken, spread, folded), HELD)
    assert [(offer.layout.way, offer.less, offer.says, offer.heed) for offer in found] == [
        ("open", 400.0, "You buy 40 cm less cloth, but it takes 8 outlines instead of 2.", ONLY_PLAIN),
        ("two_folds", 100.0, "You buy 10 cm less cloth, but it takes 2 foldings instead of 1.", ""),
    ]
    inches = offers((taken, spread), replace(HELD, sold_in="in"))
    # 2000 and 1600 mm are 18 and 14 eighths of a yard.
    assert inches[0].says == "You buy ½ yd less cloth, but it takes 8 outlines instead of 2."
    both = offers((layout("open", 1970.0, 4), layout("two_folds", 1570.0, 5, 2)), HELD)
    work = "5 outlines instead of 4 and 2 foldings instead of none"
    assert both[0].says == f"You buy 40 cm less cloth, but it takes {work}."
    assert offers((taken, layout("open", 1871.0, 4)), HELD) == (), "as much is bought"
    assert offers((), HELD) == ()


def test_the_command_line_and_the_sheet_tell_the_offers(tmp_path, capsys) -> None:
    typed = order(BODIES["median woman"], {"lower_sleeve": "joined"}, {"width": "140 cm"})
    result = make(read(typed))
    offered = offers(result.layouts, result.ready.cloth)
    assert offered, "there is something to tell"
    (tmp_path / "order.json").write_text(json.dumps(typed), encoding="utf-8")
    assert main([str(tmp_path / "order.json"), "--out", str(tmp_path / "out")]) == 0
    said = capsys.readouterr().out
    sheet = " ".join(pages(chalk_sheet_pdf(result, "A4")))
    for offer in offered:
        assert f"to buy less: {way_name(offer.layout.way).lower()}: {offer.says} {offer.heed}".strip() in said
        assert f"{offer.price[0].upper()}{offer.price[1:]}. {offer.heed}".strip() in sheet
        assert f"{offer.less / 10:g} cm less" in sheet


def test_drawing_sheet_record_and_command_line_say_one_length(tmp_path, capsys) -> None:
    typed = order(BODIES["median woman"], {}, {"width": "160 cm"})
    result = make(read(typed))
    long = say_laid(result.layout.length, "cm")
    assert long == "239 cm"
    (tmp_path / "order.json").write_text(json.dumps(typed), encoding="utf-8")
    assert main([str(tmp_path / "order.json"), "--out", str(tmp_path / "out")]) == 0
    said = capsys.readouterr().out
    assert f"cloth: {long} of cloth" in said
    assert f"{long} of cloth" in (tmp_path / "out" / "cloth.svg").read_text(encoding="utf-8")
    sheet = " ".join(pages(chalk_sheet_pdf(result, "A4")))
    assert f"{long} of cloth 160 cm wide" in sheet
    assert "238.1" not in sheet


# ---- one way ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("said", "turned"), [({}, False), ({"one_way": None}, False), ({"one_way": True}, False),
                                              ({"one_way": False}, True)])  # fmt: skip
def test_no_piece_is_turned_until_a_person_says_that_it_may_be(said, turned) -> None:
    typed = order(BODIES["median woman"], {"sleeve_length": "elbow"}, {"width": "180 cm"})
    typed["cloth"].pop("one_way")
    result = make(read({**typed, "cloth": {**typed["cloth"], **said}}), with_ways_out=False)
    assert result.ready.cloth.one_way is not turned
    assert any(place.turned for one in result.layouts for place in one.places) is turned


def test_where_a_way_turns_a_piece_it_says_what_cloth_it_is_for() -> None:
    result = draft(BODIES["median woman"], {"sleeve_length": "elbow"}, {"width": "180 cm", "lay": "open"})
    assert result.layout.turns
    told = at_table(result.layout, result.draft.pieces, result.ready.tape)
    assert told.laying_out[-1] == f"Pieces are turned head to tail. {ONLY_PLAIN}"
    assert json.loads(draft_json(result))["layout"]["heed"] == ONLY_PLAIN
    assert ONLY_PLAIN in " ".join(pages(chalk_sheet_pdf(result, "A4")))
    upright = draft(BODIES["median woman"], {}, {"width": "180 cm", "lay": "half", "one_way": True})
    assert not upright.layout.turns
    assert ONLY_PLAIN not in " ".join(pages(chalk_sheet_pdf(upright, "A4")))
    all_turned = replace(result.layout, places=tuple(replace(place, turned=180) for place in result.layout.places))
    assert not all_turned.turns, "all one way, only from the other end"
    across = replace(result.layout, way="crosswise", places=(Place("front", 0, 0, 90),))
    assert at_table(across, result.draft.pieces[:1], result.ready.tape).laying_out[-1] == (
        f"Pieces lie across the cloth. {ONLY_PLAIN}"
    )


# ---- widths ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("style", "spare", "result"),
    [
        *(({}, spare, "pass" if spare > 10 else "warn") for spare in (-0.1, 0.1, 9.9, 10.1)),
        *(({"lower_sleeve": "joined"}, spare, "pass" if spare > 10 else "warn") for spare in (-0.1, 0.1, 9.9, 10.1)),
        # A little narrower it still goes open, because the front is narrower than the back.
        *(({"centre_back": "seam"}, spare, "pass" if spare > 10 else "warn") for spare in (0.1, 9.9, 10.1)),
    ],
)
def test_less_than_a_centimetre_to_spare_across_warns(style, spare: float, result: str) -> None:
    plain = draft(BODIES["median woman"], style, {"width": "200 cm"})
    widest = max(piece.width for piece in plain.draft.pieces)
    clearance = 5.0 if style.get("centre_back") == "seam" else 0.0  # a pair lies off the fold
    needs = 2 * (widest + clearance) + 30.0
    made = draft(BODIES["median woman"], style, {"width": f"{needs + spare} mm", "one_way": True})
    check = next(check for check in made.checks if check.id == "fits_cloth")
    assert check.result == result
    assert ("Less than 1 cm of the usable width" in check.says) == (0 < spare < 10)
    assert (made.layout is None) == (spare < 0)


def test_what_helps_a_garment_that_hardly_fits_gives_it_room() -> None:
    typed = order(BODIES["median woman"], {}, {"width": "150 cm"})
    made = make(read(typed))
    check = next(check for check in made.checks if check.id == "fits_cloth")
    assert (check.result, made.layout is not None) == ("warn", True)
    assert {"style.sleeve_length", "cloth.width"} <= {way.changes[0][0] for way in check.ways_out}
    for way in check.ways_out:
        after = make(read(with_changes(typed, way.changes)), with_ways_out=False)
        assert next(check for check in after.checks if check.id == "fits_cloth").result == "pass", way.says


@pytest.mark.parametrize("own", [58 * INCH, 1473.2, 1474.0, 1472.0])
def test_a_width_in_hand_that_is_sold_is_told_once(own: float) -> None:
    rows = widths_side_by_side((block("a", 300, 800),), replace(HELD, width=own), "in")
    assert [round(row.width / INCH) for row in rows] == [36, 45, 54, 58, 60, 63, 70]
    assert own in [row.width for row in rows], "the width in hand is the one that is told"
    other = widths_side_by_side((block("a", 300, 800),), replace(HELD, width=58 * INCH + 1.7), "in")
    assert len(other) == 8


def test_the_progress_shows_the_way_taken_first() -> None:
    pieces = (block("a", 300, 800), block("b", 200, 600))
    for step in search(pieces, HELD):
        if step is not None and step.found:
            assert step.found == ranked(step.found, HELD)
    assert finished(search(pieces, HELD))[0] == lay(pieces, HELD)


def test_only_one_layout_is_the_very_one_among_all() -> None:
    """Asked for alone, the cheapest and the shortest are found with less work, and are no others."""
    for body, style, width in (
        ("median woman", {}, 1500.0),
        ("median woman", {"sleeve_length": "elbow"}, 1800.0),
        ("child of 6", {"lower_sleeve": "joined"}, 1400.0),
        ("median woman", {"lower_sleeve": "joined", "centre_back": "seam"}, 1500.0),
    ):
        pieces = draft(BODIES[body], style, {"width": "200 cm"}).draft.pieces
        cloth = replace(HELD, width=width)
        whole, some = Work(), Work()
        every = finished(search(pieces, cloth, work=whole))
        assert finished(search(pieces, cloth, only="cheapest", work=some)) == every[:1]
        assert some.done <= whole.done
        short = finished(search(pieces, cloth, only="shortest"))
        assert [one.length for one in short] == [min(one.length for one in every)]
        for length in (short[0].length, short[0].length - 1.0):
            within = finished(going_within(pieces, replace(cloth, length=length)))
            assert (within is not None) == (length == short[0].length)


def test_a_search_ends_when_its_work_is_spent_and_tells_what_it_found() -> None:
    pieces = draft(BODIES["median woman"], {"sleeve_length": "elbow"}, {"width": "200 cm"}).draft.pieces
    whole = Work()
    every = finished(search(pieces, HELD, work=whole))
    assert len(every) > 1
    for most in (0, whole.done // 3, whole.done // 2):
        work = Work(most)
        found = finished(search(pieces, HELD, work=work))
        assert work.spent()
        assert work.done <= most + DRAFT // 2, "what was begun is ended"
        assert {one.way for one in found} <= {one.way for one in every}
    assert finished(search(pieces, HELD, work=Work(0))) == ()
    assert finished(search(pieces, HELD, work=Work(2 * whole.done))) == every


def test_a_part_fold_that_only_buys_less_is_still_found() -> None:
    """Its single strip saves 10 cm and costs three more outlines: it is not taken, but offered."""
    pieces = (block("dress", 300, 800), block("sleeve", 140, 100, cut=2))
    cloth = replace(HELD, width=1000.0)
    taken, *others = candidates(pieces, cloth)
    assert (taken.way, steps_bought(taken.length, cloth, "cm")) == ("half", 10)
    part = next(one for one in others if one.way == "part_fold")
    assert part.length == pytest.approx(800.0)
    assert cost(part, cloth) > cost(taken, cloth)
    assert "part_fold" in {offer.layout.way for offer in offers((taken, *others), cloth)}


def test_the_first_shorter_sleeve_tried_has_the_room_it_needs() -> None:
    typed = order(BODIES["median woman"], {}, {"width": "150 cm"})
    tight = make(read(typed), with_ways_out=False).draft
    after = make(read(with_changes(typed, [("style.sleeve_length", shorter_sleeves(tight)[0])])), with_ways_out=False)
    assert next(check for check in after.checks if check.id == "fits_cloth").result == "pass"


@pytest.mark.parametrize(("said", "offered"), [(None, True), (True, False), (False, False)])
def test_head_to_tail_saves_cloth_only_where_nobody_said_how_it_is(said: bool | None, offered: bool) -> None:
    typed = order(BODIES["median woman"], {"sleeve_length": "elbow"}, {"width": "180 cm", "one_way": said})
    saves = ways_to_save(make(read(typed), with_ways_out=False))
    ways = [way for way in saves if ("cloth.one_way", False) in way.changes]
    assert [way.looks for way in ways if len(way.changes) == 1] == ([ONLY_PLAIN] if offered else [])
    assert bool(ways) is offered
