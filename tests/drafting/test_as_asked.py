"""What a style asks for is on the outline: every key, both limits, and faults planted in the garment are noticed."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from importlib import import_module
from types import ModuleType
from typing import Any

import pytest

from drafting.checks import as_asked
from drafting.contract.asked import Asked, EdgeLength, FoldLength, RoundedCorner
from drafting.contract.judging import Words
from drafting.contract.set_out import SetOut
from drafting.garments.cut_in_one.style import Choices
from drafting.problems import Adjustment, Check
from tests.drafting.bodies import BODIES, Data, set_out

#: The package has a function of the same name, so that the module is taken by its whole name.
whole: ModuleType = import_module("drafting.garments.cut_in_one.set_out")
lay_out, neck, sleeve, wing = (
    import_module(f"drafting.garments.cut_in_one.{name}") for name in ("lay_out", "neck", "sleeve", "wing")
)
#: Cloth that every style here passes in, and the same cloth when it shrinks.
GIVING: Data = {"stretch_across": 60, "stretch_along": 40}
SHRINKING: Data = {**GIVING, "shrink_across": 6, "shrink_along": 9}

#: Between them, every length, girth and angle that a style may ask for, each away from its default.
ASKED: dict[str, Data] = {
    "widths": {
        **{"ease_bust": "100 mm", "ease_waist": "150 mm", "ease_hip": "60 mm", "waist": "shaped"},
        **{"neck_half_width": "118 mm", "neck_height": "70 mm"},
    },
    "straight": {"ease_bust": "120 mm", "ease_waist": "90 mm", "ease_hip": "140 mm", "waist": "straight"},
    "hem and slit": {"hem_girth": "1350 mm", "slit": "155 mm", "length": "920 mm"},
    "short slit": {"slit": "12 mm"},
    "sleeve": {"sleeve_length": "430 mm", "narrowest_girth": "300 mm", "flare": "620 mm", "overarm_angle": 12},
    "level sleeve": {"sleeve_length": "410 mm", "overarm_angle": 0, "flare": "slight", "shoulder_slope": 26},
    "joined sleeve": {"lower_sleeve": "joined", "flare": "640 mm", "narrowest_girth": "310 mm", "underarm": "deep"},
    "joined plain sleeve": {"lower_sleeve": "joined", "narrowest_girth": "290 mm", "centre_back": "seam"},
    "cap": {"sleeve_length": "70 mm", "ease_bust": "200 mm", "narrowest_girth": "500 mm", "flare": "bell"},
    "deep": {"underarm": "deep", "underarm_above_waist": "75 mm", "overarm_angle": 5},
    "neck": {"neck_lean": 9, "neck_slant": 6, "shoulder_drop": "41 mm", "overarm_angle": 24},
    "scooped": {"neck_height": 0, "neck_half_width": "120 mm", "centre_back": "seam"},
    "low neck": {"neck_height": "30 mm", "neck_lean": 8, "neck_slant": 5},
    "allowances": {
        "lower_sleeve": "joined",
        "centre_back": "seam",
        "allowances": {
            **{"shoulder": "8 mm", "side": "11 mm", "hem": "21 mm", "sleeve_end": "17 mm", "neck_top": "9 mm"},
            **{"centre_back": "14 mm", "sleeve_joint": "13 mm"},
        },
    },
    "too much": {"neck_height": "400 mm", "slit": "900 mm", "allowances": {"shoulder": "60 mm", "side": "60 mm"}},
    "too steep": {"hem_girth": "4000 mm", "length": "hip"},
    "too narrow": {"hem_girth": "500 mm", "length": "ankle"},
}


def judged(draft: SetOut) -> Check:
    check = as_asked.judge(draft, Words("cm"))
    assert check is not None
    return check


@pytest.mark.sampled(3)
@pytest.mark.parametrize("cloth", [GIVING, SHRINKING], ids=["plain", "shrinking"])
@pytest.mark.parametrize("style", ASKED)
@pytest.mark.parametrize("body", BODIES)
def test_what_is_asked_is_drafted_or_told(body: str, style: str, cloth: Data) -> None:
    draft = set_out(BODIES[body], ASKED[style], cloth)
    if draft.refused:
        return  # stopped, and said so
    check = judged(draft)
    assert check.result == "pass", check.says
    assert check.value is not None
    assert 0 <= check.value <= 0.5


def test_every_key_of_lengths_and_girths_is_asked_for_somewhere() -> None:
    found = {asked.key for style in ASKED.values() for asked in set_out(BODIES["median woman"], style, GIVING).asked}
    allowances = {f"allowances.{key}" for key in ("shoulder", "side", "hem", "sleeve_end", "neck_top")}
    assert found == allowances | {
        *("allowances.centre_back", "allowances.sleeve_joint", "ease_bust", "ease_hip", "ease_waist", "flare"),
        *("hem_girth", "length", "narrowest_girth", "neck_half_width", "neck_height", "neck_lean", "neck_slant"),
        *("shoulder_drop", "sleeve_length", "slit", "underarm_above_waist"),
    }


# --- Faults planted in the garment ------------------------------------------------------------------------------------

Change = Callable[[Choices, float], Choices]


def more(key: str) -> Change:
    """A fault that takes a choice for `by` more than it is."""
    return lambda choices, by: replace(choices, **{key: getattr(choices, key) + by})


@dataclass(frozen=True)
class Fault:
    """One function of the garment that reads a choice wrongly by `by`, and the girths that this makes."""

    style: str
    at: tuple[ModuleType, str]
    change: Change
    what: str
    times: float = 1.0


FAULTS = {
    "length": Fault("hem and slit", (whole, "levels"), more("length"), "length from the side-neck level"),
    "hem_girth": Fault("hem and slit", (whole, "hem_of_body"), more("hem_girth"), "hem, all round"),
    "slit": Fault("hem and slit", (whole, "slit_height"), more("slit"), "slit"),
    "short slit": Fault("short slit", (whole, "slit_height"), more("slit"), "slit"),
    "ease_waist": Fault("widths", (whole, "widths"), more("ease_waist"), "waist, all round"),
    "ease_hip": Fault("widths", (whole, "widths"), more("ease_hip"), "hip, all round"),
    "straight hip": Fault("straight", (whole, "widths"), more("ease_hip"), "hip, all round"),
    "neck_half_width": Fault("widths", (neck, "column_half_width"), more("neck_half_width"), "half width of the neck"),
    "scoop": Fault("scooped", (neck, "scooped_pair"), more("neck_half_width"), "half width of the neck"),
    "neck_height": Fault("widths", (neck, "neck_height"), more("neck_height"), "height of the neck"),
    "narrowest_girth": Fault("sleeve", (wing, "_sleeve"), more("narrowest_girth"), "narrowest girth of the sleeve"),
    "narrowest joint": Fault(
        "joined sleeve", (wing, "_sleeve"), more("narrowest_girth"), "narrowest girth of the sleeve"
    ),
    "narrowest end": Fault(
        "joined plain sleeve", (wing, "_sleeve"), more("narrowest_girth"), "narrowest girth of the sleeve"
    ),
    "flare": Fault("sleeve", (wing, "_sleeve"), more("flare_girth"), "girth at the sleeve end"),
    "joined flare": Fault("joined sleeve", (wing, "_sleeve"), more("flare_girth"), "girth at the sleeve end"),
    "underarm": Fault("deep", (wing, "_wing"), more("above_waist"), "underarm above the waist"),
}


def drafted_wrongly(fault: Fault, by: float, monkeypatch: pytest.MonkeyPatch, cloth: Data) -> Check:
    module, name = fault.at
    right = getattr(module, name)

    def wrong(*given: Any, **named: Any) -> Any:
        return right(*(fault.change(g, by) if isinstance(g, Choices) else g for g in given), **named)

    monkeypatch.setattr(module, name, wrong)
    return judged(set_out(BODIES["median woman"], ASKED[fault.style], cloth))


@pytest.mark.parametrize("by", [-1.0, -0.56, -0.44, 0.44, 0.56, 1.0])
@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_in_the_garment_is_noticed_from_half_a_millimetre_on(
    name: str, by: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    fault = FAULTS[name]
    check = drafted_wrongly(fault, by, monkeypatch, SHRINKING if by > 0 else GIVING)
    if abs(by) < 0.5:
        assert check.result == "pass", check.says
        return
    assert check.result == "stop"
    assert check.says.startswith(f"The {fault.what} should be ")
    assert check.says.endswith("The draft is at fault: please report it.")
    assert check.value == pytest.approx(abs(by), abs=0.1)
    assert check.limit == 0.5


@pytest.mark.parametrize("style", ["sleeve", "level sleeve", "joined sleeve", "joined plain sleeve"])
@pytest.mark.parametrize("by", [-1.0, 1.0])
def test_a_sleeve_a_millimetre_off_is_noticed(style: str, by: float, monkeypatch: pytest.MonkeyPatch) -> None:
    right = sleeve.sleeve
    monkeypatch.setattr(sleeve, "sleeve", lambda over, corner, length, *rest: right(over, corner, length + by, *rest))
    check = judged(set_out(BODIES["median woman"], ASKED[style], GIVING))
    assert check.result == "stop"
    assert check.says.startswith("The length of the sleeve from the shoulder point should be ")


@pytest.mark.parametrize("key", ["lean", "slant", "flare"])
@pytest.mark.parametrize("degrees", [-0.3, -0.12, -0.08, 0.08, 0.12, 0.3])
def test_an_angle_is_noticed_from_a_tenth_of_a_degree_on(
    key: str, degrees: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    where = {"lean": (neck, "column"), "slant": (whole, "slant_drop"), "flare": (wing, "_sleeve")}[key]
    style = {"lean": "neck", "slant": "neck", "flare": "level sleeve"}[key]
    words = {"lean": "lean of the neck", "slant": "slant of the neck edge", "flare": "angle of the flare"}[key]
    fault = Fault(style, where, more(key), words)
    check = drafted_wrongly(fault, math.radians(degrees), monkeypatch, GIVING)
    assert check.result == ("stop" if abs(degrees) > 0.1 else "pass"), check.says
    if check.result == "stop":
        assert check.says.startswith(f"The {words} should be ")
        assert "°" in check.says
        assert check.unit == "deg"


@pytest.mark.parametrize("by", [-0.6, 0.6])
@pytest.mark.parametrize("key", ["shoulder", "side", "hem", "sleeve_end", "neck_top", "centre_back", "sleeve_joint"])
def test_a_cut_edge_off_its_allowance_is_noticed(key: str, by: float, monkeypatch: pytest.MonkeyPatch) -> None:
    right = whole.pieces

    def wrong(parts: Any, *necks: Any) -> Any:
        return right(replace(parts, allowances={**parts.allowances, key: parts.allowances[key] + by}), *necks)

    monkeypatch.setattr(whole, "pieces", wrong)
    check = judged(set_out(BODIES["median woman"], ASKED["allowances"], SHRINKING))
    assert check.result == "stop"
    assert check.says.startswith(f"The allowance of the {key.replace('_', ' ')} should be ")


@pytest.mark.parametrize("by", [-3.0, -0.9, -0.3, 0.3, 0.9, 3.0])
def test_a_bust_below_the_underarm_curve_is_held_on_both_sides(by: float, monkeypatch: pytest.MonkeyPatch) -> None:
    """Higher up the batwing makes it wider, and only less is wrong."""
    right = whole.widths
    monkeypatch.setattr(
        whole, "widths", lambda body, choices, *rest: right(body, more("ease_bust")(choices, by), *rest)
    )
    low = set_out(BODIES["full bust"], {"overarm_angle": 0, "ease_bust": "40 mm"}, GIVING)
    assert [asked.at_least for asked in low.asked if asked.key == "ease_bust"] == [False]
    assert judged(low).result == ("stop" if abs(by) > 0.5 else "pass")


@pytest.mark.parametrize("bust_point", [28.0, 29.0, 30.0, 30.5, 31.0, 31.5])
def test_a_bust_below_the_place_from_which_the_side_runs_out_may_be_wider(bust_point: float) -> None:
    """A cap's underarm is high, so that the bust lies where the side already runs out to a wide waist."""
    full = BODIES["full bust"]
    body = {**full, "measures": {**full["measures"], "side_neck_point_to_bust_point": bust_point}}
    wide = {"overarm_angle": 0, "ease_bust": "20 mm", "sleeve_length": "50 mm", "ease_waist": "300 mm"}
    draft = set_out(body, wide, GIVING)
    (bust,) = (asked for asked in draft.asked if asked.key == "ease_bust")
    (level,) = (girth.girth for girth in draft.girths if girth.at == "bust_level")
    assert bust.at_least
    assert level > bust.asked
    assert judged(draft).result == "pass"


