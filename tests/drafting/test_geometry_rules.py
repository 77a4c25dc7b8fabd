"""Eight bodies in every style keep every rule of the geometry, measured by shapely."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from drafting import checks
from drafting.contract.set_out import SetOut
from drafting.record.documents import documents, draft_json
from tests.drafting import bodies, rules
from tests.drafting.bodies import (
    BODIES,
    MEDIAN_WOMAN,
    STYLES,
    Data,
    draft,
    drafted,
    every_body_and_style,
    made,
    set_out,
)
from tests.drafting.first_garment_rules import width_at
from tests.drafting.shaped import line

PAIRS = tuple(every_body_and_style())


@pytest.mark.sampled(2)
@pytest.mark.parametrize(("body", "style"), PAIRS)
def test_every_rule_holds(body: str, style: str) -> None:
    draft = drafted(body, style)
    assert not draft.refused
    rules.all_rules(draft)
    rules.sound(checks.judge(draft, "cm"))


@pytest.mark.parametrize("body", BODIES)
def test_every_rule_holds_after_shrinkage(body: str) -> None:
    for style in ("bell", "cap", "scooped", "close to the ankle", "large allowances"):
        shrunk = set_out(BODIES[body], STYLES[style], {"shrink_across": 8, "shrink_along": 3})
        rules.all_rules(shrunk)


@pytest.mark.parametrize("body", BODIES)
def test_asked_girths_are_met(body: str) -> None:
    asked = {
        **{"ease_bust": "100 mm", "ease_waist": "150 mm", "ease_hip": "60 mm"},
        **{"length": "mid_calf", "waist": "shaped"},
    }
    for style in (asked, {**asked, "body": "flared"}, {**asked, "overarm_angle": 0, "fit": "close"}):
        found = set_out(BODIES[body], style)
        told = {girth.at: girth for girth in found.girths}
        for at, ease in (("bust", 100.0), ("waist", 150.0), ("hip", 60.0)):
            assert told[at].ease == pytest.approx(ease, abs=0.5)
        piece = found.pieces[0]
        for at in ("waist", "hip"):
            assert 4 * width_at(found, piece, piece.level(at)) == pytest.approx(told[at].girth, abs=0.5)
        assert told["bust_level"].girth >= told["bust"].girth - 0.5


@pytest.mark.parametrize("hem", [1050, 1300, 1800])
def test_an_asked_hem_is_met_along_its_curve(hem: int) -> None:
    found = set_out(BODIES["median woman"], {"hem_girth": f"{hem} mm"})
    edge = next(e for e in found.pieces[0].edges if e.name == "hem")
    assert 4 * line(edge.stitch.flatten(0.005)).length == pytest.approx(hem, abs=0.5)


#: Every measure of one woman, so that none is an estimate that moves with another.
ALL_MEASURES: Data = {
    **MEDIAN_WOMAN,
    "shoulder_length": 14.5,
    "back_width": 35.0,
    "under_bust_girth": 76.3,
    "side_neck_point_to_waist_front": 39.5,
    "thigh_girth": 57.8,
}
NECK = {"neck_corner", "column_foot", "girth neck"}
SLEEVE = {"sleeve_end_top", "sleeve_end_under", "narrowest", "overarm_middle", "girth narrowest", "girth sleeve_end"}
UNDERARM = {"underarm", "girth underarm", "girth bust_level"}
#: What may move with each measure on this dress (points from the side-neck level, levels, girths). Stature moves much.
MAY_MOVE: dict[str, set[str]] = {
    "head_girth": NECK,
    "neck_girth": set(),
    "neck_base_girth": {"column_foot", "shoulder_point", "overarm_middle", "sleeve_end_top", "sleeve_end_under",
                        "narrowest"} | UNDERARM,
    "shoulder_width": {"shoulder_point", *SLEEVE, *UNDERARM} - {"girth narrowest", "girth sleeve_end"},
    "bust_girth": {"girth bust", "girth waist"} | UNDERARM,
    "upper_chest_girth": {"girth waist"} | UNDERARM,
    "waist_girth": set(),  # what one seam may shape to the hip decides this waist
    "hip_girth": {"girth hip", "girth hem", "girth waist", "hem_corner"} | UNDERARM,
    "back_neck_point_to_waist": {"girth waist", "level waist", "level hip", "level hem", "hem_corner"} | UNDERARM,
    "side_neck_point_to_bust_point": {"level bust", "girth waist"} | UNDERARM,
    "waist_to_hip": {"level hip", "girth waist"} | UNDERARM,
    "scye_depth": UNDERARM,
    "upper_arm_girth": UNDERARM | {"girth narrowest", "narrowest", "sleeve_end_under", "girth sleeve_end"},
    "elbow_girth": {"girth narrowest", "narrowest", "sleeve_end_under", "girth sleeve_end", "girth bust_level"},
    "wrist_girth": set(),
    "hand_girth": set(),
    "arm_length": (SLEEVE - {"girth narrowest"}) | {"girth bust_level"},
    "waist_height": {"level hem", "hem_corner"},
    "knee_height": {"level hem", "hem_corner"},
    "shoulder_length": set(),
    "back_width": set(),
    "under_bust_girth": set(),
    "side_neck_point_to_waist_front": set(),
    "thigh_girth": set(),
}  # fmt: skip


def things(found: SetOut) -> dict[str, tuple[float, ...]]:
    """Everything that can move, by name, counted from the side-neck level."""
    side_neck = found.pieces[0].level("side_neck")
    return {
        **{name: (point.x, point.y) for name, point in found.points.items()},
        **{f"level {name}": (y - side_neck,) for name, y in bodies.levels(found.pieces[0]).items()},
        **{f"girth {girth.at}": (girth.girth,) for girth in found.girths},
    }


@pytest.mark.parametrize("measure", MAY_MOVE)
@pytest.mark.parametrize("change", [-1.0, 1.0])
def test_a_measure_moves_only_what_depends_on_it(measure: str, change: float) -> None:
    person = {"kind": "woman", "measures": ALL_MEASURES}
    other = {"kind": "woman", "measures": {**ALL_MEASURES, measure: ALL_MEASURES[measure] + change}}
    style = {"flare": "slight"}
    # On the finest tape: a coarse step holds a neck's width while the head grows by less than four steps of girth.
    before, after = (things(set_out(one, style, tape={"unit": "cm", "step": "0.1"})) for one in (person, other))
    moved = {
        name
        for name, value in before.items()
        if any(abs(a - b) > 1e-3 for a, b in zip(value, after[name], strict=True))
    }
    allowed = MAY_MOVE[measure]
    assert moved <= allowed, f"also moved: {sorted(moved - allowed)}"
    # The room for the arm decides this underarm, and the bust what passes the waist: these two only may move something.
    if allowed and measure not in {"upper_chest_girth", "scye_depth"}:
        assert moved, "nothing moved"


@pytest.mark.parametrize("step", [5.0, 1.0])
def test_a_neck_is_chalked_wider_for_a_larger_head_and_never_by_a_whole_step_too_much(step: float) -> None:
    """Over 6 cm of head: the chalked ring never falls, and lies less than one step of each of four widths too wide."""
    rings = []
    for head in range(545, 606, 3):
        woman = {"kind": "woman", "measures": {**ALL_MEASURES, "head_girth": head / 10}}
        facts = set_out(woman, {}, tape={"unit": "cm", "step": f"{step / 10:g}"}).facts
        asked = (head + 10) / (1 + 0.8 * 0.4)
        assert asked - 1e-6 <= facts["head_ring"] < asked + 4 * step
        assert asked - 1e-6 <= facts["neck_ring"] < asked + 4 * step
        rings.append(facts["head_ring"])
    assert rings == sorted(rings)
    assert rings[-1] - rings[0] > 60 / (1 + 0.8 * 0.4) - 4 * step > 0


def test_the_same_order_gives_the_same_bytes() -> None:
    first, second = (draft(BODIES["full bust"], STYLES["bell"]) for _ in range(2))
    assert first is not second
    assert documents(first) == documents(second)
    assert draft_json(made("full bust", "bell")) == draft_json(first)


def test_another_process_with_other_hashes_gives_the_same_bytes() -> None:
    program = (
        "import sys, hashlib; from tests.drafting.bodies import *; from drafting.record.documents import documents\n"
        "r = draft(BODIES['man'], STYLES['slanted'])\n"
        "print([(n, hashlib.sha256(b).hexdigest()) for n, b in documents(r).items()])"
    )
    root = Path(__file__).resolve().parents[2]
    loader = "import sys, types; m = types.ModuleType('tests'); m.__path__ = ['tests']; sys.modules['tests'] = m\n"
    found = {
        subprocess.run(
            [sys.executable, "-c", loader + program],
            cwd=root,
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(root)},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(found) == 1
