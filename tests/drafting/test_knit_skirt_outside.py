"""`knit_skirt` beside what scipy and shapely say of its curves and areas, and beside the handbook's walking hems."""

import math
from collections.abc import Callable

import numpy
import pytest
from scipy.integrate import quad
from shapely import LineString, Polygon, box
from shapely.affinity import scale

from drafting.contract.set_out import SetOut
from drafting.garments.knit_skirt.outline import waist_edge
from drafting.parts.walking import walking_girth
from tests.drafting import bodies
from tests.drafting.bodies import Data, bdims

WOMAN: Data = {
    "kind": "woman",
    "measures": {
        "stature": 163, "waist_girth": 72, "hip_girth": 97, "waist_to_hip": 22, "waist_height": 106, "knee_height": 46,
    },
}  # fmt: skip


def set_out(person: Data, style: Data | None = None, cloth: Data | None = None) -> SetOut:
    return bodies.set_out(person, style, cloth, garment="knit_skirt", tape={"unit": "cm", "step": "0.1"})


def arc(slope: Callable[[float], float], low: float, high: float) -> float:
    """Length of a curve of which the slope is known at each place."""
    return quad(lambda at: math.hypot(1.0, slope(at)), low, high, epsabs=1e-9)[0]


@pytest.mark.parametrize(("quarter", "hip", "depth"), [(199.3, 249.2, 219.0), (130.0, 160.0, 130.0)])
def test_the_waist_edge_is_a_line_and_a_parabola_of_this_length(quarter: float, hip: float, depth: float) -> None:
    """Of a run m and a slope s at its end: straight for x − m, then ∫√(1 + (s·u/m)²)du over m."""
    edge = waist_edge(quarter, hip, depth)
    across, rises = edge.end.x, -edge.end.y
    slope = 1.2 * (hip - across) / (depth + rises)
    run = 2 * rises / slope
    whole = across - run + arc(lambda u: slope * u / run, 0.0, run)
    assert whole == pytest.approx(quarter, abs=0.005)
    assert edge.length() == pytest.approx(whole, abs=0.005)


@pytest.mark.parametrize(("silhouette", "foot"), [("straight", 0.0), ("a_line", 0.14), ("pegged", -0.14)])
def test_the_side_is_as_long_as_its_two_curves(silhouette: str, foot: float) -> None:
    """Waist to hip a cubic in y with the slopes 1.2 × chord and that of the hem; a pegged one bends on evenly."""
    found = set_out(WOMAN, {"silhouette": silhouette})
    top, hip, hem = (found.points[name] for name in ("waist_corner", "hip_side", "hem_corner"))
    depth = hip.y - top.y
    chord = (hip.x - top.x) / depth
    leaves, arrives = 1.2 * chord, max(foot, 0.0)

    def upper(y: float) -> float:
        t = y / depth
        return (3 * (leaves + arrives - 2 * chord) * t - 2 * (2 * leaves + arrives - 3 * chord)) * t + leaves

    def lower(y: float) -> float:
        whole = found.choices.length - hip.y
        return foot * y / whole if silhouette == "pegged" else foot

    assert quad(upper, 0.0, depth)[0] == pytest.approx(hip.x - top.x, abs=1e-6)
    expected = arc(upper, 0.0, depth) + arc(lower, 0.0, hem.y - hip.y)
    assert found.pieces[0].edge("side").stitch.length() == pytest.approx(expected, abs=0.02)
    assert hem.x - hip.x == pytest.approx(quad(lower, 0.0, hem.y - hip.y)[0], abs=0.02)


def test_the_area_of_a_straight_half_is_what_its_edges_enclose() -> None:
    found = set_out(WOMAN)
    panel = found.pieces[0]
    top, hip = found.points["waist_corner"], found.points["hip_side"]
    depth, rises = hip.y, -top.y
    chord = (hip.x - top.x) / (depth + rises)
    leaves = 1.2 * chord

    def side(y: float) -> float:
        t = (y + rises) / (depth + rises)
        a, b = leaves - 2 * chord, 3 * chord - 2 * leaves
        return top.x + (depth + rises) * (((a * t) + b) * t + leaves) * t

    run = 2 * rises / leaves
    area = quad(side, -rises, depth)[0] + hip.x * (found.choices.length - depth)
    area -= rises * top.x - rises * run / 3  # above the waist edge, a line and a parabola
    assert Polygon([(p.x, p.y) for p in panel.stitch_line]).area == pytest.approx(area, rel=2e-4)