@pytest.mark.parametrize(
    ("across", "down", "told"),
    [
        *((0.0, 0.0, "pass"), (0.2, 0.0, "pass"), (0.0, 0.2, "pass")),
        *((0.0, 0.6, "stop"), (0.0, -0.6, "stop"), (2.0, 0.0, "stop"), (-2.0, 0.0, "stop")),
    ],
)
def test_an_underarm_corner_beside_the_line_that_runs_into_its_curve_is_noticed(
    across: float, down: float, told: str
) -> None:
    draft = set_out(BODIES["median woman"], ASKED["deep"], GIVING)
    (corner,) = (asked for asked in draft.asked if asked.key == "underarm_above_waist")
    assert isinstance(corner.measure, RoundedCorner)
    moved = replace(corner.measure, across=corner.measure.across + across, down=corner.measure.down + down)
    check = judged(replace(draft, asked=(replace(corner, measure=moved),)))
    assert check.result == told
    assert check.value is not None
    assert check.value < math.inf


# --- What an adjustment says ------------------------------------------------------------------------------------------


TOLD = [
    ("too much", "neck_height"),
    ("too much", "slit"),
    ("too much", "allowances.shoulder"),
    ("too steep", "hem_girth"),
    ("too narrow", "hem_girth"),
    ("cap", "narrowest_girth"),
    ("cap", "flare"),
    ("low neck", "neck_height"),
    ("low neck", "neck_lean"),
    ("low neck", "neck_slant"),
]  # fmt: skip


