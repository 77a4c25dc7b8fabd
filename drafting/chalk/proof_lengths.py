"""Which few lengths between chalked marks show that a mark has slipped.

A length shows a slip by about its size times the cosine of the angle between them, so a length along an axis is blind
to half the slips; each is computed with the mark at its slipped place, not from that rule.
"""

import math
from collections.abc import Mapping, Sequence
from itertools import combinations

from drafting.chalk.marks import Mark, Proof
from drafting.geometry.point import Point
from drafting.geometry.solve import seeking_most_whole
from drafting.stepwise import Steps, finished
from drafting.units import INCH, Tape

#: How many proof lengths a piece gets. Our choice: three show only two thirds of the slips, five show all (CALC).
PROOFS = 5
#: The slip looked for: one whole inch misread either way (our choice, because readings slip by whole units).
SLIP = INCH
#: Least change of a proof length, mm, that a person sees beside half a step of the tape at each end (our choice).
SHOWN = 8.0
#: Least angle between a proof length and either axis: sin 18° of an inch is just under SHOWN (CALC).
SLANT = math.sin(math.radians(18.0))
#: Shorter lengths change unevenly with a slip and are dull proofs (our choice).
_LEAST_LENGTH = 100.0
#: The straight of an arc that is swung is measured from this length on, mm (our choice).
_LEAST_CHORD = 30.0
#: The least shown change is sought from here downward to SHOWN: an inch at 45° gives 17.96 mm (CALC).
_STRONG = 17
#: Two lengths of which both ends lie nearer to each other than this are nearly one, mm (our choice).
_APART = 80.0
#: Two readings nearer to each other than this are taken for one another, mm (our choice).
_TOLD_APART = 10.0
#: At most so many branches are tried for one threshold; only odd pieces come near it (our choice, to stay quick).
_BRANCHES = 3000

#: No slip, but the wish that some length ends at a mark; any length from there grants it.
_ENDS_HERE = (0.0, 0.0)
#: More than any slip changes any length, mm.
_GRANTED = 1000.0

_Pair = tuple[int, int]
_Slip = tuple[int, float, float]
_Score = tuple[float, float, float, float]


def shows(marks: Sequence[Mark], proofs: Sequence[Proof], mark: str, dx: float, dy: float) -> float:
    """Largest change in mm that any of the proof lengths shows when `mark` is chalked dx across and dy down off."""
    return _shows({m.id: m.chalked for m in marks}, proofs, mark, dx, dy)


def _shows(places: Mapping[str, Point], proofs: Sequence[Proof], mark: str, dx: float, dy: float) -> float:
    """As `shows`, given where each mark is chalked."""
    slipped = dict(places)
    slipped[mark] = Point(places[mark].x + dx, places[mark].y + dy)
    return max(
        (
            abs(slipped[p.start].distance(slipped[p.end]) - places[p.start].distance(places[p.end]))
            for p in proofs
            if mark in (p.start, p.end)
        ),
        default=0.0,
    )


def unproven(marks: Sequence[Mark], proofs: Sequence[Proof]) -> tuple[Mark, ...]:
    """Corners and levels of which some slip of SLIP changes no proof length by SHOWN: they want measuring twice."""
    ways = ((-SLIP, 0.0), (SLIP, 0.0), (0.0, -SLIP), (0.0, SLIP))
    places = {mark.id: mark.chalked for mark in marks}
    return tuple(
        mark
        for mark in marks
        if mark.kind in ("corner", "level") and min(_shows(places, proofs, mark.id, *way) for way in ways) < SHOWN
    )


def choose(marks: Sequence[Mark], tape: Tape, also: Sequence[str] = ()) -> tuple[Proof, ...]:
    """The proof lengths that `choosing` chooses, without a pause."""
    return finished(choosing(marks, tape, also))


def choosing(marks: Sequence[Mark], tape: Tape, also: Sequence[str] = ()) -> Steps[tuple[Proof, ...]]:
    """The proof lengths of a piece, at most PROOFS, in outline order; `marks` go once round.

    The straight of every arc that is swung is one of them, since nothing else proves an arc; it alone may lie near an
    axis.
    Ends are any marks but curve points (those show as a kink to the eye), and those that `also` names, each of which
    ends a length. Sought, in this order: that a slip of SLIP either way, across or down, of every corner and level
    changes one of them by SHOWN or more; the same of every guide, and of the hem's place on the fold; that the least
    change is large; that the lengths are short. None lies within 18° of an axis, is longer than the tape, or is nearly
    the same as another; a corner that is not proven within these bounds is named by `unproven`. They come a step at a
    time.
    """
    ends = [mark for mark in marks if mark.kind != "curve" or mark.id in also]
    search = _Search(ends, tape.reach, also)
    yield None
    found = yield from search.best()
    return tuple(Proof(first.id, second.id, length, tape.reading(length)) for first, second, length in found)


