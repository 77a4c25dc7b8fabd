"""The chalk plan: what to mark on the folded cloth, in what order, and which reading of the tape.

`plan` takes the pieces of a draft and gives the marks of each, its proof lengths and the steps of the work in words.
Marks are the piece's anchors and, between them, as few curve points as keep straight joins within 3 mm of the line.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import count, pairwise

from drafting.chalk.curve_points import Run, choosing
from drafting.chalk.look import look_of
from drafting.chalk.lying import lyings
from drafting.chalk.marks import ChalkLine, ChalkPlan, GuideMarks, Joins, Mark, MarkKind, PieceMarks, Proof, Step, Swung
from drafting.chalk.proof_lengths import choosing as choosing_proofs
from drafting.chalk.swung import line_of, swung_between
from drafting.chalk.words import MENDING, steps_of, telling
from drafting.checks import ChalkedArea
from drafting.cloth import WASH_FIRST_WORDS
from drafting.contract.pieces import Anchor, Edge, Guide, Part, Piece
from drafting.geometry.point import Point
from drafting.geometry.polyline import (
    area,
    distance_to_line,
    distance_to_polyline,
    lengths_along,
    nearest_on,
    point_along,
)
from drafting.geometry.segments import Line
from drafting.layout import Layout
from drafting.stepwise import Steps, finished
from drafting.units import Tape

__all__ = [
    "ChalkLine",
    "ChalkPlan",
    "Mark",
    "PieceMarks",
    "Proof",
    "Step",
    "areas",
    "marked",
    "marking",
    "marks_on",
    "plan",
    "planning",
    "told_on",
]

#: A join that strays less than this is called straight, mm: the breadth of a chalk line (our choice).
STRAIGHT_WITHIN = 1.0
#: The chalked outline keeps the area of the true one within this share, by marks closer together where the tape's
#: steps ask for it, down to joins of so many mm. Our choice: below what is promised for a draft (1 %).
AREA_WITHIN = 0.009
CLOSEST_JOIN = 1.0
#: Outlines that differ by less than this are chalked alike, mm: half a chalk line (our choice).
SAME_WITHIN = 0.5


@dataclass(frozen=True, slots=True)
class _Place:
    """A mark before it has a number: where on the line it lies and in which stage it is chalked."""

    id: str
    label: str
    kind: MarkKind
    at: float
    point: Point
    stage: str
    late: bool
    seen: bool = False


def marked(
    pieces: Sequence[Piece], tape: Tape, *, join_within: float = 3.0, line: ChalkLine = "cut"
) -> tuple[PieceMarks, ...]:
    """The marks alone of every piece, without proof lengths, as `plan` takes them."""
    return finished(marking(pieces, tape, join_within=join_within, line=line))


def marking(
    pieces: Sequence[Piece], tape: Tape, *, join_within: float = 3.0, line: ChalkLine = "cut"
) -> Steps[tuple[PieceMarks, ...]]:
    """As `marked`, a step at a time, several for each piece."""
    if not join_within > 0.0:
        raise ValueError("join_within must be more than 0 mm")
    found: list[PieceMarks] = []
    withins: list[float] = []
    for index, piece in enumerate(pieces):
        twin = next((p for p in range(index) if _same_outline(pieces[p], piece)), None)
        if twin is None:
            marks, within = yield from _near_enough(piece, tape, join_within, line)
            own = PieceMarks(piece.name, marks, (), piece.stages, fine=piece.fine)
        else:
            first, within = found[twin].same_as or pieces[twin].name, withins[twin]
            own = replace(found[twin], piece=piece.name, stages=piece.stages, same_as=first)
        guides = yield from _guides(piece, own.marks, tape, within, line)
        found.append(replace(own, guides=guides))
        withins.append(within)
    return tuple(found)


def areas(pieces: Sequence[Piece], marks: Sequence[PieceMarks], line: ChalkLine) -> tuple[ChalkedArea, ...]:
    """The area inside the line of each piece as it is drafted, and inside its chalked marks joined straight, mm²."""
    return tuple(
        ChalkedArea(piece.label, area(_line_of(piece, line)), area([place.chalked for place in line_of(own.marks)]))
        for piece, own in zip(pieces, marks, strict=True)
    )


def plan(
    pieces: tuple[Piece, ...], tape: Tape, *, join_within: float = 3.0, line: ChalkLine = "cut",
    layout: Layout | None = None, washing: str = WASH_FIRST_WORDS, heed: Sequence[str] = (), care: Sequence[str] = (),
    marks: Sequence[PieceMarks] | None = None,
) -> ChalkPlan:  # fmt: skip
    """The chalk plan of the pieces for a tape.

    `join_within` is how far in mm straight joins of the exact marks may stray from the line; `line` chooses the
    cutting or the stitching line (readings count from the same origin). Raises ValueError for a tolerance that is
    not positive or a piece without two anchors. No reading is a running total. `layout` says how the pieces lie on the
    cloth, so that the steps tell where each begins and what lies on which fold. `washing`, `heed` and `care` are said
    before the work: whether the cloth is washed, the warnings with their ways out, the cautions. `marks` are those that
    `marked` gave for the same, where they are known already.
    """
    return finished(
        planning(
            pieces, tape, join_within=join_within, line=line, layout=layout, washing=washing, heed=heed, care=care,
            marks=marks,
        )
    )  # fmt: skip


def planning(
    pieces: tuple[Piece, ...], tape: Tape, *, join_within: float = 3.0, line: ChalkLine = "cut",
    layout: Layout | None = None, washing: str = WASH_FIRST_WORDS, heed: Sequence[str] = (), care: Sequence[str] = (),
    marks: Sequence[PieceMarks] | None = None,
) -> Steps[ChalkPlan]:  # fmt: skip
    """As `plan`, a step at a time: the proof lengths of each piece, and the words."""
    known = marks
    if known is None:
        known = yield from marking(pieces, tape, join_within=join_within, line=line)
    proven: list[PieceMarks] = []
    for piece, own in zip(pieces, known, strict=True):
        if own.same_as:
            proofs = next(one.proofs for one in proven if one.piece == own.same_as)
        else:
            proven_at = _proven(piece, own.marks, line)
            proofs = yield from choosing_proofs(own.marks, _read_with(tape, fine=piece.fine), proven_at)
        proven.append(replace(own, proofs=proofs))
        yield None
    if layout is not None:
        proven = [_off_the_fold(own) if own.piece in layout.laid_whole else own for own in proven]
    bases = [lies.base for lies in lyings(pieces, layout, tape)]
    proven = [
        own if own.same_as else replace(own, look=look_of(own.marks, base))
        for own, base in zip(proven, bases, strict=True)
    ]
    yield None
    steps = yield from telling(pieces, tuple(proven), tape, line, layout, washing=washing, heed=heed, care=care)
    return ChalkPlan(tape, line, tuple(proven), steps, MENDING)


def _read_with(tape: Tape, *, fine: bool) -> Tape:
    """The tape as a piece is read with it."""
    return tape.finest if fine else tape


def marks_on(known: ChalkPlan, tape: Tape) -> tuple[PieceMarks, ...]:
    """The marks of a plan as another tape reads them: each lies where it lay, and each proof length has its ends.

    A proof length runs between the marks as that tape puts them.
    """

    def read(marks: Sequence[Mark], tape: Tape) -> tuple[Mark, ...]:
        return tuple(
            replace(
                mark,
                across=tape.reading(mark.point.x),
                down=tape.reading(mark.point.y),
                swung=None
                if mark.swung is None
                else replace(mark.swung, reads=tape.reading(mark.swung.radius), held=tape.reading(mark.swung.centre.y)),
            )
            for mark in marks
        )

    found: list[PieceMarks] = []
    for own in known.pieces:
        with_tape = _read_with(tape, fine=own.fine)
        marks = read(own.marks, with_tape)
        at = {mark.id: mark.chalked for mark in marks}
        lengths = [(proof.start, proof.end, at[proof.start].distance(at[proof.end])) for proof in own.proofs]
        proofs = tuple(Proof(start, end, length, with_tape.reading(length)) for start, end, length in lengths)
        guides = tuple(replace(guide, marks=read(guide.marks, with_tape)) for guide in own.guides)
        found.append(replace(own, marks=marks, proofs=proofs, guides=guides))
    return tuple(found)


def told_on(
    marks: tuple[PieceMarks, ...], pieces: tuple[Piece, ...], tape: Tape, *, line: ChalkLine, layout: Layout | None,
    washing: str, heed: Sequence[str], care: Sequence[str],
) -> ChalkPlan:  # fmt: skip
    """The plan of marks that `marks_on` gave, in the words of `plan` for the same arguments."""
    bases = [lies.base for lies in lyings(pieces, layout, tape)]
    looked = tuple(
        own if own.look is None else replace(own, look=look_of(own.marks, base))
        for own, base in zip(marks, bases, strict=True)
    )
    steps = steps_of(pieces, looked, tape, line, layout, washing=washing, heed=heed, care=care)
    return ChalkPlan(tape, line, looked, steps, MENDING)


def _proven(piece: Piece, marks: Sequence[Mark], line: ChalkLine) -> tuple[str, ...]:
    """The marks nearest to the notches that are always proven: a proof length ends at each."""
    found: dict[str, None] = {}
    for notch in piece.notches:
        if notch.proven:
            at = notch.outer if line == "cut" else notch.inner
            found[min((m for m in marks if m.kind != "fold"), key=lambda m: m.point.distance(at)).id] = None
    return tuple(found)


def _off_the_fold(marks: PieceMarks) -> PieceMarks:
    """The marks of a piece laid whole: what lies at its centre is not at a fold."""
    guides = (replace(guide, marks=_named_off_the_fold(guide.marks)) for guide in marks.guides)
    return replace(marks, marks=_named_off_the_fold(marks.marks), guides=tuple(guides))


def _named_off_the_fold(marks: Sequence[Mark]) -> tuple[Mark, ...]:
    return tuple(replace(mark, label=mark.label.replace("at the fold", "at centre")) for mark in marks)


def _near_enough(
    piece: Piece, tape: Tape, join_within: float, line: ChalkLine
) -> Steps[tuple[tuple[Mark, ...], float]]:
    """The marks and the tolerance of their joins, closer together where a coarse tape would chalk another size."""
    tolerance = join_within
    true = area(_line_of(piece, line))
    while True:
        marks = yield from marks_of(piece, tape, tolerance, line)
        off = abs(area([place.chalked for place in line_of(marks)]) / true - 1)
        if off <= AREA_WITHIN or tolerance <= CLOSEST_JOIN:
            return marks, tolerance
        tolerance *= 0.8


def _line_of(piece: Piece, line: ChalkLine) -> tuple[Point, ...]:
    return piece.cut_line if line == "cut" else piece.stitch_line


def marks_of(piece: Piece, tape: Tape, join_within: float, line: ChalkLine) -> Steps[tuple[Mark, ...]]:
    """The marks of the outline, once round the line from the top of the fold, numbered in the order of chalking.

    The marks of the piece's guides have numbers of their own between them, in their stage after those of the outline.
    """
    tape = _read_with(tape, fine=piece.fine)
    points = _line_of(piece, line)
    anchors = _anchors(piece, points, line)
    if len(anchors) < 2:
        raise ValueError(f"the piece {piece.name} has fewer than two anchors")
    bent = _closes_bent(piece)
    run = Run.of((*points, points[0]) if bent else points)
    begins = {part.begins: part for part in piece.parts}
    part: Part | None = None
    places: list[_Place] = []
    loose: list[tuple[Part, float, Point]] = []
    swung: dict[str, Swung] = {}
    for index, anchor in enumerate(anchors):
        swing = swung_between(piece, run, anchors[index - 1].at, anchor.at, tape, line) if index > 0 else None
        if swing is not None:
            swung[anchor.id] = swing
        elif index > 0:
            gap = run.part(anchors[index - 1].at, anchor.at)
            for away in (yield from choosing(gap, join_within)):
                if part is None:
                    raise ValueError(f"the piece {piece.name} names no part of its outline before {anchor.id}")
                loose.append((part, anchors[index - 1].at + away, gap.at(away)))
            yield None
        part = begins.get(anchor.id, part)
        places.append(
            _Place(
                anchor.id, anchor.label, anchor.kind, anchor.at, anchor.point, anchor.stage, late=False,
                seen=anchor.seen,
            )
        )  # fmt: skip
    if bent:
        gap = run.part(anchors[-1].at, run.length)
        for away in (yield from choosing(gap, join_within)):
            if part is None:
                raise ValueError(f"the piece {piece.name} names no part of its outline at its end")
            loose.append((part, anchors[-1].at + away, gap.at(away)))
        yield None
    places.extend(_curve_places(loose, {place.id for place in places}))
    places.sort(key=lambda place: (place.at, place.kind == "curve"))
    stages = [stage.key for stage in piece.stages]
    guided = [place for _, places in (yield from _guide_places(piece, join_within, line)) for place in places]
    numbers = _numbers([*places, *guided], stages)
    marks: list[Mark] = []
    for index, place in enumerate(places):
        joins: Joins = "straight"
        if index > 0 and run.strays(places[index - 1].at, place.at) >= STRAIGHT_WITHIN:
            joins = "curve"
        if index == 0 and bent and run.strays(places[-1].at, run.length) >= STRAIGHT_WITHIN:
            joins = "curve"
        if place.id in swung:
            joins = "swing"
        across, down = tape.reading(place.point.x), tape.reading(place.point.y)
        number = numbers[index]
        marks.append(
            Mark(
                place.id, place.label, place.kind, place.point, across, down, number, joins, place.stage, place.seen,
                swung.get(place.id),
            )
        )  # fmt: skip
    return tuple(marks)


def _guides(
    piece: Piece, marks: Sequence[Mark], tape: Tape, join_within: float, line: ChalkLine
) -> Steps[tuple[GuideMarks, ...]]:
    """The marks of the guides, with the numbers that those of the outline have left free for them."""
    tape = _read_with(tape, fine=piece.fine)
    taken = {mark.order for mark in marks}
    free = (number for number in count(1) if number not in taken)
    found: list[GuideMarks] = []
    for guide, places in (yield from _guide_places(piece, join_within, line)):
        run = Run.of(guide.line)
        made: list[Mark] = []
        for index, place in enumerate(places):
            bends = index > 0 and run.strays(places[index - 1].at, place.at) >= STRAIGHT_WITHIN
            across, down = tape.reading(place.point.x), tape.reading(place.point.y)
            joins: Joins = "curve" if bends else "straight"
            made.append(
                Mark(place.id, place.label, place.kind, place.point, across, down, next(free), joins, place.stage)
            )
        found.append(GuideMarks(guide.id, guide.label, guide.says, tuple(made)))
    every = [*marks, *(mark for guided in found for mark in guided.marks)]
    numbers = {mark.id: f"({mark.order})" for mark in every}
    return tuple(replace(guided, says=guided.says.format_map(numbers)) for guided in found)


def _guide_places(piece: Piece, join_within: float, line: ChalkLine) -> Steps[list[tuple[Guide, list[_Place]]]]:
    """Each guide, in the order of the stages, with its marks and the curve points between them along it."""
    stages = [stage.key for stage in piece.stages]
    found: list[tuple[Guide, list[_Place]]] = []
    for guide in sorted(piece.guides, key=lambda one: stages.index(one.stage)):
        points = [mark.outer if line == "cut" else mark.inner for mark in guide.marks]
        along = lengths_along(guide.line)
        ats = [nearest_on(guide.line, along, point)[0] for point in points]
        places: list[_Place] = []
        for index, (mark, at, point) in enumerate(zip(guide.marks, ats, points, strict=True)):
            if index > 0:
                gap = Run.of(guide.line).part(ats[index - 1], at)
                for number, away in enumerate((yield from choosing(gap, join_within)), start=1):
                    name = f"{guide.id}_{guide.marks[index - 1].id}_{number}"
                    on = ats[index - 1] + away
                    places.append(_Place(name, guide.label, "curve", on, gap.at(away), guide.stage, late=True))
            places.append(_Place(mark.id, mark.label, mark.kind, at, point, guide.stage, late=True))
        found.append((guide, places))
    return found


def _numbers(places: Sequence[_Place], stages: Sequence[str]) -> list[int]:
    """Numbers from 1 in the order of chalking; within a stage once round the outline."""
    order = sorted(range(len(places)), key=lambda k: (stages.index(places[k].stage), places[k].late, k))
    numbers = [0] * len(places)
    for number, index in enumerate(order, start=1):
        numbers[index] = number
    return numbers


def _curve_places(loose: Sequence[tuple[Part, float, Point]], taken: set[str]) -> list[_Place]:
    """Curve points named by the part they lie on, counted along the part where it has more than one."""
    many = Counter(part.id for part, _, _ in loose)
    seen: Counter[str] = Counter()
    places: list[_Place] = []
    for part, at, point in loose:
        seen[part.id] += 1
        name, words = part.id, part.words
        if many[part.id] > 1:
            name, words = f"{name}_{seen[part.id]}", f"{words} {seen[part.id]}"
        elif part.one:
            name, words = f"{name}_{part.one}", f"{part.one} of the {words}"
        while name in taken:
            name += "_point"
        taken.add(name)
        places.append(_Place(name, words, "curve", at, point, part.stage, part.late))
    return places


def _anchors(piece: Piece, points: Sequence[Point], line: ChalkLine) -> list[Anchor]:
    """The anchors on the chosen line, once round: those of the cut line, or their places on the stitch line."""
    if line == "cut":
        return sorted(piece.anchors, key=lambda anchor: anchor.at)
    along = lengths_along(points)
    starts = [0.0]
    for edge in piece.edges:
        starts.append(starts[-1] + lengths_along(edge.stitch.flatten(0.05))[-1])
    moved: list[Anchor] = []
    ordered = sorted(piece.anchors, key=lambda anchor: anchor.at)
    for index, anchor in enumerate(ordered):
        if index == 0 or (index == len(ordered) - 1 and not _closes_bent(piece)):
            at = 0.0 if index == 0 else along[-1]
        elif anchor.kind == "corner" and (joint := _joint(piece.edges, anchor.point)) is not None:
            at = starts[joint]
        else:
            at = _abreast_of_edge(
                piece.edges, starts, anchor, level=any(level.key == anchor.id for level in piece.levels)
            )
        at = max(at, moved[-1].at if moved else 0.0)
        moved.append(replace(anchor, at=at, point=point_along(points, along, at)))
    return moved


def _closes_bent(piece: Piece) -> bool:
    """Whether a piece without a fold runs back to its beginning in another line than a straight one."""
    last = piece.edges[-1].stitch.segments
    return not piece.on_fold and not (len(last) == 1 and isinstance(last[0], Line))


def _joint(edges: Sequence[Edge], corner: Point) -> int | None:
    """The number of the edge that begins where the cut lines of it and the one before meet at `corner`, if any."""
    near = min(range(1, len(edges)), key=lambda k: edges[k].cut[0].distance(corner), default=None)
    return near if near is not None and edges[near].cut[0].distance(corner) < 1.0 else None


def _abreast_of_edge(edges: Sequence[Edge], starts: Sequence[float], anchor: Anchor, *, level: bool) -> float:
    """How far along the stitch line the place of the anchor lies, on the edge whose cut line it stands on."""
    aways = [round(distance_to_polyline(anchor.point, edge.cut), 6) for edge in edges]
    nearest = aways.index(min(aways))
    return starts[nearest] + _abreast(Run.of(edges[nearest].stitch.flatten(0.05)), anchor.point, level=level)


def _abreast(run: Run, point: Point, *, level: bool) -> float:
    """How far along a run the place of the point lies: at the same height for a body level, else the nearest."""
    best, found = (1, float("inf")), 0.0
    for index, (a, b) in enumerate(pairwise(run.points)):
        way = b - a
        same_height = level and min(a.y, b.y) <= point.y <= max(a.y, b.y) and a.y != b.y
        near = min(max((point - a).dot(way) / way.dot(way), 0.0), 1.0)
        share = (point.y - a.y) / way.y if same_height else near
        away = (0 if same_height else 1, point.distance(a.between(b, share)))
        if away < best:
            best, found = away, run.along[index] + share * way.length()
    return found


def _same_outline(first: Piece, second: Piece) -> bool:
    """Whether the two cut lines, stitch lines and anchors lie on each other within SAME_WITHIN."""
    if [a.id for a in first.anchors] != [a.id for a in second.anchors]:
        return False
    if any(a.point.distance(b.point) > SAME_WITHIN for a, b in zip(first.anchors, second.anchors, strict=True)):
        return False
    return all(
        _lies_on(one, other)
        for one, other in (
            (first.cut_line, second.cut_line),
            (first.stitch_line, second.stitch_line),
        )
    )


def _lies_on(first: Sequence[Point], second: Sequence[Point]) -> bool:
    if tuple(first) == tuple(second):
        return True
    return all(_near(point, second) for point in first) and all(_near(point, first) for point in second)


def _near(point: Point, line: Sequence[Point]) -> bool:
    return any(distance_to_line(point, a, b) <= SAME_WITHIN for a, b in pairwise(line))