@pytest.mark.parametrize("by", [-0.6, -0.4, 0.4, 0.6])
@pytest.mark.parametrize("end", ["before", "after"])
@pytest.mark.parametrize(("style", "key"), TOLD)
def test_an_adjustment_that_says_a_wrong_number_is_noticed(style: str, key: str, end: str, by: float) -> None:
    draft = set_out(BODIES["median woman"], ASKED[style], GIVING)
    (note,) = (note for note in draft.adjusted if note.key == key)
    wrong = replace(note, **{end: getattr(note, end) + by})
    check = judged(replace(draft, adjusted=tuple(wrong if moved is note else moved for moved in draft.adjusted)))
    assert check.result == ("pass" if abs(by) < 0.5 and note.unit == "mm" else "stop"), check.says


@pytest.mark.parametrize(("style", "key"), TOLD)
def test_nothing_is_moved_without_being_told(style: str, key: str) -> None:
    draft = set_out(BODIES["median woman"], ASKED[style], GIVING)
    check = judged(replace(draft, adjusted=tuple(moved for moved in draft.adjusted if moved.key != key)))
    assert check.result == "stop", key


def test_two_adjustments_of_one_key_follow_one_another() -> None:
    draft = set_out(BODIES["median woman"], {}, GIVING)
    length = draft.choices.length
    first, second = (
        Adjustment("length", "length", a, b, "…") for a, b in ((length - 50, length + 7), (length + 7, length))
    )
    asked = (Asked("length", "length", length - 50, next(a for a in draft.asked if a.key == "length").measure),)
    assert judged(replace(draft, asked=asked, adjusted=(first, second))).result == "pass"
    assert judged(replace(draft, asked=asked, adjusted=(second, first))).result == "stop"
    assert judged(replace(draft, asked=asked, adjusted=(first, replace(second, before=length + 6)))).result == "stop"


