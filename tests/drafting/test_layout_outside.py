"""Layouts proven with shapely, compared with an independent search, and tried on the 507 people of `bdims`."""

import math
from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from itertools import combinations, permutations, product
from statistics import median

import numpy
import pytest
import scipy.fft
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import norm
from shapely import Polygon

from drafting.cloth import ClothFacts
from drafting.contract.pieces import Piece
from drafting.geometry.point import Point
from drafting.layout import CLEARANCE, WAYS, Layout, Remnant, candidates, goes_on, laid
from drafting.order import prepare
from tests.drafting.bodies import BODIES, STYLES, bdims, draft, order, read

CLOTH = ClothFacts(1500.0, None, 15.0, 0.4, 0.4, 0.0, 0.0, "good", False)


def polygon(points: Iterable[Point]) -> Polygon:
    return Polygon([(point.x, point.y) for point in points])


@cache
def pieces_of(body: str, style: str) -> tuple[Piece, ...]:
    return draft(BODIES[body], STYLES[style]).draft.pieces


def prove(layout: Layout, pieces: tuple[Piece, ...], cloth: ClothFacts, missing: Polygon | None = None) -> None:
    """No two pieces overlap, none leaves the cloth or lies on a selvage or over a fold, all are there."""
    by_name = {piece.name: piece for piece in pieces}
    shapes = [(place, polygon(laid(by_name[place.piece], place))) for place in layout.places]
    for (one, first), (other, second) in combinations(shapes, 2):
        same_fold = not (one.opened or other.opened) and by_name[one.piece].on_fold and by_name[other.piece].on_fold
        if same_fold:
            assert first.intersection(second).area < 1.0
        else:
            assert first.distance(second) >= CLEARANCE - 1e-6
    s = cloth.selvage
    for place, shape in shapes:
        left, top, right, low = shape.bounds
        assert top >= -1e-6
        assert low <= layout.length + 1e-6
        double = place.layers == 2
        if layout.way == "half":
            assert left >= -1e-6
            assert right <= layout.cloth_width / 2 - s + 1e-6
        elif layout.way in {"open", "crosswise"}:
            assert left >= s - 1e-6
            assert right <= layout.cloth_width - s + 1e-6
        elif layout.way == "part_fold":
            depth = layout.folds[0].depth
            assert left >= (-1e-6 if double else depth)
            assert right <= (depth if double else layout.cloth_width - depth) - s + 1e-6
        else:
            meet = layout.folds[0].depth
            assert (left >= -1e-6 and right <= meet - s + 1e-6) or (
                left >= meet + s - 1e-6 and right <= layout.laid_width + 1e-6
            )
        if missing is not None:
            assert shape.intersection(missing).area < 1e-6
        if by_name[place.piece].on_fold and not place.opened:  # its own fold lies on a fold of the cloth
            assert min(abs(place.x - at) for at in (0.0, layout.laid_width)) < 1e-6
        if cloth.one_way:
            assert place.turned == 0
        assert place.turned % 180 == (90 if layout.way == "crosswise" else 0)
    for piece in pieces:
        cut = 0
        for place in layout.places:
            if place.piece == piece.name:
                through_both = place.layers == 2 and not (
                    layout.way == "crosswise" or (piece.on_fold and not place.opened)
                )
                cut += 2 if through_both else 1
        assert cut == (0 if piece.other_cloth else piece.cut)
        if piece.other_cloth:
            continue
        singles = [p.mirrored for p in layout.places if p.piece == piece.name and p.layers == 1 and not piece.on_fold]
        assert piece.cut == 1 or 2 * sum(singles) == len(singles)  # a pair is cut once each way up


VARIANTS = st.fixed_dictionaries(
    {},
    optional={
        "centre_back": st.sampled_from(["fold", "seam"]),
        "lower_sleeve": st.sampled_from(["whole", "joined"]),
        "sleeve_length": st.sampled_from(["wrist", "elbow", 20, 8]),
        "flare": st.sampled_from(["none", "slight", "bell", "wide"]),
        "body": st.sampled_from(["straight", "flared", "pegged"]),
        "length": st.sampled_from(["hip", "knee", "ankle"]),
        "overarm_angle": st.sampled_from([0, 10, 20, 30]),
        "neck_height": st.sampled_from([0, 8]),
    },
)


