"""From finished edges to a piece of cloth: shrinkage, allowances, turned corners, anchors, notches.

Works for any piece whose outline runs once round from the top of the fold (clockwise on the cloth: out along the top,
down the side, back along the hem), so garments share it. The cut line lies to the left of travel, which is outside.
"""

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from drafting.contract.pieces import Anchor, AnchorKind, Edge, Points, Swing
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.polyline import crossing, lengths_along, lines_meet, mirrored, nearest_on, offset

#: Straight joins of the cut line keep within this of the true offset, mm: under half of what the file promises (0.05).
CUT_TOLERANCE = 0.02
#: An arc is carried on by this angle to meet its neighbours, radians: more than any allowance takes of the smallest
#: circle (our choice).
ON_BY = math.radians(60)


class EdgesDoNotMeetError(ArithmeticError):
    """Neighbouring edges of the cut line run past each other; `edges` are their names, where they are known."""

    def __init__(self, says: str, edges: tuple[str, ...] = ()) -> None:
        super().__init__(says)
        self.edges = edges


@dataclass(frozen=True, slots=True)
class FinishedEdge:
    """One edge as it is sewn: its path, allowance, and whether it is turned as a hem.

    `label` is what it is called in a sentence, where that is not its name; `points` are the ends at which it comes to
    a point on purpose, with the reason. `swung_from` is the centre of an edge that is an arc of a circle.
    """

    name: str
    path: Path
    allowance: float
    turned: bool = False
    label: str = ""
    points: Points = ()
    swung_from: Point | None = None


@dataclass(frozen=True, slots=True)
class CutOut:
    """Edges on the cloth and the cut line round them, with the place of each corner along it (one per edge end)."""

    edges: tuple[Edge, ...]
    line: tuple[Point, ...]
    corners: tuple[Point, ...]
    shift: Point
    across: float
    down: float

    def place(self, finished: Point) -> Point:
        """Where a finished point lies on the cloth."""
        return finished.scaled(self.across, self.down) + self.shift


def cut_out(
    edges: Sequence[FinishedEdge],
    shrink_across: float,
    shrink_along: float,
    *,
    closed: bool = False,
    origin: Point | None = None,
) -> CutOut:
    """Lays finished edges on the cloth: shrinkage first, then each edge's allowance, then the turned corners.

    A piece on the fold: the first edge begins and the last ends on the fold, square to it or in a point. A `closed`
    piece: the last edge runs up its straight centre, back to where the first begins. Hems (turned edges) carry the
    reflection of the neighbouring edges, so that the allowance lies flat when it is folded back; at a point it is
    snipped instead, and the cut edges are only brought together. An arc of a circle stays one where the cloth shrinks
    alike both ways, and is then an edge to be swung. `origin` is a finished point on the line of the fold that is to be
    the piece's 0, as long as nothing of the piece then lies above it; else the 0 is level with its top.
    """
    across, down = 1 / (1 - shrink_across), 1 / (1 - shrink_along)
    paths = [edge.path.scaled(across, down, Point(0.0, 0.0)) for edge in edges]
    runs = [offset(path.segments, edge.allowance, CUT_TOLERANCE) for path, edge in zip(paths, edges, strict=True)]
    swung = abs(across - down) <= 1e-9
    if swung:
        last = None if closed else len(edges) - 1
        runs = [
            run
            if edge.swung_from is None
            else _swung_on(run, edge.swung_from.scaled(across, down), at_start=index > 0, at_end=index != last)
            for index, (edge, run) in enumerate(zip(edges, runs, strict=True))
        ]
    count = len(runs)
    bridges: list[list[Point]] = [[] for _ in runs]
    corners: list[Point] = []
    for index in range(count if closed else count - 1):
        after_index = (index + 1) % count
        before, after = edges[index], edges[after_index]
        bridge: list[Point] = []
        to_point = any(end == "end" for end, _ in before.points) or any(end == "start" for end, _ in after.points)
        try:
            if to_point or before.turned == after.turned:
                if swung and (before.swung_from or after.swung_from):
                    runs[index] = _carried_on(runs[index][::-1], before)[::-1]
                    runs[after_index] = _carried_on(runs[after_index], after)
                runs[index], runs[after_index] = _joined(runs[index], runs[after_index])
                corners.append(runs[index][-1])
            elif before.turned:
                along = paths[index].segments[-1].tangent(1.0)
                runs[index], bridge, runs[after_index] = _turned(
                    runs[index], runs[after_index], along, paths[index].end, before.allowance
                )
                corners.append(bridge[0])
            else:
                along = paths[after_index].segments[0].tangent(0.0)
                hem, bridge, side = _turned(
                    runs[after_index][::-1], runs[index][::-1], along, paths[after_index].start, after.allowance
                )
                runs[index], bridge, runs[after_index] = side[::-1], bridge[::-1], hem[::-1]
                corners.append(bridge[-1])
        except (EdgesDoNotMeetError, ZeroDivisionError) as error:
            raise EdgesDoNotMeetError(str(error), (before.name, after.name)) from error
        bridges[index] = bridge
    if not closed:
        runs[0] = _to_the_fold(runs[0])
        runs[-1] = _to_the_fold(runs[-1][::-1])[::-1]
    line = [point for run, bridge in zip(runs, bridges, strict=True) for point in (*run, *bridge)]
    # The origin lies on the fold, level with the highest place of the cut line, so that no reading is below nothing; on
    # the straight centre edge of a closed piece in place of the fold.
    left = min(point.x for point in line) if closed else 0.0
    top = min(point.y for point in line)
    if origin is not None:
        top = min(top, origin.scaled(across, down).y)
    shift = Point(-left, -top)
    placed = tuple(
        Edge(
            edge.name,
            path.scaled(1.0, 1.0, shift),
            tuple(p + shift for p in run),
            edge.allowance,
            edge.turned,
            label=edge.label or edge.name.replace("_", " "),
            points=edge.points,
            swing=_swing(edge, path, across, down, shift),
        )
        for edge, path, run in zip(edges, paths, runs, strict=True)
    )
    outline = _without_doubles([point + shift for point in line])
    if closed and outline[0].distance(outline[-1]) <= 1e-6:
        outline = outline[:-1]
    return CutOut(placed, outline, tuple(corner + shift for corner in corners), shift, across, down)


