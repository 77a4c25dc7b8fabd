"""Decides what there is to do at the table, in the order of work, as the records of `tasks`; `words` says them.

The first piece is told whole. A later one is chalked round an earlier one where most of its marks lie on those.
"""

from collections.abc import Container, Iterable, Sequence
from dataclasses import dataclass

from drafting import sources
from drafting.chalk.joins import legs
from drafting.chalk.lit import Outline, thinned
from drafting.chalk.lying import Lying, lyings
from drafting.chalk.marks import ChalkLine, GuideMarks, Leg, Mark, PieceMarks
from drafting.chalk.proof_lengths import unproven
from drafting.chalk.tasks import (
    Allowed,
    Begin,
    ChalkDiffering,
    ChalkedGuide,
    ChalkMarks,
    ChalkNotches,
    ChalkOtherHalf,
    ChalkPlaces,
    ChalkSlit,
    ChalkZero,
    ClipCurves,
    ClippedCurve,
    CountedPiece,
    CountPieces,
    CutPiece,
    FoldAndBegin,
    JoinedLeg,
    JoinMarks,
    LayAgain,
    LayCloth,
    LayOver,
    MarkFold,
    Measured,
    MeasureProofs,
    Mend,
    NothingDiffers,
    PlacedNotch,
    PlacedPiece,
    ProvenLength,
    RuledLevel,
    RuleLevels,
    StraightCheck,
    Task,
    TrimEdge,
    TrimMark,
)
from drafting.contract.pieces import Edge, Guide, Notch, Piece, Straightedge, counted
from drafting.geometry.point import Point
from drafting.geometry.polyline import distance_to_line, lengths_along, nearest_on
from drafting.layout import Layout, at_table, fold_reading
from drafting.sentences import lower_first
from drafting.stepwise import Steps
from drafting.units import Tape

#: A mark lies on a straightedge when it is this near, mm: the tolerance of the joins (set-out).
ON_STRAIGHTEDGE = 3.0
#: Marks of two pieces that lie this near are the same mark, mm: half a chalk line (our choice).
SAME_MARK = 0.5
#: A proof length may be off by this much, mm, before a mark is looked for: less than any slip shows (our choice).
PROOF_SLACK = 5.0
#: A notch this near to a mark is snipped at the mark, mm: the tolerance of the joins (set-out). Both edges of a seam
#: have the same mark, so its two notches still meet.
NOTCH_AT_MARK = 3.0
#: Clips this far apart along the outline belong to different curves, mm: four times their usual distance (our choice).
CLIPS_APART = 60.0
#: Edges are followed to within this, mm, as everywhere in the chalk plan.
_FLAT = 0.05


def deciding(
    pieces: Sequence[Piece], marked: Sequence[PieceMarks], tape: Tape, line: ChalkLine, layout: Layout | None,
    *, washing: str,
) -> Steps[list[tuple[str, Task]]]:  # fmt: skip
    """Everything there is to do, in order, each with the name of its piece; nothing without pieces.

    `layout` says how every piece lies; without it each piece on the fold lies on a lengthwise fold. `washing` is the
    sentence that says whether the cloth is washed first. It is a step for each piece.
    """
    found: list[tuple[str, Task]] = []
    lying = lyings(pieces, layout, tape)
    for index, piece in enumerate(pieces):
        table = _AtTable(piece, marked[index], tape.finest if piece.fine else tape, line, lying[index])
        if index == 0 or not chalked_round(marked[0], marked[index]):
            again = any(before.other_cloth == piece.other_cloth for before in pieces[:index])
            tasks = yield from table.whole(washing if index == 0 else "", first=index == 0, again=again)
            if index == 0 and layout is not None and lying[0].spots and not lying[0].plain:
                laying_out = at_table(layout, pieces, tape).laying_out
                tasks[:0] = [LayCloth(washing, laying_out, piece.stretches), _places(pieces, lying, layout, tape)]
        else:
            tasks = table.carried_over(pieces[0], differing(marked[0].marks, marked[index].marks))
        tasks.extend(table.again())
        found.extend((piece.name, task) for task in tasks)
        yield None
    if pieces:
        each = tuple(
            CountedPiece(counted(piece), lies.folded) for piece, lies in zip(pieces, lying, strict=True)
        )  # fmt: skip
        found.append((pieces[-1].name, CountPieces(sum(piece.cut for piece in pieces), each)))
    return found


