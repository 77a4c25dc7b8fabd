"""A garment that fits, measured flat: drafted for a body and measured on its pieces, it tells that body again."""

import math
from itertools import pairwise
from typing import Any, get_args

import pytest

from drafting.cloth import Fit, ease_share
from drafting.contract.set_out import SetOut
from drafting.garments import garments
from drafting.order import prepare, read_order
from drafting.person.flat_fields import FLAT_CHOICES, FLAT_FIELDS
from drafting.person.from_garment import READ_WITHIN, FlatGarment, FromGarment, Told, read_flat
from drafting.person.measures import MEASURES, Body, Kind, all_for
from tests.drafting.bodies import BODIES, MEDIAN_WOMAN, draft, order, read, set_out

STRETCHES = (0, 20, 40, 75, 120)
STRAIGHT = "The sides of the garment run straight past the waist."
WIDE = "The sleeve ends above the wrist, or it is wide there."
FITS: tuple[Fit, ...] = ("close", "regular", "loose")
#: A shaped body and a sleeve to the wrist, so that every measure can be told.
SHAPED = {"waist": "shaped", "length": "mid_thigh", "sleeve_length": "wrist"}


def body_of(drafted: SetOut) -> Body:
    return drafted.body


def measured(drafted: SetOut) -> dict[str, float]:
    """The garment sewn and laid flat: half of each girth, and the lengths, mm."""
    girths = {girth.at: girth.girth for girth in drafted.girths}
    return {
        "half_chest": girths["bust"] / 2,
        "half_waist": girths["waist"] / 2,
        "half_hip": girths["hip"] / 2,
        "half_hem": girths["hem"] / 2,
        "half_upper_arm": girths.get("underarm", girths.get("upper_arm", 0.0)) / 2,
        "half_wrist": girths["sleeve_end"] / 2,
        "side_neck_to_hem": drafted.choices.length,
        "along_sleeve": drafted.choices.sleeve_length,
    }


def flat(kind: Kind, stature: float, stretch: float, fit: Fit, mm: dict[str, float], **more: Any) -> FlatGarment:
    typed = {name: f"{value:.3f} mm" for name, value in mm.items()}
    given: dict[str, Any] = {
        "kind": kind, "unit": "cm", "stature": f"{stature} mm", "stretch_across": stretch, "fit": fit,
    }  # fmt: skip
    return FlatGarment(**{**given, **typed, **more})


def told(garment: FlatGarment) -> tuple[FromGarment, dict[str, Told]]:
    found, problems = read_flat(garment)
    assert problems == ()
    assert found is not None
    return found, {one.measure: one for one in found.told}


def refused(**changes: Any) -> dict[str, Any]:
    """The problems with a garment of 48 cm half chest that is changed so, by their fields."""
    given = {"kind": "woman", "unit": "cm", "stature": 168, "stretch_across": 40, "half_chest": 48, **changes}
    found, problems = read_flat(FlatGarment(**given))
    assert (found is None) == bool(problems)
    assert all(problem.severity == "refuse" for problem in problems)
    assert not any(text.endswith(".") for problem in problems for text in (problem.wrong, problem.fix))
    return {problem.field: problem for problem in problems}


@pytest.mark.parametrize("fit", FITS)
@pytest.mark.parametrize("stretch", STRETCHES)
@pytest.mark.parametrize("name", sorted(BODIES))
def test_a_garment_drafted_for_a_body_tells_that_body_again(name: str, stretch: int, fit: Fit) -> None:
    style = {**SHAPED, "fit": fit}
    drafted = set_out(BODIES[name], style, {"stretch_across": stretch})
    if drafted.refused or not drafted.pieces:
        pytest.skip("no such garment can be set out")
    body, moved = body_of(drafted), {one.key for one in drafted.adjusted}
    found, by_name = told(flat(body.kind, body.stature, stretch, fit, measured(drafted)))
    assert found.stature == pytest.approx(body.stature, abs=0.01)
    bust, hip, arm = by_name["bust_girth"], by_name["hip_girth"], by_name["arm_length"]
    if "ease_bust" not in moved:
        assert bust.value == pytest.approx(body.bust_girth, abs=0.1)
    if "ease_hip" not in moved and not hip.at_most:
        assert hip.value == pytest.approx(body.hip_girth, abs=0.1)
    assert arm.value == pytest.approx(body.arm_length, abs=0.1)
    for one in found.told:
        truly = getattr(body, one.measure)
        assert one.value >= truly - one.within, f"{one.measure} is never told smaller than it is"
        if not one.at_most and not moved & {"ease_bust", "ease_hip"}:
            assert one.value <= truly + one.within
        assert one.within >= 2 * READ_WITHIN / 1.3
    assert found.side_neck_to_hem == pytest.approx(drafted.choices.length, abs=0.01)
    assert found.hem_girth == pytest.approx(2 * measured(drafted)["half_hem"], abs=0.01)