class _Search:
    """Candidate lengths, and by how much each shows each slip."""

    def __init__(self, marks: Sequence[Mark], reach: float, also: Sequence[str] = ()) -> None:
        self.marks = marks
        self.chords = [
            (index - 1, index)
            for index, mark in enumerate(marks)
            if mark.swung is not None and _LEAST_CHORD <= marks[index - 1].chalked.distance(mark.chalked) <= reach
        ]
        self.places = [(mark.chalked.x, mark.chalked.y) for mark in marks]
        every = [
            pair
            for pair in combinations(range(len(marks)), 2)
            if pair in self.chords or (_LEAST_LENGTH <= self._length(pair) <= reach and self._slants(pair))
        ]
        self.length = {pair: self._length(pair) for pair in every}
        self.slips: list[_Slip] = []
        self.first = self.second = 0
        for index, mark in enumerate(marks):
            if mark.kind == "fold":
                if index > 0:
                    self._want(index, ((0.0, -SLIP), (0.0, SLIP)), needed=False)
            elif mark.kind != "curve":
                ways = ((-SLIP, 0.0), (SLIP, 0.0), (0.0, -SLIP), (0.0, SLIP))
                self._want(index, ways, needed=mark.kind != "guide")
            if mark.id in also:
                self._want(index, (_ENDS_HERE,), needed=True)
        self.change = {
            pair: {k: self._change(pair, slip) for k, slip in enumerate(self.slips) if slip[0] in pair}
            for pair in every
        }
        self.pairs = every
        self.branches = 0

    def best(self) -> Steps[list[tuple[Mark, Mark, float]]]:
        """The chosen lengths with their two marks."""
        chosen = self.chords[:PROOFS] or (yield from self._covering())
        while len(chosen) < min(PROOFS, len(self.pairs)):
            more = [pair for pair in self.pairs if self._told_apart(pair, chosen)]
            if not more:
                break
            chosen.append(max(more, key=lambda p: self._score([*chosen, p])))
            yield None
        yield from self._swap(chosen)
        return [(self.marks[i], self.marks[j], self.length[i, j]) for i, j in sorted(chosen)]

    def _want(self, index: int, ways: tuple[tuple[float, float], ...], *, needed: bool) -> None:
        for dx, dy in ways:
            bit = 1 << len(self.slips)
            self.slips.append((index, dx, dy))
            if needed:
                self.first |= bit
            else:
                self.second |= bit

    def _length(self, pair: _Pair, slip: _Slip | None = None) -> float:
        (ax, ay), (bx, by) = self.places[pair[0]], self.places[pair[1]]
        dx, dy = bx - ax, by - ay
        if slip is not None:
            sign = 1.0 if slip[0] == pair[1] else -1.0
            dx, dy = dx + sign * slip[1], dy + sign * slip[2]
        return math.sqrt(dx * dx + dy * dy)

    def _told_apart(self, pair: _Pair, others: Sequence[_Pair]) -> bool:
        """Whether nobody takes this length for one of the others: neither its line nor its reading."""
        return not any(
            abs(self.length[pair] - self.length[other]) < _TOLD_APART
            or any(
                math.dist(self.places[pair[0]], self.places[a]) < _APART
                and math.dist(self.places[pair[1]], self.places[b]) < _APART
                for a, b in (other, other[::-1])
            )
            for other in others
        )

    def _slants(self, pair: _Pair) -> bool:
        (ax, ay), (bx, by) = self.places[pair[0]], self.places[pair[1]]
        return min(abs(bx - ax), abs(by - ay)) >= SLANT * self._length(pair)

    def _change(self, pair: _Pair, slip: _Slip) -> float:
        if slip[1:] == _ENDS_HERE:
            return _GRANTED
        return abs(self._length(pair, slip) - self.length[pair])

    def _mask(self, pair: _Pair, least: float) -> int:
        return sum(1 << k for k, change in self.change[pair].items() if change >= least)

    def _covering(self) -> Steps[list[_Pair]]:
        """The cheapest lengths that show every wanted slip by as much as possible, some wishes dropped if need be."""
        for wanted in self._wishes():
            found = self._cover(wanted, SHOWN)
            yield None
            if found is None:
                continue
            covers = {int(SHOWN): found}

            def covered(shown: int, wanted: int = wanted, covers: dict[int, list[_Pair]] = covers) -> bool:
                tried = self._cover(wanted, float(shown))
                if tried is not None:
                    covers[shown] = tried
                return tried is not None

            return covers[(yield from seeking_most_whole(covered, int(SHOWN), _STRONG))]
        return []

    def _wishes(self) -> list[int]:
        """Sets of slips to show, best first: all of them, then with guides and the hem's place on the fold left out.

        A guide whose slip shows to the eye is left out first.
        """
        marks = sorted({self.slips[k][0] for k in range(len(self.slips)) if self.second >> k & 1})
        weigh = {k: 2 if self.marks[k].kind == "guide" and not self.marks[k].seen else 1 for k in marks}
        drops = [drop for size in range(len(marks) + 1) for drop in combinations(marks, size)]
        drops.sort(key=lambda drop: (sum(weigh[k] for k in drop), len(drop), drop))
        possible = 0  # a corner that no length within the bounds proves is not waited for
        for pair in self.pairs:
            possible |= self._mask(pair, SHOWN)
        return [
            self.first & possible
            | sum(1 << k for k, slip in enumerate(self.slips) if self.second >> k & 1 and slip[0] not in drop)
            for drop in drops
        ]

    def _cover(self, wanted: int, least: float) -> list[_Pair] | None:
        masks = {pair: self._mask(pair, least) & wanted for pair in self.pairs}
        order = sorted((p for p in self.pairs if masks[p]), key=lambda p: (round(self.length[p], 6), p))
        reach = max((mask.bit_count() for mask in masks.values()), default=0)
        serving: dict[int, list[_Pair]] = {
            k: [p for p in order if masks[p] >> k & 1] for k in range(len(self.slips)) if wanted >> k & 1
        }
        rare = sorted(serving, key=lambda k: (len(serving[k]), k))
        best: list[list[_Pair]] = [[]]
        best_cost = math.inf
        self.branches = 0

        def branch(chosen: list[_Pair], left: int, cost: float) -> None:
            nonlocal best_cost
            if not left:
                if cost < best_cost - 1e-6:
                    best[0], best_cost = chosen, cost
                return
            self.branches += 1
            room = PROOFS - len(chosen)
            if left.bit_count() > room * reach or self.branches > _BRANCHES:
                return
            slip = next(k for k in rare if left >> k & 1)
            for pair in serving[slip]:
                if cost + self.length[pair] < best_cost - 1e-6 and self._told_apart(pair, chosen):
                    branch([*chosen, pair], left & ~masks[pair], cost + self.length[pair])

        branch([], wanted, 0.0)
        return best[0] or None

    def _score(self, chosen: Sequence[_Pair]) -> _Score:
        most: dict[int, float] = {}
        for pair in chosen:
            for k, change in self.change[pair].items():
                most[k] = max(most.get(k, 0.0), change)
        seen = sum(1 << k for k, change in most.items() if change >= SHOWN)
        wanted = (self.first | self.second) & seen
        least = min((most[k] for k in range(len(self.slips)) if wanted >> k & 1), default=0.0)
        return (
            float((self.first & seen).bit_count()),
            float((self.second & seen).bit_count()),
            float(math.floor(least + 1e-6)),
            -round(sum(self.length[pair] for pair in chosen), 3),
        )

    def _swap(self, chosen: list[_Pair]) -> Steps[None]:
        """Exchange one length at a time as long as that makes the whole better."""
        score = self._score(chosen)
        better = True
        while better:
            better = False
            for place in range(len(chosen)):
                if chosen[place] in self.chords:
                    continue
                yield None
                for pair in self.pairs:
                    others = [*chosen[:place], *chosen[place + 1 :]]
                    if not self._told_apart(pair, others):
                        continue
                    tried = [*chosen[:place], pair, *chosen[place + 1 :]]
                    reached = self._score(tried)
                    if reached > score:
                        chosen[place], score, better = pair, reached, True
