"""The lower sleeve cut apart: where it is joined, what its seam takes, and which cloth a hand has to stretch."""

import math
from dataclasses import replace

import pytest

from drafting.contract.pieces import Edge, Piece
from drafting.contract.seams import EdgeRun, off, sewn_to
from drafting.contract.set_out import SetOut
from tests.drafting.bodies import BODIES, MEDIAN_WOMAN, Data, draft, set_out

WOMAN = BODIES["median woman"]
ARM = 10 * float(MEDIAN_WOMAN["arm_length"])
JOINED: Data = {"lower_sleeve": "joined"}


def joined(style: Data | None = None, cloth: Data | None = None) -> SetOut:
    found = set_out(WOMAN, {**JOINED, **(style or {})}, {"width": "150 cm", "stretch_across": 40, **(cloth or {})})
    assert len(found.pieces) == 3
    return found


def piece(found: SetOut, name: str) -> Piece:
    return next(piece for piece in found.pieces if piece.name == name)


def edge(found: Piece, name: str) -> Edge:
    return next(edge for edge in found.edges if edge.name == name)


@pytest.mark.parametrize(
    ("style", "share"), [({"flare": "slight"}, 0.5), ({"flare": "slight", "narrowest_at": 0.4}, 0.4)]
)
def test_a_flared_sleeve_is_joined_at_its_narrowest_place(style: Data, share: float) -> None:
    found = joined(style)
    lower = piece(found, "lower_sleeve")
    # Along the fold of the overarm the lower sleeve is as long as the arm from the joint to the sleeve end.
    assert lower.level("sleeve_end") - lower.level("joint") == pytest.approx((1 - share) * ARM, abs=1.0)
    assert 2 * edge(lower, "joint").stitch.length() == pytest.approx(found.facts["narrowest_girth"], abs=0.5)
    upper = sum(edge(piece(found, name), "sleeve_joint").stitch.length() for name in ("front", "back"))
    assert upper == pytest.approx(2 * edge(lower, "joint").stitch.length(), abs=1e-6)


def test_a_plain_sleeve_is_joined_above_the_elbow() -> None:
    lower = piece(joined(), "lower_sleeve")
    # Our choice: half-way down, and never within 2 cm of the underarm curve.
    assert lower.level("sleeve_end") - lower.level("joint") == pytest.approx(ARM / 2, abs=20)


def test_each_seam_takes_the_allowance_of_its_name() -> None:
    given = {"allowances": {"sleeve_joint": "8 mm", "side": "13 mm", "shoulder": "11 mm", "sleeve_end": "17 mm"}}
    found = joined(given)
    lower = piece(found, "lower_sleeve")
    assert {e.name: e.allowance for e in lower.edges} == {"joint": 8.0, "under": 13.0, "sleeve_end": 17.0}
    assert edge(piece(found, "front"), "sleeve_joint").allowance == 8.0


def test_notches_stand_in_the_middle_of_joint_and_under_seam() -> None:
    found = joined()
    lower = piece(found, "lower_sleeve")
    for name in ("joint", "under"):
        notch = next(notch for notch in lower.notches if notch.seam == name)
        assert notch.at == pytest.approx(edge(lower, name).stitch.length() / 2)


@pytest.mark.parametrize(
    ("across", "along", "gives"),
    [
        (50, 10, 0.10 * math.cos(math.radians(20)) ** 2 + 0.50 * math.sin(math.radians(20)) ** 2),
        (10, 50, 0.10),
    ],
)
def test_at_the_joint_the_stiffer_of_two_cloths_counts(across: int, along: int, gives: float) -> None:
    # The body's part runs round the sleeve on the slope, the lower sleeve's straight across (CALC).
    cloth = {"stretch_across": across, "stretch_along": along}
    found = joined({"flare": "bell"}, cloth)
    joint = 2 * edge(piece(found, "lower_sleeve"), "joint").stitch.length()
    assert joint < found.facts["sleeve_end_girth"]
    assert found.facts["stretch_round_sleeve"] == pytest.approx(gives, abs=1e-9)
    assert found.facts["sleeve_passing"] == pytest.approx(joint)


def test_a_narrow_end_counts_before_a_wider_joint() -> None:
    found = joined({"sleeve_length": "wrist"})
    assert found.facts["sleeve_end_girth"] < 2 * edge(piece(found, "lower_sleeve"), "joint").stitch.length()
    # Through the end only the lower sleeve's own cloth gives.
    assert found.facts["sleeve_passing"] == pytest.approx(found.facts["sleeve_end_girth"])
    assert found.facts["stretch_round_sleeve"] == pytest.approx(0.40)


@pytest.mark.parametrize(("along", "across"), [(0, 0), (6, 0), (0, 6), (6, 3)])
def test_the_joint_says_by_how_much_its_two_edges_differ_as_cut(along: float, across: float) -> None:
    found = joined({"flare": "slight"}, {"shrink_along": along, "shrink_across": across})
    body, lower = edge(piece(found, "front"), "sleeve_joint"), edge(piece(found, "lower_sleeve"), "joint")
    to_lower, ease = sewn_to(found.seams, "front", "sleeve_joint") or pytest.fail("the joint is sewn to nothing")
    to_body, less = sewn_to(found.seams, "lower_sleeve", "joint") or pytest.fail("the joint is sewn to nothing")
    assert (to_lower, to_body) == (EdgeRun("lower_sleeve", "joint"), EdgeRun("front", "sleeve_joint"))
    assert ease == pytest.approx(body.stitch.length() - lower.stitch.length(), abs=1e-6)
    assert less == pytest.approx(-ease)
    assert (abs(ease) > 0.2) == (along != across)
    pieces = {each.name: each for each in found.pieces}
    for seam in found.seams:
        assert off(seam, pieces) < 0.5
        assert off(replace(seam, ease=seam.ease + 3.0), pieces) == pytest.approx(3.0, abs=0.5)


def test_a_lower_sleeve_is_never_under_eight_centimetres() -> None:
    long = {}
    for asked in range(200, 401, 5):
        style = {**JOINED, "sleeve_length": f"{asked} mm", "narrowest_at": 1}
        found = set_out(WOMAN, style, {"width": "150 cm", "stretch_across": 40})
        for lower in found.pieces[2:]:
            long[asked] = lower.level("sleeve_end") - lower.level("joint")
        told = [moved for moved in found.adjusted if moved.key == "lower_sleeve"]
        assert len(told) == (0 if asked in long else 1)
    assert list(long) == list(range(min(long), 401, 5))
    assert 80 - 1e-6 <= min(long.values()) == long[min(long)] < 85


def test_a_lower_sleeve_shrinks_along_its_own_length() -> None:
    plain, held = joined(), joined({}, {"shrink_along": 8})
    lower, longer = piece(plain, "lower_sleeve"), piece(held, "lower_sleeve")
    grown = (longer.level("sleeve_end") - longer.level("joint")) / (lower.level("sleeve_end") - lower.level("joint"))
    assert grown == pytest.approx(1 / (1 - 0.08), rel=1e-6)


def test_a_joined_sleeve_passes_its_checks() -> None:
    assert draft(WOMAN, JOINED, {"width": "150 cm", "stretch_across": 40}).outcome in {"pass", "warn"}