def _places(pieces: Sequence[Piece], lying: Sequence[Lying], layout: Layout, tape: Tape) -> ChalkPlaces:
    return ChalkPlaces(
        tuple(
            PlacedPiece(
                piece.name, piece.label, number, len(lies.spots), spot, layout.places.index(spot.at),
                fold_reading(spot.fold.at, tape) if spot.fold is not None else None,
            )
            for piece, lies in zip(pieces, lying, strict=True)
            for number, spot in enumerate(lies.spots, start=1)
        )
    )  # fmt: skip


def chalked_round(first: PieceMarks, second: PieceMarks) -> bool:
    """Whether a piece is chalked round the first, and told by what differs: most of its marks lie on those."""
    return 2 * len(differing(first.marks, second.marks)) <= len(second.marks)


def differing(first: Sequence[Mark], second: Sequence[Mark]) -> tuple[Mark, ...]:
    """Marks of the second piece that the first has not at the same place, in the order of chalking."""
    places = {mark.id: mark.point for mark in first}
    moved = [mark for mark in second if mark.id not in places or mark.point.distance(places[mark.id]) > SAME_MARK]
    return tuple(sorted(moved, key=lambda mark: mark.order))


@dataclass(frozen=True, slots=True)
class _AtTable:
    """One piece at the table: what is to be done for it."""

    piece: Piece
    marked: PieceMarks
    tape: Tape
    line: ChalkLine
    lying: Lying

    @property
    def outline(self) -> Outline:
        """The line that is chalked."""
        return Outline.of(self.piece.cut_line if self.line == "cut" else self.piece.stitch_line)

    def whole(self, washing: str, *, first: bool, again: bool) -> Steps[list[Task]]:
        """Everything from laying the cloth to cutting, in three steps, of which joining the marks is the second."""
        before: list[Task] = [
            self._begin(washing, again=again),
            *self._zeros(),
            self._levels(),
            *self._stages(),
            *self._proofs(),
            *([Mend()] if first else []),
        ]
        yield None
        joins = self._joins()
        yield None
        return [
            *before,
            joins,
            *self._other_half(),
            *self._notches(self.piece.notches),
            *self._clips(),
            *self._slit(),
            *self._cutting(),
        ]

    def carried_over(self, first: Piece, differing: tuple[Mark, ...]) -> list[Task]:
        """Chalking round the first piece, then only what differs, then cutting."""
        piece = self.piece
        others = {guide.id for guide in piece.guides if not any(_same_guide(guide, own) for own in first.guides)}
        spot = None if self.lying.plain else next(iter(self.lying.spots), None)
        same_slit = piece.slit is not None and first.slit == piece.slit
        own: list[Task] = [ChalkDiffering(piece.label, differing)] if differing else []
        own.extend(self._notches([n for n in piece.notches if not any(_same_notch(n, one) for one in first.notches)]))
        if first.slit != piece.slit:
            own.extend(self._slit())
        own.extend(self._guides_only_here(others))
        return [
            LayOver(piece.label, first.label, self.lying, spot, self._lines(others), same_slit),
            *(own or [NothingDiffers(piece.label, first.label)]),
            *self._cutting(),
        ]

    def again(self) -> list[Task]:
        """The further places of a piece that is cut more than once."""
        if not self.lying.spots:  # another cloth, or one on which the pieces do not go
            at_once = 1 if self.lying.folded else self.lying.layers  # a pair is cut through both layers
            return [
                LayAgain(self.piece.label, number, self.lying, None, False, self._lines(), self.piece.other_cloth)
                for number in range(2, self.piece.cut // at_once + 1)
            ]
        return [
            LayAgain(
                self.piece.label, number, self.lying, spot, spot.mirrored != self.lying.spots[0].mirrored, self._lines()
            )
            for number, spot in enumerate(self.lying.spots[1:], start=2)
        ]

    # ---- what a piece is made of ------------------------------------------------------------------------------

    def _measured(self, point: Point) -> Measured:
        return Measured(point, self.tape.reading(point.x), self.tape.reading(point.y))

    def _begin(self, washing: str, *, again: bool) -> Task:
        top = self.marked.marks[0]
        begins = top.down if top.down.steps != 0 else None
        if self.lying.spots and not self.lying.plain:
            off = top.down if self.piece.starts_off else None
            begins = None if self.piece.starts_off else begins
            return Begin(self.piece.label, self.lying, self.lying.spots[0], self.line, begins, top.id, off)
        laid = bool(self.lying.spots)
        return FoldAndBegin(
            self.piece.label, self.lying, washing, again, laid, self.line, begins, top.id, self.piece.other_cloth,
            self.piece.stretches,
        )  # fmt: skip

    def _zeros(self) -> list[Task]:
        stage = self.marked.stages[0].key
        return [
            ChalkZero(number, self.piece.label, self.lying.base, self.tape.zero_every, place, stage)
            for number, place in enumerate(self.marked.zeros, start=2)
        ]

    def _levels(self) -> RuleLevels | MarkFold:
        if self.marked.marks[-1].swung is not None:
            on_fold = sorted((mark for mark in self.marked.marks if mark.kind == "fold"), key=lambda mark: mark.order)
            return MarkFold(self.marked.stages[0], self.lying, next(iter(self.lying.spots), None), tuple(on_fold))
        marks, outline, whole = self.marked.marks, self.outline, self.lying.kind == "whole"
        last = self._last()

        def ruled(key: str, words: str, down: float, mark: Mark | None = None) -> RuledLevel:
            out = outline.across(down)
            ends = Point(-out if whole else 0.0, down), Point(out, down)
            return RuledLevel(key, words, self.tape.reading(down), ends, mark)

        levels = sorted((one.down, one.words) for one in self.piece.levels if one.ruled and one.down < last.point.y)
        found = [ruled(words.replace(" ", "_"), words, down) for down, words in levels]
        found.append(ruled("end", self._end_words(last), last.point.y, last if last.kind == "fold" else None))
        folds = tuple(mark.id for mark in marks if mark.kind == "fold")
        return RuleLevels(self.marked.stages[0], self.lying, next(iter(self.lying.spots), None), tuple(found), folds)

    def _last(self) -> Mark:
        """The mark at which the piece ends: the last one where it lies on the base line, else the lowest.

        An outline that runs all the way round ends beside its beginning, and not where the piece does.
        """
        marks = [mark for mark in self.marked.marks if mark.kind != "curve"]
        return marks[-1] if marks[-1].kind == "fold" else max(marks, key=lambda mark: mark.point.y)

    def _end_words(self, last: Mark) -> str:
        """What the level is called at which the piece ends: as the garment says, else by its last mark.

        Where that mark lies is left out: "foot", not "foot at the straight edge".
        """
        named = (level.words for level in self.piece.levels if level.ends)
        return next(named, lower_first(last.label).partition(" at ")[0])

    def _stages(self) -> list[Task]:
        """The marks, stage by stage, after the levels."""
        found: list[Task] = []
        for stage in self.marked.stages[1:]:
            marks = tuple(mark for mark in self.marked.every if mark.stage == stage.key)
            if marks:
                ids = {mark.id for mark in marks}
                checks = [self._straight(one) for one in self.piece.straightedges if one.past in ids]
                guides = self._guides(one for one in self.marked.guides if one.marks[0].stage == stage.key)
                straight = tuple(one for one in checks if one is not None)
                found.append(ChalkMarks(stage, marks, straight, guides, swings=self._swings(stage.key)))
        return found

    def _swings(self, stage: str) -> tuple[JoinedLeg, ...]:
        """The legs that are swung in a stage: that of the mark on them which is chalked last. The nearest first."""
        marks = self.marked.marks
        swung = [leg for leg in legs(marks, closed=not self.piece.on_fold) if leg.swung is not None]
        found = [
            leg for leg in self._legs(marks, swung) if max(leg.start, leg.end, key=lambda m: m.order).stage == stage
        ]
        return tuple(sorted(found, key=lambda leg: leg.swung.radius if leg.swung else 0.0))

    def _straight(self, check: Straightedge) -> StraightCheck | None:
        """The check by a straightedge, where it holds for this piece."""
        marks = self.marked.marks
        index = next(k for k, mark in enumerate(marks) if mark.id == check.past)
        end = next(mark for mark in marks if mark.id == check.to)
        before, mark = marks[index - 1], marks[index]
        if index == 0 or before.kind not in ("curve", "guide"):
            return None
        away = max(
            distance_to_line(mark.point, before.point, end.point),
            distance_to_line(mark.chalked, before.chalked, end.chalked),
        )
        if away > ON_STRAIGHTEDGE:
            return None
        return StraightCheck(before, mark, check.past_words, end, check.to_words)

    def _guides(self, guides: Iterable[GuideMarks]) -> tuple[ChalkedGuide, ...]:
        lines = {guide.id: guide.line for guide in self.piece.guides}
        return tuple(
            ChalkedGuide(guide, self._legs(guide.marks, legs(guide.marks)), thinned(lines[guide.guide]))
            for guide in guides
        )

    def _guides_only_here(self, which: Container[str]) -> list[Task]:
        """The lines inside the piece that the first piece has not, each stage a task."""
        found: list[Task] = []
        for stage in self.marked.stages:
            here = [one for one in self.marked.guides if one.guide in which and one.marks[0].stage == stage.key]
            marks = tuple(mark for guide in here for mark in guide.marks)
            if marks:
                found.append(ChalkMarks(stage, marks, (), self._guides(here), self.piece.label))
        return found

    def _lines(self, apart_from: Container[str] = ()) -> tuple[str, ...]:
        """The lines inside the piece that are carried over to another, by their labels."""
        return tuple(dict.fromkeys(one.label for one in self.piece.guides if one.id not in apart_from))

    def _proofs(self) -> list[Task]:
        if not self.marked.proofs:
            return []
        named = {mark.id: mark for mark in self.marked.marks}
        lengths = tuple(
            ProvenLength(named[one.start], named[one.end], one.reads) for one in self.marked.proofs
        )  # fmt: skip
        alone = tuple(unproven(self.marked.marks, self.marked.proofs))
        return [MeasureProofs(lengths, self.tape.reading(PROOF_SLACK), alone, self.marked.look)]

    def _legs(self, marks: Sequence[Mark], found: Sequence[Leg]) -> tuple[JoinedLeg, ...]:
        by_id, outline = {mark.id: mark for mark in marks}, self.outline
        joined = []
        for leg in found:
            start, end = by_id[leg.start], by_id[leg.end]
            straight = leg.joins == "straight"
            line = (start.point, end.point) if straight else outline.between(start.point, end.point)
            through = tuple(by_id[name] for name in leg.through)
            joined.append(JoinedLeg(start, through, end, leg.joins, line, leg.swung))
        return tuple(joined)

    def _joins(self) -> JoinMarks:
        marks = self.marked.marks
        return JoinMarks(self._legs(marks, legs(marks, closed=not self.piece.on_fold)))

    def _other_half(self) -> list[Task]:
        if self.lying.kind != "whole":
            return []
        line = thinned([Point(-point.x, point.y) for point in self.outline.points])
        return [ChalkOtherHalf(self.lying.base, line)]

    def _notches(self, notches: Sequence[Notch]) -> list[Task]:
        placed = []
        for notch in notches:
            at = notch.outer if self.line == "cut" else notch.inner
            near = min(self.marked.every, key=lambda mark: mark.point.distance(at))
            there = near.kind != "curve" and near.point.distance(at) <= NOTCH_AT_MARK
            placed.append(PlacedNotch(notch, self._measured(at), near if there else None))
        return [ChalkNotches(tuple(placed))] if placed else []

    def _clips(self) -> list[Task]:
        """One curve between the mark before its first clip and the mark after its last one, once round."""
        line = self.outline.points
        along = lengths_along(line)

        def at(point: Point) -> float:
            return nearest_on(line, along, point)[0]

        spots = sorted(at(cut if self.line == "cut" else inner) for cut, inner in self.piece.clips)
        runs: list[list[float]] = []
        for spot in spots:
            if runs and spot - runs[-1][-1] <= CLIPS_APART:
                runs[-1].append(spot)
            else:
                runs.append([spot])
        placed = [(at(mark.point), mark) for mark in self.marked.marks]
        curves = []
        for run in runs:
            before = max((each for each in placed if each[0] <= run[0]), key=lambda each: each[0], default=placed[0])
            after = min((each for each in placed if each[0] >= run[-1]), key=lambda each: each[0], default=placed[-1])
            start, end = before[1], after[1]
            curves.append(ClippedCurve(start, end, self.outline.between(start.point, end.point)))
        return [ClipCurves(tuple(curves), sources.CLIP_EVERY)] if curves else []

    def _slit(self) -> list[Task]:
        slit = self.piece.slit
        if slit is None:
            return []
        edge = self.piece.edge(slit.edge).stitch
        top = next((notch.inner for notch in self.piece.notches if notch.id == slit.notch), None)
        stop = top or edge.at_length(max(edge.length() - slit.high, 0.0))[0]
        run = edge.flatten(_FLAT)
        line = Outline.of(run).between(stop, run[-1])
        return [ChalkSlit(self.tape.reading(slit.high), self._measured(stop), line)]

    def _cutting(self) -> list[Task]:
        """Cutting, and trimming a slanted edge afterwards."""
        allowances: tuple[Allowed, ...] = ()
        if self.line == "stitch":
            allowances = tuple(
                Allowed(edge.name, _edge_words(edge), self.tape.reading(edge.allowance), thinned(edge.cut))
                for edge in self.piece.edges
                if edge.allowance > 0
            )
        return [CutPiece(self.piece.label, self.lying, allowances, bool(self.piece.notches)), *self._trim()]

    def _trim(self) -> list[Task]:
        points = sorted(self.piece.trim, key=lambda point: point.x)
        if len(points) < 2:
            return []
        wearer = self.piece.trim_side or "left"
        seen = wearer if self.piece.worn_behind else {"left": "right", "right": "left"}[wearer]
        right = 1.0 if seen == "right" else -1.0
        marks = tuple(
            TrimMark(
                Point(right * point.x, point.y),
                self.tape.reading(abs(point.x)),
                self.tape.reading(point.y),
            )
            for point in points
        )
        return [TrimEdge(self.piece.label, self.piece.trim_words, wearer, seen, self.lying, marks)]


def _edge_words(edge: Edge) -> str:
    return edge.label or lower_first(edge.name.replace("_", " "))


def _same_notch(first: Notch, second: Notch) -> bool:
    return first.id == second.id and first.outer.distance(second.outer) <= SAME_MARK


def _same_guide(first: Guide, second: Guide) -> bool:
    if first.id != second.id or len(first.marks) != len(second.marks):
        return False
    pairs = zip(first.marks, second.marks, strict=True)
    return all(a.id == b.id and a.outer.distance(b.outer) <= SAME_MARK for a, b in pairs)