@settings(max_examples=40)
@given(
    body=st.sampled_from(["small woman", "child of 6", "man", "child of 12"]), style=VARIANTS,
    width=st.floats(600, 2400), selvage=st.floats(0, 50), one_way=st.booleans(),
)  # fmt: skip
def test_every_layout_of_any_garment_on_any_width_is_valid(body, style, width, selvage, one_way):
    pieces = draft(BODIES[body], style).draft.pieces
    cloth = replace(CLOTH, width=width, selvage=selvage, one_way=one_way)
    for layout in candidates(pieces, cloth, WAYS):
        prove(layout, pieces, cloth)
        assert layout.bound <= layout.length + 1e-6


@settings(max_examples=25)
@given(
    style=st.sampled_from(sorted(STYLES)), sizes=st.tuples(*[st.floats(300, 2000)] * 4), one_way=st.booleans(),
)  # fmt: skip
def test_every_answer_for_a_remnant_is_valid(style, sizes, one_way):
    pieces = pieces_of("child of 6", style)
    width, length, further_width, further_length = sizes
    cloth = replace(CLOTH, one_way=one_way)
    found = goes_on(pieces, cloth, Remnant(width, length, further_width, further_length))
    assert set(found.fits) | set(found.left_out) == {piece.name for piece in pieces if not piece.other_cloth}
    assert (found.layout is None) == (found.answer == "no")
    if found.layout is None:
        return
    some = tuple(piece for piece in pieces if piece.name in found.fits)
    narrow, wide = sorted((width, further_width))
    whole = found.layout.cloth_width == wide and found.layout.length > (length if width == wide else further_length)
    step = None
    if whole:
        step = shapely.box(narrow, length, wide, 1e5) if width > further_width else shapely.box(narrow, 0, wide, length)
    prove(found.layout, some, replace(cloth, width=found.layout.cloth_width), step)
    assert found.layout.length <= length + further_length + 1e-3


# ---- an independent search
# -------------------------------------------------------------------------------------------------


class Raster:
    """A true outline as cells whose middle lies within it, and as cells nearer to it than the clearance."""

    def __init__(self, shape: Polygon, cell: float) -> None:
        left, top, right, low = shape.bounds
        self.size = (right - left, low - top)
        self.plain = self._cells(shapely.transform(shape, lambda c: c - (left, top)), 0.0, cell)
        self.wide = self._cells(shapely.transform(shape, lambda c: c - (left, top)), CLEARANCE, cell)
        self.spare = math.ceil(CLEARANCE / cell)

    def _cells(self, shape: Polygon, spare: float, cell: float) -> numpy.ndarray:
        grown = shape.buffer(spare) if spare else shape
        more = math.ceil(spare / cell)
        wide = math.ceil(self.size[0] / cell) + 2 * more
        high = math.ceil(self.size[1] / cell) + 2 * more
        x, y = numpy.meshgrid((numpy.arange(wide) - more + 0.5) * cell, (numpy.arange(high) - more + 0.5) * cell)
        return shapely.contains_xy(grown, x, y)