@pytest.mark.parametrize("name", ["median woman", "man", "child of 12"])
def test_a_garment_drafted_from_what_was_told_is_the_old_one(name: str) -> None:
    stretch, style = 40, {**SHAPED, "fit": "regular"}
    old = set_out(BODIES[name], style, {"stretch_across": stretch})
    found, _ = told(flat(body_of(old).kind, body_of(old).stature, stretch, "regular", measured(old)))
    must = garments()["cut_in_one"].required_of(body_of(old).kind)
    taken = {one: f"{getattr(body_of(old), one)} mm" for one in must}  # a child's head is taken in any case
    person = {"kind": body_of(old).kind, "age": body_of(old).age, "measures": {**taken, **found.measures}}
    new = set_out(person, {**style, "length": f"{found.side_neck_to_hem} mm"}, {"stretch_across": stretch})
    for where in ("bust", "waist", "hip"):
        before, after = (next(one.girth for one in each.girths if one.at == where) for each in (old, new))
        assert after == pytest.approx(before, abs=12.0), where
    assert {one.measure for one in body_of(new).estimates} >= {one.measure for one in found.left} - set(must)
    assert not {"bust_girth", "hip_girth", "arm_length"} & {one.measure for one in found.left}


def test_the_halves_are_those_of_the_pieces_on_the_cloth() -> None:
    """A front on its fold lies as wide as the garment is flat: twice how far its side lies from the fold."""
    result = draft(BODIES["median woman"], {"length": "hip", "sleeve_length": "wrist"}, garment="drop_shoulder")
    front = result.draft.pieces[0]
    at = next(level for level in front.levels if level.key == "underarm").down
    line = [point for point in front.stitch_line if point.x > 100]
    ends = [(a, b) for a, b in pairwise(line) if a.y != b.y and (a.y - at) * (b.y - at) <= 0]
    widest = max(a.between(b, (at - a.y) / (b.y - a.y)).x for a, b in ends)
    assert widest * 2 == pytest.approx(measured(result.draft)["half_chest"], abs=1.5)


def test_a_dropped_shoulder_is_one_fit_looser_and_tells_no_arm_too_small() -> None:
    drafted = set_out(BODIES["median woman"], {"fit": "regular", "sleeve_length": "wrist"}, garment="drop_shoulder")
    body = body_of(drafted)
    _, by_name = told(flat("woman", body.stature, 40, "loose", measured(drafted)))
    assert by_name["bust_girth"].value == pytest.approx(body.bust_girth, abs=0.5)
    for name in ("upper_arm_girth", "wrist_girth"):
        assert getattr(body, name) - by_name[name].within <= by_name[name].value <= getattr(body, name) + 45


@pytest.mark.parametrize("stretch", STRETCHES)
def test_the_ease_is_that_of_the_cloth_turned_round(stretch: int) -> None:
    values = {}
    for fit in FITS:
        _, by_name = told(flat("woman", 1680, stretch, fit, {"half_chest": 480.0}))
        values[fit] = by_name["bust_girth"]
        assert by_name["bust_girth"].value * (1 + ease_share(stretch / 100, fit)) == pytest.approx(960.0)
    apart = [values["close"].value - values["regular"].value, values["regular"].value - values["loose"].value]
    assert min(apart) > 0, "what is worn closer is worn by a larger body"
    reading = 2 * READ_WITHIN / (1 + ease_share(stretch / 100, "regular"))
    assert values["regular"].within == pytest.approx(reading + min(apart) / 2)
    assert not values["regular"].at_most


