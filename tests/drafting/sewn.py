"""A garment sewn in code, from its pieces and seams alone.

Every piece stands for its copies: `cut` times, and two halves each where it lies on the fold. Seams are walked over
from edge to edge, and the angles at which pieces meet are added up. Nothing here knows a garment.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import accumulate, pairwise, product

from drafting.contract.pieces import Edge, Piece
from drafting.contract.seams import EdgeRun, Seam
from drafting.contract.set_out import SetOut
from drafting.geometry.point import Point

#: Places of a seam that lie nearer to each other than this are one place, mm.
NEAR = 1.0
#: Edges that share less than this of a seam do not lie beside each other in it.
BESIDE = 0.01
#: The ticks of a double notch lie no farther apart than this, mm.
DOUBLE = 12.0
#: Two angles that should add up to 180° may miss it by this, degrees.
SMOOTH = 2.0


@dataclass(frozen=True)
class Laid:
    """One edge of a side of a seam, in the direction in which the side is sewn; `at` is where it begins, mm."""

    piece: str
    edge: str
    forward: bool
    at: float
    length: float


class Sewn:
    """The pieces of a draft and what is sewn to what."""

    def __init__(self, draft: SetOut) -> None:
        self.draft = draft
        self.pieces = {piece.name: piece for piece in draft.pieces}
        self._scale = 1 - draft.cloth.shrink_across, 1 - draft.cloth.shrink_along

    # --- pieces and their corners ---

    def copies(self, piece: str) -> int:
        """How often an edge of the piece is there."""
        return self.pieces[piece].cut * (2 if self.pieces[piece].on_fold else 1)

    def edge(self, piece: str, name: str) -> Edge:
        found = [edge for edge in self.pieces[piece].edges if edge.name == name]
        assert len(found) == 1, f"{piece} has {len(found)} edges called {name}"
        return found[0]

    def length(self, piece: str, name: str) -> float:
        """Length of an edge on the cloth, from short straight joins, mm."""
        points = self.edge(piece, name).stitch.flatten(0.002)
        return sum(a.distance(b) for a, b in pairwise(points))

    def beyond(self, piece: str, name: str, *, end: bool) -> str | None:
        """The edge that follows at an edge's end, or goes before its beginning; None for the fold."""
        edges = self.pieces[piece].edges
        index = [edge.name for edge in edges].index(name) + (1 if end else -1)
        if self.pieces[piece].on_fold and not 0 <= index < len(edges):
            return None
        return edges[index % len(edges)].name

    def angle(self, piece: str, name: str, *, end: bool) -> float:
        """The angle inside the finished piece at the end or the beginning of an edge, degrees."""
        this, other = self.edge(piece, name).stitch, self.beyond(piece, name, end=end)
        if end:
            into = this.segments[-1].tangent(1.0)
            out = Point(0.0, -1.0) if other is None else self.edge(piece, other).stitch.segments[0].tangent(0.0)
        else:
            out = this.segments[0].tangent(0.0)
            into = Point(0.0, -1.0) if other is None else self.edge(piece, other).stitch.segments[-1].tangent(1.0)
        into, out = into.scaled(*self._scale), out.scaled(*self._scale)
        return 180.0 - math.degrees(math.atan2(into.cross(out), into.dot(out)))

    # --- seams ---

    @cached_property
    def sewn_edges(self) -> frozenset[tuple[str, str]]:
        return frozenset((run.piece, run.edge) for seam in self.draft.seams for side in seam.sides for run in side)

    @cached_property
    def pairs(self) -> frozenset[frozenset[tuple[str, str]]]:
        """Edges that are sewn to each other somewhere: those that lie beside each other in a seam."""
        return frozenset(pair for seam in self.draft.seams for pair in self._beside(seam))

    @cached_property
    def let_in_edges(self) -> frozenset[tuple[str, str]]:
        """Edges that lie on the edge of a host, beside a seam that stays open there."""
        return frozenset((one.piece, one.edge) for one in self.draft.let_in)

    def _beside(self, seam: Seam) -> frozenset[frozenset[tuple[str, str]]]:
        """Edges that lie beside each other in one seam."""
        return frozenset(
            frozenset(((one.piece, one.edge), (other.piece, other.edge)))
            for (one, begin, end), (other, there, last) in product(*(self._shares(side) for side in seam.sides))
            if min(end, last) - max(begin, there) > BESIDE
        )

    def out_of_order(self) -> Iterator[str]:
        """Seams that run over the end of another that stands after them: it must be closed before."""
        closed = [self._beside(seam) for seam in self.draft.seams]
        for index, both in enumerate(self.sides):
            for before, after in (pair for side in both for pair in pairwise(side)):
                ends = (before, before.forward), (after, not after.forward)
                beyond = [(run.piece, self.beyond(run.piece, run.edge, end=end)) for run, end in ends]
                pair = frozenset((piece, edge) for piece, edge in beyond if edge is not None)
                later = [number for number, pairs in enumerate(closed) if pair in pairs]
                if len(beyond) == 2 and later and min(later) > index:
                    yield f"{_named(both[0])} runs over {_named((before,))}, which is closed only after it"

    def _shares(self, side: tuple[EdgeRun, ...]) -> list[tuple[EdgeRun, float, float]]:
        """The edges of a side, each with where it begins and ends as a share of the side."""
        longs = [run.times * self.length(run.piece, run.edge) for run in side]
        ends = list(accumulate(longs))
        return [
            (run, (end - long) / ends[-1], end / ends[-1]) for run, long, end in zip(side, longs, ends, strict=True)
        ]

    @cached_property
    def sides(self) -> tuple[tuple[tuple[Laid, ...], tuple[Laid, ...]], ...]:
        """Both sides of each seam, every edge in the direction in which it is sewn.

        Of a seam in which every edge stands twice, as its two halves, one half: the other is its image.
        """
        found = []
        for seam in self.draft.seams:
            alike = halves(seam)
            one, other = (tuple(replace(run, times=run.times // alike) for run in side) for side in seam.sides)
            told = any(run.backwards for side in seam.sides for run in side)
            found.append((self.laid(one, told=told), self.laid(other, told=told)))
        return tuple(found)

    def laid(self, side: tuple[EdgeRun, ...], *, told: bool = False) -> tuple[Laid, ...]:
        """The edges of a side one after the other.

        An edge may be sewn backwards; it is where only so it ends at what the next one begins at, or where a seam says
        so (`told`).
        """
        runs = [run for run in side for _ in range(run.times)]
        best: dict[bool, tuple[int, tuple[bool, ...]]] = {True: (0, (True,)), False: (1, (False,))}
        for before, after in pairwise(runs):
            found: dict[bool, tuple[int, tuple[bool, ...]]] = {}
            for forward in (True, False):
                ways = [
                    (cost + (0 if self._joined(before, was, after, forward) else 100) + (not forward), (*way, forward))
                    for was, (cost, way) in best.items()
                ]
                found[forward] = min(ways)
            best = found
        directions = tuple(not run.backwards for run in runs) if told else min(best.values())[1]
        laid, at = list[Laid](), 0.0
        for run, forward in zip(runs, directions, strict=True):
            long = self.length(run.piece, run.edge)
            laid.append(Laid(run.piece, run.edge, forward, at, long))
            at += long
        return tuple(laid)

    def pointed(self, piece: str, name: str | None, *, end: bool) -> bool:
        """Whether an edge comes to a point on purpose at its end or its beginning; the fold does not."""
        return name is not None and self.edge(piece, name).comes_to_a_point("end" if end else "start")

    def _joined(self, one: EdgeRun, one_forward: bool, other: EdgeRun, other_forward: bool) -> bool:
        """Whether the end of one edge of a side and the beginning of the next are the ends of one seam, or one fold."""
        before = self.beyond(one.piece, one.edge, end=one_forward)
        after = self.beyond(other.piece, other.edge, end=not other_forward)
        if before is None or after is None:
            return before is after and one.piece == other.piece
        return frozenset(((one.piece, before), (other.piece, after))) in self.pairs

    def times(self, seam: Seam) -> float:
        """How often a seam is sewn: by the piece of which it takes most."""
        used: dict[tuple[str, str], int] = {}
        for side in seam.sides:
            for run in side:
                used[run.piece, run.edge] = used.get((run.piece, run.edge), 0) + run.times
        return min(self.copies(piece) / count for (piece, _), count in used.items())

    # --- what must be true ---

    def left_over(self) -> Iterator[str]:
        """What is not sewn up: copies of an edge that no seam takes, and pieces that hang on nothing."""
        used: dict[tuple[str, str], float] = {}
        for seam in self.draft.seams:
            times = self.times(seam)
            if times != int(times):
                yield f"a seam of {seam.one[0].piece} {seam.one[0].edge} is sewn {times} times"
            for side in seam.sides:
                for run in side:
                    used[run.piece, run.edge] = used.get((run.piece, run.edge), 0) + times * run.times
        for (piece, edge), count in used.items():
            # An edge may be sewn to two, as a waist is to both edges of its band.
            if count not in (self.copies(piece), 2 * self.copies(piece)):
                yield f"of {self.copies(piece)} edges {edge} of the {piece}, {count:g} are sewn"
        for piece in self.pieces.values():
            for edge in piece.edges:
                free = edge.turned or edge.allowance == 0 or self.folded_over(piece, edge)
                free = free or (piece.name, edge.name) in self.let_in_edges
                if free == ((piece.name, edge.name) in self.sewn_edges):
                    how = "is sewn, though it is free" if free else "hangs loose"
                    yield f"the edge {edge.name} of the {piece.name} {how}"
        hanging = {name for name, piece in self.pieces.items() if any(edge.allowance > 0 for edge in piece.edges)}
        laid_on = {one.piece for one in self.draft.set_on}
        hanging -= laid_on  # sewn onto its host, its edges turned in
        hanging -= {one.piece for one in self.draft.let_in}  # caught in a seam of its host
        reached = set(list(hanging)[:1])
        while True:
            more = {run.piece for seam in self.draft.seams for side in seam.sides for run in side
                    if any(other.piece in reached for both in seam.sides for other in both)} - reached  # fmt: skip
            if not more:
                break
            reached |= more
        for name in hanging - reached:
            yield f"the {name} hangs on nothing"

    def folded_over(self, piece: Piece, edge: Edge) -> bool:
        """Whether an edge lies on a sewn one, notches and all, when the piece is folded over a line that it has."""
        for line in (guide.line for guide in piece.guides):
            along = (line[-1] - line[0]).unit()

            def over(point: Point, on: Point = line[0], along: Point = along) -> Point:
                away = point - on
                return on + along * (2 * away.dot(along)) - away

            for other in piece.edges:
                if other is edge or (piece.name, other.name) not in self.sewn_edges:
                    continue
                there = other.stitch.start, other.stitch.end
                mine = over(edge.stitch.start), over(edge.stitch.end)
                meets = any(a.distance(there[0]) < 0.1 and b.distance(there[1]) < 0.1 for a, b in (mine, mine[::-1]))
                notches = [[n for n in piece.notches if n.seam == name] for name in (edge.name, other.name)]
                pinned = all(any(over(a.inner).distance(b.inner) < 0.5 for b in notches[1]) for a in notches[0])
                same = abs(edge.stitch.length() - other.stitch.length()) < 0.1
                if meets and same and pinned and len(notches[0]) == len(notches[1]):
                    return True
        return False

    def unequal(self) -> Iterator[str]:
        """Seams whose sides are not equally long but for their ease.

        As cut, and after the wash too where they have none; one that is compared `washed`, only after it.
        """
        across, down = self._scale
        for seam, (one, other) in zip(self.draft.seams, self.sides, strict=True):
            for finished in (True,) if seam.washed else (False, True) if abs(seam.ease) <= 0.5 else (False,):
                long = [sum(self._long(run, across, down) if finished else run.length for run in side)
                        for side in (one, other)]  # fmt: skip
                ease = seam.ease / halves(seam)
                off = abs(long[0] - long[1] - (ease if seam.washed or not finished else 0.0))
                if off > 0.5:
                    yield f"{_named(one)} and {_named(other)} are {off:.2f} mm apart"

    def _long(self, run: Laid, across: float, down: float) -> float:
        points = [p.scaled(across, down) for p in self.edge(run.piece, run.edge).stitch.flatten(0.002)]
        return sum(a.distance(b) for a, b in pairwise(points))

    def notches(self, side: tuple[Laid, ...], *, washed: bool) -> list[tuple[str, float]]:
        """Every notch of a side and how far it lies from the side's beginning, mm; on every copy of its edge."""
        found, begin = list[tuple[str, float]](), 0.0
        for run in side:
            for notch in self.pieces[run.piece].notches:
                if notch.seam == run.edge:
                    at, long = notch.at, run.length
                    if washed:
                        stitch = self.edge(run.piece, run.edge).stitch.scaled(*self._scale, Point(0.0, 0.0))
                        at, long = stitch.nearest(notch.inner.scaled(*self._scale))[0], stitch.length()
                    found.append((notch.id, begin + (at if run.forward else long - at)))
            begin += self._long(run, *self._scale) if washed else run.length
        return found

    def ends(self, side: tuple[Laid, ...], *, washed: bool) -> list[float]:
        """Where each edge of a side ends, from its beginning, mm; the last is the side's length."""
        long = [self._long(run, *self._scale) if washed else run.length for run in side]
        return [sum(long[: number + 1]) for number in range(len(long))]

    def notches_apart(self) -> Iterator[str]:
        """Notches that meet nothing: neither a notch nor the end of an edge, at the same share of the other side.

        The second of a double notch need not: it tells one side from the other.
        """
        for seam, (one, other) in zip(self.draft.seams, self.sides, strict=True):
            for here, there in ((one, other), (other, one)):
                long = self.ends(here, washed=seam.washed)[-1]
                places = [0.0, *self.ends(there, washed=seam.washed)]  # a fold may be snipped at its end
                theirs = places[-1]
                places += [at for _, at in self.notches(there, washed=seam.washed)]
                places = [at / theirs for at in places]
                away_of = [
                    (name, at, min((abs(at / long - place) * long for place in places), default=math.inf))
                    for name, at in self.notches(here, washed=seam.washed)
                ]
                meeting = [at for _, at, away in away_of if away <= 0.5]
                for name, at, away in away_of:
                    if away > 0.5 and not any(abs(at - first) <= DOUBLE for first in meeting):
                        yield f"the notch {name} on {_named(here)} meets nothing on {_named(there)}: {away:.1f} mm"

    def joins(self) -> Iterator[tuple[str, float, frozenset[str]]]:
        """At both ends of each seam, the two edges it ends in: where, the angle together, and the pieces.

        Left out where those two are sewn to each other, since nothing runs on over the seam there, and where one of
        them comes to a point on purpose.
        """
        for one, other in self.sides:
            for last in (False, True):
                a, b = (side[-1] if last else side[0] for side in (one, other))
                ends = [(run, run.forward == last) for run in (a, b)]
                beyond = [self.beyond(run.piece, run.edge, end=end) for run, end in ends]
                pair = frozenset((run.piece, name) for (run, _), name in zip(ends, beyond, strict=True) if name)
                if None not in beyond and pair in self.pairs and len(pair) == 2:
                    continue
                named = zip(ends, beyond, strict=True)
                if any(self.pointed(run.piece, name, end=not end) for (run, end), name in named):
                    continue
                if any(self.pointed(run.piece, run.edge, end=end) for run, end in ends):
                    continue
                total = sum(self.angle(run.piece, run.edge, end=end) for run, end in ends)
                where = f"the {'end' if last else 'beginning'} of {_named(one)}"
                yield where, total, frozenset((a.piece, b.piece))

    def open_ends(self) -> Iterator[tuple[str, float]]:
        """Each end of a free edge that runs on over seams or a fold, and the angle there all together, degrees.

        Raises AssertionError where it runs on into nothing. A corner of one piece alone is left out, since it may be
        any, and so is an end that comes to a point on purpose.
        """
        for piece, edge in self.free_edges:
            for end in (False, True):
                beyond = self.beyond(piece, edge, end=end)
                if beyond is None or (piece, beyond) in self.sewn_edges:
                    total, to = self._over(piece, edge, end=end)
                    where = f"the {'end' if end else 'beginning'} of the {edge} of the {piece}"
                    if to is not None:
                        back = self._over(*to[:2], end=to[2])[1]
                        assert back == (piece, edge, end), f"{where} runs on into {to}, which runs on into {back}"
                    pointed = self.pointed(piece, edge, end=end) or (to and self.pointed(*to[:2], end=to[2]))
                    if not pointed:
                        yield where, total

    @cached_property
    def free_edges(self) -> tuple[tuple[str, str], ...]:
        every = ((piece.name, edge.name) for piece in self.pieces.values() for edge in piece.edges)
        return tuple(
            (name, edge) for name, edge in every
            if (name, edge) not in self.sewn_edges | self.let_in_edges
            and not self.folded_over(self.pieces[name], self.edge(name, edge))
        )  # fmt: skip

    def openings(self) -> list[set[tuple[str, str]]]:
        """The free edges that run on into each other: neck, hem, sleeve ends."""
        groups = [{edge} for edge in self.free_edges]
        for piece, edge in self.free_edges:
            for end in (False, True):
                _, to = self._over(piece, edge, end=end)
                if to is not None:
                    one, other = (next(g for g in groups if e in g) for e in ((piece, edge), to[:2]))
                    if one is not other:
                        groups.remove(other)
                        one |= other
        return groups

    def _over(self, piece: str, edge: str, *, end: bool) -> tuple[float, tuple[str, str, bool] | None]:
        """From the end of a free edge over all that is sewn there to the free edge that follows; None for itself.

        With it goes the angle together; over a fold both halves count.
        """
        total = self.angle(piece, edge, end=end)
        for _ in range(60):
            beyond = self.beyond(piece, edge, end=end)
            if beyond is None:
                return 2 * total, None
            if (piece, beyond) not in self.sewn_edges:
                return total, (piece, beyond, not end)
            piece, edge, end, straight = self._across(piece, beyond, end=not end)
            total += straight + self.angle(piece, edge, end=end)
        raise AssertionError(f"the free edges at the {edge} of the {piece} never meet")

    def _across(self, piece: str, edge: str, *, end: bool) -> tuple[str, str, bool, float]:
        """Over a seam at one end of an edge: the edge on the other side and its end there, and what lies between.

        Where the other side runs on past the place, that is 180°, and it goes back to the next edge of this side.
        """
        for both in self.sides:
            for here, there in (both, both[::-1]):
                for index, run in enumerate(here):
                    if (run.piece, run.edge) == (piece, edge):
                        return self._cross(here, there, index, last=run.forward == end)
        raise AssertionError(f"the {edge} of the {piece} is not sewn")

    @staticmethod
    def _cross(
        here: tuple[Laid, ...], there: tuple[Laid, ...], index: int, *, last: bool
    ) -> tuple[str, str, bool, float]:
        run = here[index]
        at = (run.at + (run.length if last else 0.0)) * _end(there) / _end(here)
        for other in there:
            if abs((other.at + other.length if last else other.at) - at) <= NEAR:
                return other.piece, other.edge, other.forward == last, 0.0
        onward = index + (1 if last else -1)
        assert 0 <= onward < len(here), f"{_named(here)} ends beside every corner of {_named(there)}"
        following = here[onward]
        return following.piece, following.edge, following.forward != last, 180.0


def halves(seam: Seam) -> int:
    """How often a seam follows itself: twice where each of its edges stands in it as two halves of a fold."""
    return math.gcd(*(run.times for side in seam.sides for run in side))


def _end(side: tuple[Laid, ...]) -> float:
    return side[-1].at + side[-1].length


def _named(side: tuple[Laid, ...]) -> str:
    return " and ".join(f"{run.piece} {run.edge}" for run in side)