def test_any_garment_may_ask_for_anything() -> None:
    """The check knows no key by name: what it measures is what it is handed."""
    draft = set_out(BODIES["median woman"], {}, GIVING)
    hem = draft.pieces[0].edges[-1].stitch.length()
    for off, told in ((0.49, "pass"), (0.51, "stop"), (-0.49, "pass"), (-0.51, "stop")):
        handed = (Asked("a key of its own", "waistband", hem + off, EdgeLength("front", "hem")),)
        assert judged(replace(draft, asked=handed)).result == told
        least = (Asked("a key of its own", "waistband", hem + off, EdgeLength("front", "hem"), at_least=True),)
        assert judged(replace(draft, asked=least)).result == ("stop" if off > 0.5 else "pass")
    fold = draft.pieces[0].level("hem") - draft.pieces[0].edges[0].stitch.start.y
    assert judged(replace(draft, asked=(Asked("fold", "fold", fold, FoldLength("front")),))).result == "pass"
    assert as_asked.judge(replace(draft, asked=()), Words("cm")) is None


# --- What it found ----------------------------------------------------------------------------------------------------


def told(draft: SetOut, key: str) -> list[tuple[float, float]]:
    return [(round(note.before, 2), round(note.after, 2)) for note in draft.adjusted if note.key == key]