def test_each_measure_says_what_told_it_and_what_is_left_says_why() -> None:
    mm = {"half_chest": 480.0, "half_waist": 420.0, "half_hip": 510.0, "half_upper_arm": 200.0, "half_wrist": 120.0,
          "along_sleeve": 570.0}  # fmt: skip
    found, by_name = told(flat("woman", 1630, 40, "regular", mm))
    assert {one.measure: (one.field, one.at_most) for one in found.told} == {
        "bust_girth": ("half_chest", False),
        "waist_girth": ("half_waist", True),
        "hip_girth": ("half_hip", False),
        "arm_length": ("along_sleeve", False),
        "upper_arm_girth": ("half_upper_arm", True),
        "wrist_girth": ("half_wrist", True),
    }
    assert by_name["upper_arm_girth"].value == pytest.approx(400 - 80)
    assert by_name["wrist_girth"].value == pytest.approx(240 - 50)
    assert by_name["wrist_girth"].within == pytest.approx(5 + 15)
    names = [name for name in all_for("woman") if name != "stature"]
    assert sorted([one.measure for one in found.told] + [one.measure for one in found.left]) == sorted(names)
    assert [one.measure for one in found.told] == [name for name in MEASURES if name in by_name], "in the table's order"
    why = {one.measure: one.why for one in found.left}
    assert why["head_girth"] == "A garment that lies flat does not show it."
    assert (found.side_neck_to_hem, found.hem_girth, found.along_sleeve) == (None, None, 570.0)
    assert found.measures["stature"] == "1630.0 mm"
    assert found.measures["wrist_girth"] == "190.0 mm"
    child, _ = told(flat("child", 1200, 40, "regular", {"half_chest": 330.0}))
    assert "upper_chest_girth" not in {one.measure for one in child.left}


@pytest.mark.parametrize(
    ("changes", "measure", "why"),
    [
        ({"half_waist": 471.0}, "waist_girth", STRAIGHT),
        ({"half_waist": 469.0}, "waist_girth", ""),
        (
            {"half_waist": 435.0, "half_hip": 440.0},
            "waist_girth",
            "The sides of the garment run straight past the waist.",
        ),
        ({}, "waist_girth", "It was not measured on the garment."),
        ({"half_upper_arm": 150.0, "half_wrist": 150.0}, "wrist_girth", WIDE),
        ({"half_upper_arm": 150.0, "half_wrist": 149.0}, "wrist_girth", ""),
        ({"half_wrist": 120.0, "ends_at": "above"}, "wrist_girth", WIDE),
        ({"along_sleeve": 400.0, "ends_at": "above"}, "arm_length", "The sleeve ends above the wrist."),
        ({"along_sleeve": 400.0}, "arm_length", ""),
        ({"half_wrist": 154.0}, "wrist_girth", ""),
        ({"half_wrist": 156.0}, "wrist_girth", WIDE),
        ({"half_upper_arm": 341.0}, "upper_arm_girth", ""),
        ({"half_upper_arm": 342.0}, "upper_arm_girth", "The sleeve is so wide that it tells nothing of the arm."),
    ],
)
def test_what_a_garment_cannot_tell_is_left(changes: dict[str, Any], measure: str, why: str) -> None:
    more = {"ends_at": changes.pop("ends_at")} if "ends_at" in changes else {}
    found, by_name = told(flat("woman", 1680, 40, "regular", {"half_chest": 480.0, **changes}, **more))
    assert {one.measure: one.why for one in found.left}.get(measure, "") == why
    assert (measure in by_name) == (why == "")


@pytest.mark.parametrize(("half_hip", "at_most"), [(440.0, True), (463.0, True), (464.0, False), (640.0, False)])
def test_a_hip_let_out_for_the_bust_tells_the_most_alone(half_hip: float, at_most: bool) -> None:
    """On stiff cloth a bust of 87 cm needs a hem of about 91 cm to pass: no narrower hip can be sewn."""
    mm = {"half_chest": 480.0, "half_waist": 400.0, "half_hip": half_hip}
    _, by_name = told(flat("woman", 1800, 0, "regular", mm))
    assert by_name["hip_girth"].at_most is at_most


def test_straight_sides_tell_the_most_of_the_hip() -> None:
    mm = {"half_chest": 480.0, "half_waist": 480.0, "half_hip": 560.0}
    assert told(flat("woman", 1630, 40, "regular", mm))[1]["hip_girth"].at_most
    assert not told(flat("woman", 1630, 40, "regular", {**mm, "half_waist": 440.0}))[1]["hip_girth"].at_most


@pytest.mark.parametrize(
    ("field", "low", "high"),
    [("stretch_across", 0, 200), ("half_hem", 15, 150), ("side_neck_to_hem", 20, 170), ("along_sleeve", 25, 80)],
)
def test_limits_hold_on_both_sides(field: str, low: float, high: float) -> None:
    more = {"half_chest": 60} if field == "stretch_across" else {}
    for inside in (low, high):
        assert refused(**{field: inside, **more}) == {}
    for outside in (low - 0.2, high + 0.2):
        assert set(refused(**{field: outside, **more})) == {f"garment.{field}"}


