"""A front made by hand from the figures of the chalk plan in set-out (median woman, slight flare, inches).

Curves are drawn through the plan's curve points, so this is a stand-in for a draft, not a draft.
"""

import itertools
from dataclasses import replace

from drafting.contract.pieces import Anchor, Edge, Notch, Piece, Slit
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.polyline import lengths_along
from drafting.geometry.segments import Line
from drafting.units import INCH
from tests.drafting.chalk_piece import PARTS, STAGE_OF, STAGES, STRAIGHTEDGES, levels, opening_down_the_fold

#: (edge, id, label, kind or "" for a curve point, across, down), inches, once round the cut line.
OUTLINE = (
    ("neck_top", "neck_top_fold", "Neck top at the fold", "fold", 0, 0),
    ("neck_top", "neck_top", "Neck top", "corner", 4.5, 0),
    ("overarm", "column_foot", "Column foot", "guide", 4.5, 5.375),
    ("overarm", "", "", "", 4.75, 5.875),
    ("overarm", "column_end", "Column curve ends", "guide", 5.125, 6.375),
    ("overarm", "shoulder_point", "Shoulder point", "guide", 7.875, 7.375),
    ("overarm", "sleeve_end_top", "Sleeve end, top", "corner", 28.75, 15),
    ("sleeve_end", "", "", "", 26.75, 19.625),
    ("sleeve_end", "sleeve_end_under", "Sleeve end, under", "corner", 24, 24),
    ("side", "", "", "", 17, 18.875),
    ("side", "narrowest", "Narrowest of the sleeve", "guide", 15.375, 17.875),
    ("side", "", "", "", 14.125, 17.75),
    ("side", "", "", "", 10.875, 17.75),
    ("side", "", "", "", 9.625, 18.25),
    ("side", "", "", "", 8.75, 19.25),
    ("side", "", "", "", 8, 20.75),
    ("side", "waist", "Waist at the side", "level", 8, 21.125),
    ("side", "", "", "", 8.5, 23.625),
    ("side", "", "", "", 10, 27.25),
    ("side", "hip", "Hip at the side", "level", 10.5, 29.75),
    ("side", "hem_side", "Hem at the side", "corner", 10.5, 46.875),
    ("hem", "hem_fold", "Hem at the fold", "fold", 0, 46.875),
)
ALLOWANCES = {"neck_top": 10.0, "overarm": 10.0, "sleeve_end": 20.0, "side": 15.0, "hem": 25.0}


def _spline(before: Point, start: Point, end: Point, after: Point, steps: int) -> list[Point]:
    """Points of a Catmull-Rom span, end left out, handles kept short so that it does not swing out."""
    size = start.distance(end)
    out = (end - before).unit() * (size / 3)
    back = (after - start).unit() * (size / 3)
    a, b, c, d = start, start + out, end - back, end
    points = []
    for step in range(steps):
        t = step / steps
        s = 1 - t
        points.append(a * (s**3) + b * (3 * s * s * t) + c * (3 * s * t * t) + d * (t**3))
    return points


def _corner(kind: str) -> bool:
    return kind in ("corner", "fold")


def _line() -> tuple[list[Point], list[int]]:
    """The dense cut line, and where in it each row of OUTLINE lies."""
    places = [Point(row[4] * INCH, row[5] * INCH) for row in OUTLINE]
    straight = {0, 1, 4, 5, 19, 20}
    line: list[Point] = []
    at = []
    for index, (start, end) in enumerate(itertools.pairwise(places)):
        at.append(len(line))
        if index in straight:
            line.append(start)
            continue
        before = start if _corner(OUTLINE[index][3]) else places[index - 1]
        after = end if _corner(OUTLINE[index + 1][3]) else places[index + 2]
        if before is start:
            before = start - (end - start)
        if after is end:
            after = end + (end - start)
        line.extend(_spline(before, start, end, after, 16))
    at.append(len(line))
    line.append(places[-1])
    return line, at


def _inward(line: list[Point], deep: float) -> list[Point]:
    """Each point moved to the right of travel, the inside, along the mean normal."""
    moved = []
    for index, point in enumerate(line):
        before, after = line[max(index - 1, 0)], line[min(index + 1, len(line) - 1)]
        moved.append(point - (after - before).unit().left() * deep)
    return moved


def sample_piece(name: str = "front", label: str = "Front") -> Piece:
    """The stand-in front (or back): cut line, stitch line, anchors, notches and clips."""
    line, at = _line()
    along = lengths_along(line)
    edges = []
    names = list(ALLOWANCES)
    starts: list[tuple[int, int]] = []
    for edge in names:
        rows = [index for index, row in enumerate(OUTLINE) if row[0] == edge]
        first = max(rows[0] - 1, 0) if edge != "neck_top" else 0
        starts.append((at[first], at[rows[-1]]))
    runs = [line[first : last + 1] for first, last in starts]
    stitched = [_inward(run, ALLOWANCES[edge]) for edge, run in zip(names, runs, strict=True)]
    for index in range(len(names) - 1):  # corners meet where the neighbours' end tangents cross
        first, second = stitched[index], stitched[index + 1]
        one, two = (first[-1] - first[-2]).unit(), (second[1] - second[0]).unit()
        meet = first[-1] + one * ((second[0] - first[-1]).cross(two) / one.cross(two))
        first[-1] = second[0] = meet
    for edge, run, stitch in zip(names, runs, stitched, strict=True):
        path = Path.of(Line(a, b) for a, b in itertools.pairwise(stitch))
        edges.append(Edge(edge, path, tuple(run), ALLOWANCES[edge], turned=edge in ("hem", "sleeve_end")))
    anchors = [
        Anchor(row[1], row[2], row[3], along[at[index]], line[at[index]], STAGE_OF[row[1]])  # type: ignore[arg-type]
        for index, row in enumerate(OUTLINE)
        if row[1]
    ]
    side = edges[3].stitch
    notches = []
    for mark in ("narrowest", "waist", "hip"):
        anchor = next(anchor for anchor in anchors if anchor.id == mark)
        best = min(range(0, int(side.length()), 4), key=lambda d: side.at_length(d)[0].distance(anchor.point))
        notches.append(Notch("side", mark, anchor.label, float(best), side.at_length(best)[0], anchor.point))
    underarm = [line[i] for i in range(at[12], at[15], 9)]
    clips = tuple((point, inner) for point, inner in zip(underarm, _inward(underarm, 15.0), strict=True))
    same = {"neck_fold": "neck_top_fold", "hem_corner": "hem_side"}
    parts = tuple(replace(part, begins=same.get(part.begins, part.begins)) for part in PARTS)
    return Piece(
        name, label, 1, True, tuple(edges), tuple(line), levels(INCH), tuple(anchors), tuple(notches), clips,
        stages=STAGES, parts=parts, straightedges=STRAIGHTEDGES, worn_behind=name == "back", zero=5.875 * INCH,
        written=(16.375 * INCH, 21.125 * INCH),
    )  # fmt: skip


def sample_back() -> Piece:
    """The same outline with a slit at the centre back, one at the side, and a slanted neck."""
    front = sample_piece("back", "Back")
    opening = opening_down_the_fold(120.0, "neck_top_fold")
    return replace(
        front,
        guides=(opening,),
        slit=Slit("side", 180.0),
        trim=(Point(-114.3, 0.0), Point(114.3, 22.0)),
        trim_side="left",
        trim_words="neck",
    )