def _swung_on(run: list[Point], centre: Point, *, at_start: bool, at_end: bool) -> list[Point]:
    """A cut edge that is an arc, carried on along its circle to meet its neighbours; on the fold it ends as it is."""
    if at_end:
        run = [*run, *_arc_on(run[-2], run[-1], centre)]
    return [*_arc_on(run[1], run[0], centre)[::-1], *run] if at_start else run


def _carried_on(run: list[Point], edge: FinishedEdge) -> list[Point]:
    """A cut edge carried on straight before its beginning, to meet an arc; one that is an arc is carried on already."""
    if edge.swung_from is not None:
        return run
    return [run[0] - (run[1] - run[0]).unit() * (edge.allowance + 100.0), *run]


def _arc_on(before: Point, end: Point, centre: Point) -> list[Point]:
    """Places on the circle about `centre` beyond the end of an arc, in steps that keep to it within CUT_TOLERANCE."""
    out = end - centre
    step = 2 * math.acos(1 - CUT_TOLERANCE / out.length()) * (1.0 if (before - centre).cross(out) > 0 else -1.0)
    return [centre + out.turned(step * number) for number in range(1, math.ceil(ON_BY / abs(step)) + 1)]


def _swing(edge: FinishedEdge, path: Path, across: float, down: float, shift: Point) -> Swing | None:
    """How an edge is swung on the cloth; None where it is no arc, or is none any more because of uneven shrinkage."""
    if edge.swung_from is None or abs(across - down) > 1e-9:
        return None
    centre = edge.swung_from.scaled(across, down)
    out = path.start - centre
    outward = path.segments[0].tangent(0.0).left().dot(out.unit())
    return Swing(centre + shift, out.length() + edge.allowance * (1.0 if outward > 0 else -1.0), out.length())


def _joined(before: list[Point], after: list[Point]) -> tuple[list[Point], list[Point]]:
    """Two neighbouring cut edges brought together where they cross, or carried on straight until they do.

    Where one of them runs past the line of the other, only the other is carried on, and the first is cut off there.
    """
    meet = crossing(before, after)
    if meet is None:
        corner = lines_meet(before[-1], before[-1] - before[-2], after[0], after[1] - after[0])
        ends, begins, to, back = before, after, corner - before[-1], corner - after[0]
        short, late = to.dot(before[-1] - before[-2]) >= 0, back.dot(after[1] - after[0]) <= 0
        if short and not late:
            # Carried on past the meeting of the two lines, as the other may bend away.
            before = [*before, corner + to * 0.5]
        elif late and not short:
            after = [corner + back * 0.5, *after]
        meet = crossing(before, after) if short != late else None
        if meet is None:
            return [*ends, corner], [corner, *begins]
    i, j, corner = meet
    return [*before[: i + 1], corner], [corner, *after[j + 1 :]]