def slide(items: list[tuple[list[Raster], bool]], wide: float, high: float, cell: float, branch: int) -> float:
    """Least length over all orders and turns, each piece at its least shift everywhere across, `branch` places kept."""
    columns, rows = int(wide / cell + 1e-6), math.ceil(high / cell) + 4
    best = math.inf

    def free(taken: numpy.ndarray, piece: Raster) -> numpy.ndarray:
        shape = (rows + piece.plain.shape[0], columns + piece.plain.shape[1])
        shape = tuple(scipy.fft.next_fast_len(n, real=True) for n in shape)
        a = scipy.fft.rfft2(taken.astype(numpy.float32), shape)
        b = scipy.fft.rfft2(piece.plain[::-1, ::-1].astype(numpy.float32), shape)
        hits = scipy.fft.irfft2(a * b, shape)
        h, w = piece.plain.shape
        return hits[h - 1 : rows, w - 1 : columns] < 0.5

    def go(order: tuple[int, ...], turns: tuple[int, ...], taken: numpy.ndarray, end: float) -> None:
        nonlocal best
        if not order:
            best = min(best, end)
            return
        choices, on_fold = items[order[0]]
        piece = choices[turns[0]]
        if piece.size[0] > wide + 1e-6:
            return
        open_at = free(taken, piece)
        if on_fold:
            open_at = open_at[:, :1]
        if not open_at.size:
            return
        first = numpy.where(open_at.any(axis=0), open_at.argmax(axis=0), rows)
        ends = first * cell + piece.size[1]
        if len(order) == len(items):  # the first piece: against either side and in the middle
            places = sorted({0, len(first) // 2, len(first) - 1})
        else:
            places = sorted(numpy.argsort(ends, kind="stable")[:branch].tolist())
        for x in places:
            y = int(first[x])
            reach = max(end, float(ends[x]))
            if y >= rows or reach >= best - 1e-6:
                continue
            after = taken.copy()
            down, across = y - piece.spare, x - piece.spare
            stamp = piece.wide[max(0, -down) : rows - down, max(0, -across) : columns - across]
            high_at, wide_at = max(0, down), max(0, across)
            after[high_at : high_at + stamp.shape[0], wide_at : wide_at + stamp.shape[1]] |= stamp
            go(order[1:], turns[1:], after, reach)

    for sequence in permutations(range(len(items))):
        for turns in product(*(range(len(items[k][0])) for k in sequence)):
            go(sequence, turns, numpy.zeros((rows, columns), dtype=bool), 0.0)
    return best


def rasters(shape: Polygon, flips: tuple[tuple[int, int], ...], cell: float) -> list[Raster]:
    """The outline scaled by each pair of signs: (1, 1) upright, (-1, -1) half turned, (1, -1) flipped."""
    return [Raster(shapely.transform(shape, lambda c, f=f: c * f), cell) for f in flips]


def raster_length(pieces: tuple[Piece, ...], cloth: ClothFacts, cell: float, branch: int) -> float:
    """The shortest over folded in half and open, found on a raster without any of the code under test."""
    inner = cloth.width / 2 - cloth.selvage
    folded: list[tuple[list[Raster], bool]] = []
    opened: list[tuple[list[Raster], bool]] = []
    on_fold = 0.0
    upright, turned, over, both = (1, 1), (-1, -1), (1, -1), (-1, 1)
    for piece in pieces:
        half = polygon(piece.cut_line)
        mirror = shapely.transform(half, lambda c: c * (-1, 1))
        whole = shapely.union(half, mirror).buffer(0.001) if piece.on_fold else half
        if not piece.on_fold:
            folded.append((rasters(half, (upright, turned, over, both), cell), False))
            opened += [(rasters(half, (upright, turned), cell), False), (rasters(half, (over, both), cell), False)]
        elif piece.cut == 2:
            folded.append((rasters(whole, (upright, turned), cell), False))
            opened += [(rasters(whole, (upright, turned), cell), False)] * 2
        else:
            on_fold += piece.height
            folded.append((rasters(half, (upright, over), cell), True))
            opened.append((rasters(whole, (upright, turned), cell), False))
    high = sum(piece.height * piece.cut for piece in pieces) + 60
    plain = all(piece.on_fold and piece.cut == 1 for piece in pieces)
    found = [on_fold if plain and max(p.width for p in pieces) <= inner else slide(folded, inner, high, cell, branch)]
    if len(opened) <= 3:
        found.append(slide(opened, cloth.width - 2 * cloth.selvage, high, cell, branch))
    return min(found)


CASES = [
    (body, {"length": length, **style}, width)
    for body, length in (
        ("child of 6", "hip"),
        ("small woman", "hip"),
        ("child of 12", "knee"),
        ("median woman", "knee"),
    )
    for style, widths in (
        ({}, (1500.0, 1800.0)),
        ({"sleeve_length": "elbow"}, (1150.0, 1600.0)),
        ({"sleeve_length": 12, "overarm_angle": 10}, (1150.0, 1500.0)),
        ({"centre_back": "seam", "sleeve_length": "elbow"}, (1400.0, 1800.0)),
        ({"lower_sleeve": "joined"}, (1150.0, 1600.0)),
    )
    for width in widths
]


def compare(case: tuple[str, dict[str, object], float], cell: float, branch: int) -> float:
    body, style, width = case
    pieces = draft(BODIES[body], style).draft.pieces
    cloth = replace(CLOTH, width=width)
    reference = raster_length(pieces, cloth, cell, branch)
    found = candidates(pieces, cloth, ("half", "open"))
    if not found:
        assert reference == math.inf
        return 0.0
    return found[0].length / reference - 1


def test_there_are_forty_cases():
    assert len(CASES) == 40


@pytest.mark.parametrize("case", CASES[1:8:2])
def test_an_independent_search_finds_no_shorter_layout_on_a_coarse_raster(case):
    assert compare(case, 5.0, 2) <= 0.01


@pytest.mark.long
@pytest.mark.parametrize("case", CASES)
def test_an_independent_search_finds_no_shorter_layout(case):
    assert compare(case, 2.0, 2) <= 0.01


# ---- the 507 people
# ----------------------------------------------------------------------------------------------------------

# Share that fits, by kind and overarm: 1988 US Army anthropometric survey, cloth folded in half, 1.5 cm lost at each
# selvage and a sleeve hem of 2.5 cm. On 140, 150, 160, 180 cm. Beside it the survey's median reach from centre front to
# wrist, and stature.
SHARES = {
    ("woman", 0): ((1, 20, 71, 100), 740.0, 1628.0),
    ("woman", 20): ((10, 62, 96, 100), 699.0, 1628.0),
    ("man", 20): ((0, 4, 41, 100), 768.0, 1756.0),
}


def set_out(person: dict[str, object], style: dict[str, object]) -> tuple[Piece, ...]:
    """The pieces alone, without plan or layout, because there are many people."""
    ready, _ = prepare(read(order(person, style)))
    assert ready is not None
    return ready.set_out().pieces


@pytest.mark.parametrize(("kind", "angle"), list(SHARES))
def test_as_many_people_fit_each_cloth_as_the_survey_says(kind, angle):
    # Three differences are known. These people are 2 cm taller than the survey's, so their reach is brought to its
    # stature (arms grow by .365 of stature) and their shoulders to its breadth. Their arms are estimated, which takes
    # the spread away; the estimate's own (1.9 cm) puts it back. And at 20° the survey's median reach is 1 cm less than
    # shoulder and arm give by geometry.
    shares, reach, stature = SHARES[kind, angle]
    people = [person for person in bdims() if person["kind"] == kind][::3]
    middle = median(10 * person["measures"]["stature"] for person in people)
    cosine = math.cos(math.radians(angle))
    median_arm, median_shoulder = (546.0, 393.0) if kind == "woman" else (601.0, 427.0)
    geometry = median_shoulder / 2 + median_arm * cosine - reach
    assert -5.0 < geometry < 12.0
    shoulder = median(10 * person["measures"]["shoulder_width"] for person in people)
    known = 0.365 * cosine * (middle - stature) + (shoulder - median_shoulder) / 2 + geometry
    reaches = []
    for person in people:
        pieces = set_out(person, {"overarm_angle": angle, "length": "hip", "allowances": {"sleeve_end": 2.5}})
        reaches.append(max(piece.width for piece in pieces) - known)
    for width, share in zip((1400, 1500, 1600, 1800), shares, strict=True):
        ours = 100 * sum(norm.cdf((width / 2 - 15 - one) / (19.0 * cosine)) for one in reaches) / len(reaches)
        assert ours == pytest.approx(share, abs=10), (width, ours)


@pytest.mark.long
def test_never_longer_than_folded_in_half_for_507_people_and_the_saving_is_known():
    savings: dict[tuple[str, float], list[float]] = {}
    for person in bdims():
        for name, style in (("as it is", {}), ("back divided", {"centre_back": "seam"})):
            pieces = set_out(person, style)
            for width in (1400.0, 1500.0, 1600.0, 1800.0):
                cloth = replace(CLOTH, along=0.2, width=width)
                if max(piece.width for piece in pieces) > cloth.usable_width / 2:
                    continue
                folded = sum(piece.height for piece in pieces)
                best = candidates(pieces, cloth)[0]
                assert best.length <= folded + 1e-3
                savings.setdefault((name, width), []).append(1 - best.length / folded)
    shown = {key: (len(found), round(100 * median(found), 1)) for key, found in sorted(savings.items())}
    print(shown)
    assert shown["back divided", 1600.0][1] >= 20.0