@pytest.mark.parametrize("height", ["20 mm", "40 mm", "80 mm"])
@pytest.mark.parametrize("silhouette", ["straight", "a_line", "pegged"])
def test_a_casing_lies_flat_on_the_skirt_when_it_is_folded_in(silhouette: str, height: str) -> None:
    """Mirrored in the waist edge it lies on the panel, and its raw edge is as long as the panel is wide there."""
    found = set_out(WOMAN, {"silhouette": silhouette, "waistband": "turned", "waistband_height": height})
    panel = found.pieces[0]
    level = panel.level("waist")
    whole = Polygon([(p.x, p.y) for p in panel.cut_line])
    above = whole.intersection(box(-1, -1, 1000, level))
    folded = scale(above, yfact=-1.0, origin=(0.0, level))
    turned_in = panel.edge("waist").allowance
    assert folded.bounds[3] == pytest.approx(level + turned_in, abs=1e-6)
    on_stitching = folded.intersection(box(0, 0, 1000, level + turned_in - 10))
    assert on_stitching.difference(whole).area < 0.5
    for down in (5.0, turned_in - 11.0):
        line = LineString([(0.0, level + down), (1000.0, level + down)])
        assert folded.intersection(line).length == pytest.approx(whole.intersection(line).length, abs=0.05)


def test_two_halves_and_their_band_close_to_rings_of_one_length() -> None:
    for person in bdims()[::40]:
        for style in ({}, {"silhouette": "a_line", "fit": "loose"}):
            found = set_out(person, style)
            panel, band = found.pieces
            waist = LineString([(p.x, p.y) for p in panel.edge("waist").stitch.flatten(0.002)]).length
            upper = LineString([(p.x, p.y) for p in band.edge("waistband_edge").stitch.flatten(0.002)]).length
            ratio = 1.0 if found.facts["band_is_jersey"] == 0.0 else found.facts["band_length"] / (4 * waist)
            assert 2 * upper == pytest.approx(4 * waist * ratio, abs=0.05)


@pytest.mark.parametrize(
    ("above", "hem"), [(0.374, 90), (0.281, 99), (0.163, 129), (0.045, 142)], ids=["thigh", "knee", "calf", "ankle"]
)
def test_walking_hems_are_those_of_the_handbook(above: float, hem: float) -> None:
    """At 163 cm: 90, 99, 129 and 142 for mid-thigh, knee, mid-calf and ankle (common practice)."""
    body = set_out(WOMAN).body
    assert walking_girth(body, above * 1630.0) / 10 == pytest.approx(hem, abs=1.0)


@pytest.mark.parametrize("silhouette", ["straight", "pegged"])
@pytest.mark.parametrize("length", ["mid_calf", "ankle"])
def test_a_slit_ends_2_cm_above_the_level_that_is_wide_enough(silhouette: str, length: str) -> None:
    """Found anew: the highest level up from the hem at which four quarters through half the stretch let a step pass."""
    found = set_out(WOMAN, {"silhouette": silhouette, "length": length})
    side = numpy.array([(p.x, p.y) for p in found.pieces[0].edge("side").stitch.flatten(0.02)])
    hem = found.points["hem_corner"].y
    shift = side[-1][1] - hem
    levels = numpy.arange(hem, 0.0, -0.5)
    wide = numpy.interp(levels + shift, side[:, 1], side[:, 0])
    needs = numpy.array([walking_girth(found.body, found.body.waist_height - y) for y in levels]) / 1.2
    enough = levels[numpy.nonzero(4 * wide >= needs)[0][0]]
    assert found.facts["slit"] == pytest.approx(hem - enough + 20.0, abs=5.1)
    assert found.facts["slit"] >= hem - enough + 20.0 - 0.6