def test_a_short_slit_has_its_notch() -> None:
    draft = set_out(BODIES["median woman"], ASKED["short slit"], GIVING)
    (notch,) = (notch for notch in draft.pieces[0].notches if notch.id == "slit")
    corner = next(edge for edge in draft.pieces[0].edges if edge.name == "side").stitch.end
    assert corner.y - notch.inner.y == pytest.approx(12.0, abs=0.01)


def test_a_shoulder_that_the_seam_passes_outside_of_is_told() -> None:
    flat = set_out(BODIES["median woman"], {"shoulder_drop": "50 mm", "overarm_angle": 0}, GIVING)
    ((before, after),) = told(flat, "shoulder_drop")
    assert before == 50
    notch = next(notch for notch in flat.pieces[0].notches if notch.id == "shoulder_point")
    assert notch.inner.y - flat.pieces[0].level("side_neck") == pytest.approx(after, abs=0.01)
    assert after < before - 2
    assert told(set_out(BODIES["median woman"], {"overarm_angle": 0}, GIVING), "shoulder_drop") == []
    assert told(set_out(BODIES["median woman"], {"shoulder_drop": "41 mm", "overarm_angle": 24}, GIVING),
                "shoulder_drop") == []  # fmt: skip


def test_a_waist_that_is_drafted_as_asked_is_not_told_as_moved() -> None:
    style = {"waist": "straight", "ease_waist": "150 mm", "ease_bust": "30 mm", "ease_hip": "40 mm"}
    draft = set_out(BODIES["child of 6"], style, GIVING)
    assert told(draft, "ease_waist") == []
    assert len(told(draft, "ease_bust")) == 1


def test_a_hip_that_the_bust_decides_is_not_told_as_widened_for_what_must_pass() -> None:
    """A straight side hangs down from the bust: there a hip is widened by nothing, and nothing is said of it."""
    person: Data = {"kind": "man", "measures": {"stature": 176, "bust_girth": 112, "waist_girth": 96, "hip_girth": 88}}
    draft = set_out(person, {}, {"stretch_across": 10, "stretch_along": 10})
    assert told(draft, "ease_hip") == []
    girths = {girth.at: girth.girth for girth in draft.girths}
    assert girths["hip"] == pytest.approx(girths["bust"], abs=0.01)


def test_an_own_hem_never_takes_an_asked_hip_in() -> None:
    style = {"ease_hip": "440 mm", "hem_girth": "2500 mm", "ease_waist": "-30 mm", "body": "pegged"}
    draft = set_out(BODIES["median woman"], style, GIVING)
    girths = {girth.at: girth.girth for girth in draft.girths}
    assert girths["hip"] >= 964 + 440 - 0.5
    ((before, after),) = told(draft, "hem_girth")
    assert before == 2500
    assert girths["hem"] == pytest.approx(after, abs=0.01)
    assert "as high as the hip allows" in next(n.why for n in draft.adjusted if n.key == "hem_girth")


def test_the_side_above_the_bust_is_not_told_as_the_bust() -> None:
    """The bust itself is as asked where it lies; the seam above it was let out for that."""
    draft = set_out(BODIES["full bust"], {"overarm_angle": 0}, GIVING)
    assert told(draft, "ease_bust") == []
    ((before, after),) = told(draft, "side_above_bust")
    assert after > before


def test_what_is_said_is_in_the_unit_of_the_person() -> None:
    draft = set_out(BODIES["median woman"], {}, GIVING)
    off = tuple(replace(asked, asked=asked.asked + 30) if asked.key == "length" else asked for asked in draft.asked)  # type: ignore[operator]
    for unit, other in (("cm", " in "), ("in", " cm")):
        check = as_asked.judge(replace(draft, asked=off), Words(unit))  # type: ignore[arg-type]
        assert check is not None
        assert other not in check.says
