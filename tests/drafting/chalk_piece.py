"""Hand-made pieces for the chalk tests: a knee dress with a slightly flared sleeve, from the figures of set-out.md.

The places are the set-out's chalk plan for the median woman, in inches on the cut line, joined by smooth curves; other
pieces are made from it by stretching it either way, lengthening the sleeve and widening the hem.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from drafting.contract.pieces import Anchor, Edge, Guide, GuideMark, Level, Notch, Part, Piece, Stage, Straightedge
from drafting.geometry.path import Path
from drafting.geometry.point import Point, direction
from drafting.geometry.polyline import crossing, lengths_along, lines_meet, offset
from drafting.geometry.segments import Cubic, Line, Segment
from drafting.units import INCH

_ALLOWANCES = {"neck_top": 10.0, "shoulder": 10.0, "sleeve_end": 20.0, "side": 15.0, "hem": 25.0}

#: The stages and parts of this piece: data that a garment hands over.
STAGES = tuple(
    Stage(key, title)
    for key, title in (
        ("levels", "Levels"), ("widths", "Widths"), ("neck", "Neck and overarm"), ("sleeve", "Sleeve"),
        ("underarm", "Underarm"), ("side", "Side"), ("hem", "Hem"),
    )
)  # fmt: skip
PARTS = (
    Part("neck_fold", "neck_edge", "neck edge", "neck"),
    Part("neck_top", "column_curve", "neck stand curve", "neck"),
    Part("shoulder_point", "overarm_curve", "overarm curve", "neck"),
    Part("sleeve_end_top", "sleeve_end", "sleeve end", "sleeve", one="middle"),
    Part("sleeve_end_under", "lead_in", "sleeve bend", "sleeve", late=True),
    Part("narrowest", "underarm_curve", "underarm curve", "underarm"),
    Part("waist", "side_curve", "side curve", "side"),
    Part("hem_corner", "hem_curve", "hem curve", "hem"),
)
STAGE_OF = {
    **dict.fromkeys(("neck_fold", "neck_top_fold", "hem_fold"), "levels"),
    **dict.fromkeys(("neck_top", "waist", "hip", "hem_corner", "hem_side"), "widths"),
    **dict.fromkeys(("column_foot", "column_end", "shoulder_point", "sleeve_end_top"), "neck"),
    **dict.fromkeys(("sleeve_end_under", "narrowest"), "sleeve"),
}
STRAIGHTEDGES = (Straightedge("shoulder_point", "shoulder point", "sleeve_end_top", "sleeve end"),)


def levels(unit: float) -> tuple[Level, ...]:
    """The body levels of this piece; `unit` is what an inch of it measures, mm."""
    return (
        Level("side_neck", "shoulder level", 5.875 * unit, ruled=True),
        Level("bust", "bust", 16.375 * unit, ruled=True, narrows=True),
        Level("waist", "waist", 21.125 * unit, ruled=True, width=True),
        Level("hip", "hip", 29.75 * unit, ruled=True, width=True),
        Level("hem", "hem", 46.875 * unit, width=True, ends=True),
    )


def smooth(points: Sequence[Point], first: Point, last: Point) -> list[Segment]:
    """Cubics through the points: given ways of travel at the two ends, along the neighbours' join between."""
    ways = [first, *((c - a).unit() for a, c in zip(points, points[2:], strict=False)), last]
    found: list[Segment] = []
    for index, (a, b) in enumerate(pairwise(points)):
        reach = a.distance(b) / 3
        found.append(Cubic(a, a + ways[index] * reach, b - ways[index + 1] * reach, b))
    return found