def _turned(
    hem: list[Point], side: list[Point], along: Point, corner: Point, allowance: float
) -> tuple[list[Point], list[Point], list[Point]]:
    """The corner of a turned hem: the neighbouring cut edge reflected in the hem's tangent, up to the hem's cut edge.

    `hem` ends and `side` begins near `corner`. Returns the hem's cut edge as far as it is kept (with the corner), the
    bridge from that corner to the fold line of the hem, and the neighbour's cut edge from there on.
    """
    side = _from_line(side, corner, along)
    folded: list[Point] = []
    for point in side:
        image = mirrored(point, corner, along)
        folded.append(image)
        if abs((image - corner).cross(along)) > allowance + 2.0:
            break
    else:
        folded.append(folded[-1] + (folded[-1] - folded[-2]))
    # The hem may end just short of the reflected side, so it is carried on straight, in its own tangent.
    onward = along if (hem[-1] - hem[-2]).dot(along) > 0 else along * -1.0
    carried = [*hem, hem[-1] + onward * (allowance + 100.0)]
    meet = crossing(carried, folded[::-1])
    if meet is None:
        # The neighbour bends away within the allowance: its direction at the corner is reflected instead of its shape.
        away = next(point for point in folded if point.distance(folded[0]) > 1e-3)
        folded = [folded[0], folded[0] + (away - folded[0]).unit() * (2 * allowance + 100.0)]
        meet = crossing(carried, folded[::-1])
    if meet is None:
        raise EdgesDoNotMeetError("a turned hem does not meet its neighbour")
    i, j, point = meet
    return [*carried[: i + 1], point], [point, *folded[::-1][j + 1 :]], side


def _to_the_fold(run: list[Point]) -> list[Point]:
    """A cut edge that begins on the fold: one that leaves it in a point is cut off there, or carried on straight."""
    if abs(run[0].x) < 1e-6:
        return run
    index = next((i for i, point in enumerate(run) if point.x > 0.0), len(run) - 1)
    start = max(index - 1, 0)
    step = run[start + 1] - run[start]
    if abs(step.x) < 1e-9:
        raise EdgesDoNotMeetError("an edge runs along the fold that it should begin on")
    return [lines_meet(run[start], step, Point(0.0, 0.0), Point(0.0, 1.0)), *run[start + 1 :]]


def _from_line(run: list[Point], on: Point, along: Point) -> list[Point]:
    """A run that begins exactly on a line.

    Cut off at it where it begins beyond, carried on to it where it begins short.
    """
    inside = (run[1] - run[0]).cross(along)
    index = next((i for i, point in enumerate(run) if (point - on).cross(along) * inside > 0), len(run) - 1)
    start = max(index - 1, 0)
    step = run[min(start + 1, len(run) - 1)] - run[start]
    if abs(step.cross(along)) < 1e-9:
        raise EdgesDoNotMeetError("an edge runs along the hem that it should end in")
    first = lines_meet(run[start], step, on, along)
    return [first, *run[index:]]


def _without_doubles(points: Sequence[Point]) -> tuple[Point, ...]:
    kept: list[Point] = []
    for point in points:
        if not kept or point.distance(kept[-1]) > 1e-6:
            kept.append(point)
    return tuple(kept)


def anchors(
    line: Sequence[Point], wanted: Sequence[tuple[str, str, AnchorKind, str, Point]], seen: Collection[str] = ()
) -> tuple[Anchor, ...]:
    """Anchors in outline order: each wanted point is moved onto the nearest place of the cut line.

    A wanted one has an id, a label, a kind, the key of its stage of chalking, and its place. `seen` are the ids of
    those of which a slip shows to the eye.
    """
    along = lengths_along(line)
    found = [
        Anchor(name, label, kind, *nearest_on(line, along, point), stage, name in seen)
        for name, label, kind, stage, point in wanted
    ]
    return tuple(sorted(found, key=lambda anchor: anchor.at))
