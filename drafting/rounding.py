"""What reading a tape in steps does to the girths: each is measured along the exact marks and along the chalked ones.

Both are joined straight from mark to mark, each mark where its two readings put it. A hand that rules and sweeps
through the marks sees nothing of the curve that was meant between them, so the true curve shifted with its marks would
show dents that nobody draws; and what straight joins cut off a bend is the same in both and cancels. The chalked line
is measured as it lies: a seam keeps its allowance from it, so it moves alike.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from drafting.chalk import ChalkPlan
from drafting.cloth import ClothFacts
from drafting.geometry.point import Point
from drafting.geometry.polyline import distance_to_line, lengths_along, nearest_on
from drafting.pieces import Edge, FinishedGirth, Piece

#: The finished outline is as wide at a level as the girth there says, but for this, mm; else it is measured elsewhere.
_AT_LEVEL = 0.5


@dataclass(frozen=True, slots=True)
class _Run:
    """Marks one after the other, joined straight, as they should lie and as they are chalked, washed, mm."""

    ids: tuple[str, ...]
    exact: tuple[Point, ...]
    chalked: tuple[Point, ...]

    def part(self, start: str, end: str) -> "_Run":
        """From one mark to another."""
        chosen = slice(self.ids.index(start), self.ids.index(end) + 1)
        return _Run(self.ids[chosen], self.exact[chosen], self.chalked[chosen])

    def lengthened(self) -> float:
        """By how much the chalked run is longer, mm."""
        return lengths_along(self.chalked)[-1] - lengths_along(self.exact)[-1]

    def narrowed(self) -> float:
        """By how much its least distance across grows, mm."""
        return min(point.x for point in self.chalked) - min(point.x for point in self.exact)

    def shift(self, place: Point) -> Point:
        """How far the place of the exact run nearest to `place` is shifted."""
        along = lengths_along(self.exact)
        at, _ = nearest_on(self.exact, along, place)
        index = next(k for k in range(len(along) - 1) if at <= along[k + 1] or k == len(along) - 2)
        share = (at - along[index]) / (along[index + 1] - along[index])
        before, after = (self.chalked[k] - self.exact[k] for k in (index, index + 1))
        return before.between(after, share)


@dataclass(frozen=True, slots=True)
class _Marked:
    """One piece with its marks once round; `scale` is what the wash leaves of the cloth, across and down."""

    piece: Piece
    marks: _Run
    scale: tuple[float, float]

    @property
    def side(self) -> _Run:
        """The marks from the end of the sleeve to the hem."""
        return self.marks.part("sleeve_end_under", "hem_corner")

    def washed(self, place: Point) -> Point:
        """A place of the cloth once it is washed."""
        return place.scaled(*self.scale)


def after_rounding(
    girths: Sequence[FinishedGirth], pieces: Sequence[Piece], plan: ChalkPlan, cloth: ClothFacts
) -> tuple[FinishedGirth, ...]:
    """The girths as they come out when the marks lie where the tape's steps put them, mm.

    Each is measured over every piece that it runs over: round the body on front and back, round the arm on front, back
    and a lower sleeve cut apart. What changes from the exact marks to the chalked ones is added to the true girth.
    """
    scale = 1 - cloth.shrink_across, 1 - cloth.shrink_along
    found = {}
    for piece, marked in zip(pieces, plan.pieces, strict=True):
        exact, chalked = (
            tuple(place.scaled(*scale) for place in places)
            for places in ([mark.point for mark in marked.marks], [mark.chalked for mark in marked.marks])
        )
        run = _Run(tuple(mark.id for mark in marked.marks), exact, chalked)
        found[piece.name] = _Marked(piece, run, scale)
    body, lower = (found["front"], found["back"]), found.get("lower_sleeve")
    return tuple(replace(girth, after_rounding=girth.girth + _change(girth, body, lower)) for girth in girths)


def _change(girth: FinishedGirth, body: Sequence[_Marked], lower: _Marked | None) -> float:
    if girth.at == "neck":
        return sum(2 * _neck(one) for one in body)
    if girth.at == "hem":
        return sum(2 * one.marks.part("hem_corner", "hem_fold").lengthened() for one in body)
    if girth.at == "underarm":
        return sum(_underarm(one) for one in body)
    if girth.at == "sleeve_end":
        if lower is not None:
            return 2 * lower.marks.part("sleeve_end_under", "sleeve_end_fold").lengthened()
        return sum(one.marks.part("sleeve_end_top", "sleeve_end_under").lengthened() for one in body)
    if girth.at == "narrowest":
        return _narrowest(girth.girth, body, lower)
    level = "bust" if girth.at == "bust_level" else girth.at
    return sum(2 * _at_level(one, level, girth.girth / 4) for one in body)


def _neck(one: _Marked) -> float:
    """The change of half a neck on one piece: of a stand across its narrowest place, of a scooped edge along it."""
    if "column_foot" in one.marks.ids:
        return one.marks.part("neck_corner", "sleeve_end_top").narrowed()
    return one.marks.part("neck_top", "neck_corner").lengthened()


def _at_level(one: _Marked, level: str, quarter: float) -> float:
    """The change of a quarter, measured across at a level of the body.

    Where the outline at that level is no side seam but runs out into the sleeve, as at the bust under a batwing, the
    place counts that is as wide as the girth says and lies nearest to the level.
    """
    seam = [one.washed(point) for point in _edge(one, "side").stitch.flatten(0.05)]
    centre = 0.0 if one.piece.on_fold else one.washed(_edge(one, "centre_back").stitch.end).x
    y, wide = one.washed(Point(0.0, one.piece.levels[level])).y, quarter + centre
    if any(abs(x - wide) <= _AT_LEVEL for x in _across(seam, y, steep=True)):
        exact, chalked = (_across(points, y) for points in (one.side.exact, one.side.chalked))
        if exact and chalked:
            true = min(exact, key=lambda x: abs(x - wide))
            return min(chalked, key=lambda x: abs(x - true)) - true
    return one.side.shift(_as_wide(seam, wide, y)).x


def _across(line: Sequence[Point], level: float, *, steep: bool = False) -> list[float]:
    """Where a line crosses a level, distances across; only where it runs more down than across if it is to be steep."""
    return [
        a.between(b, (level - a.y) / (b.y - a.y)).x
        for a, b in pairwise(line)
        if a.y != b.y and min(a.y, b.y) <= level <= max(a.y, b.y) and not (steep and abs(b.x - a.x) > abs(b.y - a.y))
    ]


def _as_wide(seam: Sequence[Point], wide: float, level: float) -> Point:
    """The place of a seam that lies so far across, the nearest to a level; where there is none, the nearest across."""
    found = [
        a.between(b, (wide - a.x) / (b.x - a.x))
        for a, b in pairwise(seam)
        if a.x != b.x and min(a.x, b.x) <= wide <= max(a.x, b.x)
    ]
    nearest = min(seam, key=lambda point: abs(point.x - wide))
    return min(found, key=lambda point: abs(point.y - level), default=nearest)


def _edge(one: _Marked, name: str) -> Edge:
    return next(edge for edge in one.piece.edges if edge.name == name)


def _overarms(one: _Marked) -> tuple[tuple[Point, Point], tuple[Point, Point]]:
    """The last straight join of the overarm, exact and chalked."""
    run = one.marks.part("shoulder_point", "sleeve_end_top")
    return (run.exact[-2], run.exact[-1]), (run.chalked[-2], run.chalked[-1])


def _under_place(one: _Marked) -> Point:
    """The place of the underarm on the chalked line."""
    return one.washed(next(notch.outer for notch in one.piece.notches if notch.id == "underarm"))


def _underarm(one: _Marked) -> float:
    """The change of the distance from the underarm to the overarm on one piece."""
    exact, chalked = _overarms(one)
    place = _under_place(one)
    return distance_to_line(place + one.side.shift(place), *chalked) - distance_to_line(place, *exact)


def _narrowest(girth: float, body: Sequence[_Marked], lower: _Marked | None) -> float:
    """The change of the least girth of the sleeve, square to the overarm: of the upper sleeve or of the lower one."""
    change = sum(_least_below(one) for one in body)
    if lower is None:
        return change
    joints = (_edge(one, "sleeve_joint").stitch.scaled(*one.scale, Point(0.0, 0.0)) for one in body)
    upper = sum(joint.length() for joint in joints) + change
    under = lower.marks.part("joint_under", "sleeve_end_under").narrowed()
    below = 2 * (min(lower.washed(point).x for point in _edge(lower, "under").stitch.flatten(0.05)) + under)
    return min(upper, below) - girth


def _least_below(one: _Marked) -> float:
    side = one.side
    along = lengths_along(side.exact)
    curve, _ = nearest_on(side.exact, along, _under_place(one))
    count = max(1, sum(at <= curve for at in along))
    exact, chalked = (
        min(distance_to_line(point, *overarm) for point in points[:count])
        for points, overarm in zip((side.exact, side.chalked), _overarms(one), strict=True)
    )
    return chalked - exact