def dress(
    *, across: float = 1.0, down: float = 1.0, sleeve: float = 1.0, flare: float = 0.0, drop: float = 0.0
) -> Piece:
    """One half front on the fold, lengths in inches.

    `sleeve` stretches what lies outside 8 in, `flare` widens the hem, `drop` lowers the shoulder point.
    """

    def place(x: float, y: float) -> Point:
        far = 8.0 + (x - 8.0) * sleeve if y < 25 and x > 8.0 else x
        return Point(far * across * INCH, y * down * INCH)

    neck, foot, curve = place(4.5, 0), place(4.5, 5.375), place(5.125, 6.375)
    shoulder, top = place(7.875, 7.375 + drop), place(28.75, 15)
    middle, under = place(26.75, 19.625), place(24, 24)
    lead, narrow = place(17, 18.875), place(15.375, 17.875)
    ring = [place(x, y) for x, y in ((14.125, 17.75), (10.875, 17.75), (9.625, 18.25), (8.75, 19.25), (8, 20.75))]
    waist, side, lower, hip = place(7.95, 21.125), place(8.5, 23.625), place(10, 27.25), place(10.5, 29.75)
    hem, end = place(10.5 + flare, 46.875), place(0, 46.875)
    slope, back = (top - shoulder).unit(), (lead - under).unit()
    straight_down = direction(1.5707963267948966)
    skirt = (hem - hip).unit()
    runs: dict[str, list[Segment]] = {
        "neck_top": [Line(place(0, 0), neck)],
        "shoulder": [
            Line(neck, foot),
            *smooth([foot, curve], straight_down, (shoulder - curve).unit()),
            Line(curve, shoulder),
            Line(shoulder, top),
        ],
        "sleeve_end": smooth([top, middle, under], slope.left() * -1.0, back.left()),
        "side": [
            Line(under, lead),
            *smooth([lead, narrow, *ring, waist, side, lower, hip], back, skirt),
            Line(hip, hem),
        ],
        "hem": [Line(hem, end)],
    }
    cuts = {key: tuple(Path.of(run).flatten(0.05)) for key, run in runs.items()}
    inner = _inner({key: offset(run, -_ALLOWANCES[key], 0.05) for key, run in runs.items()})
    edges = tuple(
        Edge(key, Path.of(Line(a, b) for a, b in zip(inner[key], inner[key][1:], strict=False)), cuts[key],
             _ALLOWANCES[key], turned=key in ("sleeve_end", "hem"))
        for key in runs
    )  # fmt: skip
    line: list[Point] = []
    for points in cuts.values():
        line.extend(points[1:] if line else points)
    along = lengths_along(line)

    def anchor(name: str, label: str, kind: str, point: Point) -> Anchor:
        index = min(range(len(line)), key=lambda k: line[k].distance(point))
        assert line[index].distance(point) < 1e-6
        return Anchor(name, label, kind, along[index], line[index], STAGE_OF[name])  # type: ignore[arg-type]

    anchors = (
        anchor("neck_fold", "Top of the fold", "fold", line[0]),
        anchor("neck_top", "Neck top", "corner", neck),
        anchor("column_foot", "Column foot", "guide", foot),
        anchor("shoulder_point", "Shoulder point", "guide", shoulder),
        anchor("sleeve_end_top", "Sleeve end, top", "corner", top),
        anchor("sleeve_end_under", "Sleeve end, under", "corner", under),
        anchor("narrowest", "Narrowest place", "guide", narrow),
        anchor("waist", "Waist", "level", waist),
        anchor("hip", "Hip", "level", hip),
        anchor("hem_corner", "Hem corner", "corner", hem),
        anchor("hem_fold", "Hem at the fold", "fold", end),
    )
    notches = tuple(
        Notch(seam, id_, label, 100.0, point, point)
        for seam, id_, label, point in (
            ("shoulder", "shoulder_point", "Shoulder point", shoulder),
            ("side", "waist", "Waist", waist),
        )
    )
    return Piece(
        "front", "Front", 1, True, edges, tuple(line),
        levels(down * INCH), anchors, notches,
        clips=((ring[2], ring[2] + Point(-10.0, -5.0)),), stages=STAGES, parts=PARTS, straightedges=STRAIGHTEDGES,
    )  # fmt: skip


def varied() -> list[Piece]:
    """Ten pieces of different people and shapes."""
    shapes = (
        (1.0, 1.0, 1.0, 0.0),
        (0.72, 0.7, 0.8, 0.0),
        (0.8, 0.85, 0.9, 1.0),
        (1.15, 1.05, 1.0, 4.0),
        (1.3, 1.0, 0.9, 0.0),
        (1.0, 1.12, 1.1, 6.0),
        (0.9, 0.8, 0.5, 0.0),
        (1.05, 0.62, 1.0, 0.0),
        (1.0, 1.25, 0.7, 8.0),
        (1.2, 0.9, 1.1, -1.0),
    )
    return [dress(across=a, down=d, sleeve=s, flare=f) for a, d, s, f in shapes]


def opening_down_the_fold(down: float, top: str = "neck_fold") -> Guide:
    """An opening from the mark `top` to `down` mm below the origin, as a garment hands it over."""
    end = Point(0.0, down)
    mark = GuideMark("opening_end", "End of the opening", "fold", end, end)
    says = f"Chalk it from {{{top}}} down to {{opening_end}}."
    return Guide("opening", "opening", "neck", (Point(0.0, 0.0), end), (mark,), says)


def backed(piece: Piece, **changes: object) -> Piece:
    """The same piece as a back, with fields changed."""
    return replace(piece, name="back", label="Back", worn_behind=True, **changes)  # type: ignore[arg-type]


def _inner(lines: dict[str, list[Point]]) -> dict[str, list[Point]]:
    """Inner lines of neighbouring edges cut off where they meet."""
    names = list(lines)
    done = {key: list(points) for key, points in lines.items()}
    for first, second in pairwise(names):
        a, b = done[first], done[second]
        met = crossing(a, b)
        if met is None:
            point = lines_meet(a[-1], a[-1] - a[-2], b[0], b[1] - b[0])
            done[first], done[second] = [*a, point], [point, *b]
        else:
            i, j, point = met
            done[first], done[second] = [*a[: i + 1], point], [point, *b[j + 1 :]]
    return done