def test_a_short_sleeve_may_be_shorter_than_any_arm() -> None:
    assert refused(along_sleeve=3.1, ends_at="above") == {}
    assert "ends above the wrist" in refused(along_sleeve=20)["garment.along_sleeve"].fix
    assert set(refused(along_sleeve=2.9, ends_at="above")) == {"garment.along_sleeve"}


@pytest.mark.parametrize("field", ["half_chest", "half_waist", "half_hip"])
def test_a_body_that_cannot_be_is_refused_at_its_field(field: str) -> None:
    measure = {"half_chest": "bust_girth", "half_waist": "waist_girth", "half_hip": "hip_girth"}[field]
    beside = {} if field == "half_chest" else {"half_chest": 80}
    share = (1 + ease_share(0.4, "regular")) / 20
    low, high = (limit * share for limit in MEASURES[measure].limit)
    assert refused(**{**beside, field: low + 0.1}) == {}
    assert refused(**{**beside, field: min(high - 0.1, 84.0)}) == {}
    small = refused(**{**beside, field: low - 0.1})[f"garment.{field}"]
    assert "with the ease of a regular fit taken off this comes to" in small.wrong
    assert small.fix.endswith("or choose a closer fit")


def test_a_whole_girth_is_asked_about() -> None:
    found = refused(half_chest=96)["garment.half_chest"]
    assert found.wrong == "96 cm is too much for half a girth. Was it measured all round?"
    assert found.instead == "48 cm"
    assert refused(half_chest=found.instead) == {}
    larger = refused(half_chest=200)["garment.half_chest"]
    assert larger.fix == "measure again from fold to fold, or choose a looser fit"
    assert refused(half_wrist=5)["garment.half_wrist"].wrong.startswith("with the room for the arm taken off this")


@pytest.mark.parametrize(
    ("field", "typed", "wrong"),
    [
        ("half_chest", "wide", "cannot be read as a length"),
        ("half_chest", 0, "this has no length"),
        ("half_waist", "", "nothing is written here"),
        ("stature", 0, "this has no length"),
        ("stature", 400, "400 cm is outside what a stature can be"),
        ("stretch_across", math.nan, "the stretch of its cloth is not a number"),
        ("stretch_across", 10**30, "the stretch of its cloth is far too much"),
    ],
)
def test_what_cannot_be_read_is_said_at_its_field(field: str, typed: Any, wrong: str) -> None:
    found = refused(**{field: typed})
    assert set(found) == {f"garment.{field}"}
    assert wrong in found[f"garment.{field}"].wrong


def test_all_problems_are_told_at_once_and_inches_are_read() -> None:
    assert set(refused(half_chest="x", side_neck_to_hem="y", stretch_across=-1)) == {
        "garment.half_chest", "garment.side_neck_to_hem", "garment.stretch_across",
    }  # fmt: skip
    assert refused(unit="in", stature=66, half_chest="19 1/2", half_hip="20 in") == {}


def test_what_is_told_is_read_like_any_other_person() -> None:
    found, _ = told(flat("woman", 1680, 40, "regular", {"half_chest": 480.0, "along_sleeve": 570.0}))
    order_read, problems = read_order(order({"kind": "woman", "measures": found.measures}))
    assert [one for one in problems if one.severity == "refuse"] == []
    assert order_read is not None
    ready, _ = prepare(read(order({"kind": "woman", "measures": found.measures})))
    assert ready is not None
    assert ready.body.bust_girth == pytest.approx(960 / (1 + ease_share(0.4, "regular")), abs=0.06)
    assert MEDIAN_WOMAN["stature"] != 168


def test_every_field_is_asked_once_with_its_words() -> None:
    asked = [each.name for each in (*FLAT_FIELDS, *FLAT_CHOICES)]
    assert sorted(asked) == sorted(set(FlatGarment.model_fields) - {"kind", "unit"})
    needed = {name for name, field in FlatGarment.model_fields.items() if field.is_required()} - {"kind", "unit"}
    assert {each.name for each in FLAT_FIELDS if each.needed} == needed
    for choice in FLAT_CHOICES:
        field = FlatGarment.model_fields[choice.name]
        assert {value for value, _ in choice.options} == set(get_args(field.annotation))
        assert choice.options[0][0] == field.default, "the first is taken unless another is"
    for each in (*FLAT_FIELDS, *FLAT_CHOICES):
        assert all(line.endswith((".", "?")) for line in each.how)
        assert len(each.how) <= 2
