"""The steps of a chalk plan in words, for a person who stands at the cloth with a tape and chalk.

Each step names the unit of its readings once; "across" is measured from the fold (of a piece laid whole from its centre
line), "down" from 0, the place where the piece begins, or from the second 0 where the tape is too short for that.
Numbers in brackets are those of the marks on the drawing.
"""

from collections.abc import Container, Sequence
from typing import NamedTuple

from drafting import sources
from drafting.chalk.apart import Outline, down_from, joins, level, places, readings_of, thinned
from drafting.chalk.joins import guide_words, join_words
from drafting.chalk.lying import Lying, Spot, lyings, ordinal, places_step
from drafting.chalk.marks import Apart, Belongs, ChalkLine, Counts, GuideMarks, Mark, PieceMarks, Step
from drafting.chalk.proof_lengths import unproven
from drafting.contract.pieces import Edge, Guide, Notch, Piece, Straightedge, counted
from drafting.geometry.point import Point
from drafting.geometry.polyline import distance_to_line, lengths_along, nearest_on
from drafting.layout import Layout, at_table, fold_reading
from drafting.sentences import listed, lower_first, upper_first
from drafting.units import UNIT_NAMES, Tape, say_length

#: The shoulder point lies on a straightedge when it is this near, mm: the tolerance of the joins (set-out).
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

#: What to do at the table when something has moved; data for the sheet and the screen.
MENDING: tuple[str, ...] = (
    "If the cloth has slipped, lay it straight and find 0 again. Then measure two marks that lie far apart: if one of "
    "them is off, brush the chalk away and mark everything again from 0.",
    "If one mark is wrong, rub it out and measure it again from 0. Measure the mark before it and the mark after it "
    "again too.",
)
#: The titles of what is to be known before any work.
KNOW_FIRST, TAKE_CARE = "Before you begin", "Take care"

#: What a second 0, a third and a fourth are measured from.
_COUNTED: tuple[Counts, ...] = ("down", "down_second", "down_third")


class _Say(NamedTuple):
    """A step before it has a number; `belongs`, `stage`, `beside`, `apart` and `rest` as in Step."""

    title: str
    says: str
    marks: tuple[str, ...] = ()
    belongs: Belongs = "cloth"
    stage: str = ""
    beside: str | None = None
    apart: tuple[Apart, ...] = ()
    rest: str | None = None


def steps_of(
    pieces: Sequence[Piece], marked: Sequence[PieceMarks], tape: Tape, line: ChalkLine, layout: Layout | None = None,
    *, washing: str, heed: Sequence[str] = (), care: Sequence[str] = (),
) -> tuple[Step, ...]:  # fmt: skip
    """The steps for all pieces in the order of work: the first piece whole, the others by what differs.

    `layout` says how every piece lies; without it each on the fold lies on a lengthwise fold. `washing` says whether
    the cloth is washed first. `heed` are the warnings about the result, each with its ways out: they stand before all
    else, then the cautions in `care`.
    """
    steps: list[Step] = []
    if pieces:
        before = [(KNOW_FIRST, says) for says in heed] + ([(TAKE_CARE, " ".join(care))] if care else [])
        steps += [
            Step(k, pieces[0].name, title, says, heed=True, belongs="know")
            for k, (title, says) in enumerate(before, start=1)
        ]
    lying = lyings(pieces, layout, tape)
    told_places = places_step(pieces, lying, tape)
    laying_out = at_table(layout, pieces, tape).laying_out if layout is not None and told_places else ()
    for index, piece in enumerate(pieces):
        teller = _Teller(piece, marked[index], tape, line, lying[index])
        differs = _differing(marked[0].marks, marked[index].marks)
        if index == 0 or 2 * len(differs) > len(marked[index].marks):
            wash = "" if index > 0 else f"{washing} "
            said = [
                *teller.prepare(wash, again=index > 0),
                *teller.marking(again=index > 0),
                *teller.extras(),
                *teller.cut(),
            ]
            if index == 0 and told_places and layout is not None:
                apart = places(pieces, lying, layout, tape)
                beside = _places_beside(told_places)
                said[:0] = [
                    _lay_the_cloth(washing, laying_out),
                    _Say("Places", told_places, beside=beside, apart=apart, rest=""),
                ]
        else:
            said = [*teller.carry_over(pieces[0], differs, lying[0]), *teller.cut()]
        said.extend(teller.again())
        begin = len(steps) + 1
        steps.extend(
            Step(
                number,
                piece.name,
                say.title,
                say.says,
                say.marks,
                False,
                say.belongs,
                say.stage,
                say.beside,
                say.apart,
                say.rest,
            )
            for number, say in enumerate(said, start=begin)
        )
    if pieces:
        steps.append(Step(len(steps) + 1, pieces[-1].name, "Count", _count(pieces, lying)))
    return tuple(steps)


def _lay_the_cloth(washing: str, laying_out: Sequence[str]) -> _Say:
    """Washing, squaring and how the cloth is laid, before any piece; folds across are made piece by piece."""
    lie = "Let it lie without pulling: the ribs of the knit run straight down it."
    return _Say("Prepare", f"{washing} {' '.join(laying_out)} {lie}", beside=lie)


def _places_beside(places: str) -> str:
    """What is left of the places where each stands in a table: when they are chalked."""
    return f"{places.partition(', in ')[0]}."


def _differing(first: Sequence[Mark], second: Sequence[Mark]) -> list[Mark]:
    """Marks of the second piece that the first has not at the same place."""
    places = {mark.id: mark.point for mark in first}
    moved = [mark for mark in second if mark.id not in places or mark.point.distance(places[mark.id]) > SAME_MARK]
    return sorted(moved, key=lambda mark: mark.order)


def _count(pieces: Sequence[Piece], lying: Sequence[Lying]) -> str:
    total = sum(piece.cut for piece in pieces)
    each = ", ".join(
        f"{counted(piece)}{' on the fold' if lies.folded else ''}" for piece, lies in zip(pieces, lying, strict=True)
    )
    return f"{total} {'piece' if total == 1 else 'pieces'} in all: {each}. Count them before the cloth is put away."


class _Teller:
    """Tells the steps of one piece."""

    def __init__(self, piece: Piece, marked: PieceMarks, tape: Tape, line: ChalkLine, lying: Lying) -> None:
        self.piece = piece
        self.lying = lying
        self.marks = marked.marks
        self.marked = marked
        self.tape = tape
        self.line = line
        self.unit = UNIT_NAMES[tape.unit]
        self.outline = Outline.of(piece.cut_line if line == "cut" else piece.stitch_line)

    def prepare(self, wash: str, *, again: bool) -> list[_Say]:
        """Washing (the words before the first piece), squaring, folding and the one origin."""
        top = self.marks[0]
        begins = ""
        if top.down.steps != 0:
            begins = f" In {self.unit}: the {self._line_word()} line begins {top.down.pretty} down {self.lying.base}."
        if self.lying.spots and not self.lying.plain:
            says = f"{self._begin()}{begins}"
            rest = f"{self._begin(read=False, told='Its 0 is chalked already.')}{begins}"
            return [_Say(f"Begin {self._name()}", says, (top.id,), beside=self._begin(read=False), rest=rest)]
        end = "Square the end of the cloth again. " if again else "Square the end of the cloth. "
        fold = (
            "Fold it lengthwise, right sides together, with the most stretch running across and the grain along the "
            "fold: follow one rib of the knit, not the edge. Let it lie without pulling. "
        )
        if self.lying.kind == "half":
            fold += f"Lay {self._name()} away from the fold, its straight edge along the grain: {self.lying.base}. "
            zero = (
                f"Chalk 0 at the top of {self.lying.base}. Measure every mark from there: across from it, down from 0."
            )
        else:
            zero = "Chalk 0 at the top of the fold. Measure every mark from there: across from the fold, down from 0."
        laid = bool(self.lying.spots)  # then the sheet says how the cloth is folded
        says = f"{wash}{end}{fold}{zero}{begins}"
        return [_Say("Prepare", says, (top.id,), beside=zero if laid else f"{end}{fold}{zero}")]

    def _begin(self, *, read: bool = True, told: str = "Its place is given above.") -> str:
        """How one piece is begun at its 0, in any way of laying; `told` for the readings of its place if not `read`."""
        lies, spot = self.lying, self.lying.spots[0]
        name, base = upper_first(self._name()), lies.base
        where = f"In {self.unit}, its 0 lies {spot.zero}." if read else told
        if lies.kind == "across":
            begin = self._fold_across(spot) if read else "Make its fold across."
            return (
                f"{begin} {where} Measure every mark from there: across from the fold, down along the fold {spot.down}."
            )
        if lies.kind == "fold":
            way = f", {spot.down}" if spot.turned else ""
            return (
                f"{name} lies half on the fold. {where} Measure every mark from there: across from the fold, "
                f"down from 0{way}."
            )
        if lies.kind == "whole":
            layers = "the two layers, which gives two" if lies.layers == 2 else "the one layer"
            return (
                f"{name} lies whole, through {layers}. {where} Chalk {base} from 0 along the grain, {spot.down}. "
                f"Chalk one half first, then its mirror: across from {base}, down from 0."
            )
        layers = "through both layers, which gives a left and a right one" if lies.layers == 2 else "in one layer"
        if lies.upper:
            layers = "in the upper layer only"
        runs = "across the cloth" if spot.at.turned % 180 == 90 else "along the grain"
        return (
            f"{name} lies {layers}. {where} From there {base} runs straight {runs}, {spot.down}: chalk it. "
            f"Measure every mark from 0: across from that line {spot.across}, down along it."
        )

    def _fold_across(self, spot: Spot) -> str:
        if spot.fold is None:
            return ""
        return (
            f"Lay the cloth open, then fold the {spot.fold.end} over on its chalked fold, right sides together, "
            f"straight across; in {self.unit}, the fold lies {fold_reading(spot.fold.at, self.tape).pretty} from the "
            "cut end."
        )

    def marking(self, *, again: bool) -> list[_Say]:
        """Levels, then the marks stage by stage, proof lengths and joining."""
        said = [*self._second_zero(), self._levels()]
        for stage in self.marked.stages[1:]:
            marks = [mark for mark in self.marked.every if mark.stage == stage.key]
            if marks:
                says = f"In {self.unit}: {self._list(marks)}."
                ids = _ids(marks)
                checks = [check for one in self.piece.straightedges if one.past in ids for check in self._past(one)]
                guides = [one for one in self.marked.guides if one.marks[0].stage == stage.key]
                besides = "".join((*(f" {check.says}" for check in checks), *map(self._guide_words, guides)))
                apart = (*checks, *self._guides_apart(guides))
                said.append(_Say(stage.title, says + besides, ids, "marks", stage.key, besides.strip(), apart, ""))
        return [*said, *self._proofs(), *([] if again else self._mending()), *self._join(), *self._mirror()]

    def extras(self) -> list[_Say]:
        """Notches, clips and slit, each with its place."""
        return [*self._notches(self.piece.notches), *self._clips(), *self._slit()]

    def cut(self) -> list[_Say]:
        """Cutting, and trimming a slanted neck afterwards."""
        allow = ""
        apart: tuple[Apart, ...] = ()
        if self.line == "stitch":
            apart = self._allowances()
            each = ", ".join(
                f"{_edge_name(edge)} {self.tape.reading(edge.allowance).pretty}"
                for edge in self.piece.edges
                if edge.allowance > 0
            )
            if each:
                allow = (
                    f"You have chalked the stitching line: first add the allowances outside it, in {self.unit}: "
                    f"{each}. "
                )
        layers = "through both layers " if self.lying.layers == 2 else ""
        pin = "Pin, then cut" if layers else "Cut"
        if self.lying.upper:
            layers = "through the upper layer only, "
        fold = f" Never cut {self.lying.base}." if self.lying.folded else ""
        snip = f" Snip the notches {self._small(3.0)} deep." if self.piece.notches else ""
        says = f"{pin} {self._name()} {layers}along the cutting line.{fold}{snip}"
        beside = "You have chalked the stitching line: first add the allowances outside it. " if allow else ""
        return [_Say("Cut", f"{allow}{says}", beside=f"{beside}{says}", apart=apart, rest=says), *self._trim()]

    def _allowances(self) -> tuple[Apart, ...]:
        """What is added outside the stitching line, an edge at a time."""
        return tuple(
            Apart(
                f"allowance.{edge.name}", "allowance", "Cut",
                f"Add the allowance outside the stitching line: {_edge_name(edge)}.",
                (("outside", self.tape.reading(edge.allowance).text),), line=thinned(edge.cut),
            )
            for edge in self.piece.edges
            if edge.allowance > 0
        )  # fmt: skip

    def again(self) -> list[_Say]:
        """The further places of a piece that is cut more than once: the first one is laid there and chalked round."""
        said: list[_Say] = []
        name = lower_first(self.piece.label)
        for number, spot in enumerate(self.lying.spots[1:], start=2):
            over = (
                "turned over, so that the two are a pair"
                if spot.mirrored != self.lying.spots[0].mirrored
                else "as it is"
            )
            if self.lying.kind == "across":
                lay = f"{self._fold_across(spot)} Lay the first one on it, still folded, fold to fold"
            else:
                lay = f"Lay the first one on the cloth, {over}"
            where = f"In {self.unit}, its 0 lies {spot.zero}, and down runs {spot.down}."
            end = f"Chalk round it, carry {listed(['every notch', *self._lines()])} over, and cut."
            title = f"The {ordinal(number)} {name}"
            rest = f"{lay}. Down runs {spot.down}. {end}"
            said.append(_Say(title, f"{lay}. {where} {end}", beside=f"{lay}. {end}", rest=rest))
        return said

    def _mirror(self) -> list[_Say]:
        """The other half of a piece laid whole."""
        if self.lying.kind != "whole":
            return []
        says = (
            f"Chalk the same readings to the other side of {self.lying.base}, and join them. Chalk every notch that "
            "follows on both halves."
        )
        mirror = thinned([Point(-point.x, point.y) for point in self.outline.points])
        apart = Apart("other_half", "half", "The other half", says, line=mirror)
        return [_Say("The other half", says, belongs="marks", apart=(apart,), rest="")]

    def carry_over(self, first: Piece, differs: Sequence[Mark], lies_first: Lying) -> list[_Say]:
        """Chalking round the first piece, then only what differs."""
        name = lower_first(first.label)
        slit = ["the slit mark"] if self.piece.slit is not None and first.slit == self.piece.slit else []
        others = {guide.id for guide in self.piece.guides if not any(_same_guide(guide, own) for own in first.guides)}
        carried = ["every notch", *self._lines(others), *slit]
        round_it = f"Chalk round it; carry {listed(carried)} over."
        title = f"Lay the {name} on the second length"
        if self.lying.plain or not self.lying.spots:
            rest = None
            lay = (
                f"Fold the second length the same way. Lay the {name} on it, still folded, fold to fold and grain to "
                f"grain. {round_it}"
            )
            beside = lay
        else:
            title = f"Lay the {name} on the cloth"
            spot = self.lying.spots[0]
            zero = f"In {self.unit}, its 0 lies {spot.zero}, and down runs {spot.down}."
            if self.lying.kind == "across":
                there = f"Lay the {name} on it, still folded, fold to fold."
                lay = f"{self._fold_across(spot)} {there} {zero} {round_it}"
                beside = f"Make its fold across. {there} {round_it}"
            elif self.lying.kind == "fold":
                there = f"Lay the {name} there, folded, fold to fold."
                lay, beside = f"{there} {zero} {round_it}", f"{there} {round_it}"
            else:
                base = f"Chalk {self.lying.base} of {self._name()}."
                there = f"Lay the {name} there, opened out flat, its centre on that line."
                lay, beside = f"{base} {zero} {there} {round_it}", f"{base} {there} {round_it}"
            rest = f"{beside} Down runs {spot.down}."
        said: list[_Say] = [_Say(title, lay, beside=beside, rest=rest)]
        notches = [n for n in self.piece.notches if not any(_same_notch(n, other) for other in first.notches)]
        if differs:
            says = f"On {self._name()} these lie elsewhere, in {self.unit}: {self._list(differs)}."
            anew = "Chalk the line anew through them."
            said.append(_Say("Mark what differs", f"{says} {anew}", _ids(differs), "marks", beside=anew))
        said.extend(self._notches(notches))
        if first.slit != self.piece.slit:
            said.extend(self._slit())
        said.extend(self._guides(others))
        if len(said) == 1:
            says = f"{upper_first(self._name())} is chalked exactly like the {name}."
            said.append(_Say("Nothing differs", says, beside=""))
        return said

    # ---- parts -----------------------------------------------------------------------------------------------

    def _second_zero(self) -> list[_Say]:
        """Where the tape does not reach: a second 0 at a whole reading."""
        said: list[_Say] = []
        before = "0"
        for number, place in enumerate(self.marked.zeros, start=2):
            name = f"{ordinal(number)} 0"
            says = (
                f"The tape is shorter than {self._name()}. In {self.unit}: chalk a {name} on {self.lying.base}, "
                f"{self.tape.zero_every.pretty} down from {before}. It lies {place.pretty} down from the first. Only "
                f'the readings that say "from the {name}" are measured from it.'
            )
            if number == 2:
                says = says.replace(f" It lies {place.pretty} down from the first.", "")
            reads = (_COUNTED[min(number, 4) - 2], self.tape.zero_every.text)
            apart = Apart(
                f"zero.{number}", "zero", upper_first(name), f"Chalk a {name} on {self.lying.base}.", (reads,),
                spot=Point(0.0, place.mm),
            )  # fmt: skip
            rest = (
                f"The tape is shorter than {self._name()}. "
                f'Only the readings that say "from the {name}" are measured from it.'
            )
            stage = self.marked.stages[0].key
            said.append(_Say(upper_first(name), says, belongs="marks", stage=stage, apart=(apart,), rest=rest))
            before = f"the {name}"
        return said

    def _levels(self) -> _Say:
        hem = self.marks[-1]
        levels = [(one.down, one.words) for one in self.piece.levels if one.ruled and one.down < hem.point.y]
        listed = [f"{name} {self._reach(down)}" for down, name in sorted(levels)]
        end = lower_first(hem.label).split(" at ")[0]
        listed.append(f"{end} {self._reach(hem.point.y)} ({hem.order})")
        base, spot = self.lying.base, next(iter(self.lying.spots), None)
        way = f" {spot.down}" if spot is not None and spot.turned else ""
        sides = " to both sides" if self.lying.kind == "whole" else ""
        what = "Rule each level" if len(listed) > 1 else "Rule it"
        rule = f"{what} across{sides}, square to {base}."
        says = f"Down {base}, in {self.unit} from 0{way}: {', '.join(listed)}. {rule}"
        stage = self.marked.stages[0]
        one, whole = f"Rule it across{sides}, square to {base}.", self.lying.kind == "whole"
        apart = tuple(
            level(key, name, down, one, self.outline, self.tape, stage.title, whole=whole)
            for down, name, key in sorted(
                [*((down, name, name.replace(" ", "_")) for down, name in levels), (hem.point.y, end, "end")]
            )
        )
        folds = _ids([m for m in self.marks if m.kind == "fold"])
        return _Say(stage.title, says, folds, "marks", stage.key, rule, apart, "")

    def _proofs(self) -> list[_Say]:
        if not self.marked.proofs:
            return []
        named = {mark.id: mark for mark in self.marks}
        lengths = "; ".join(
            f"{self._short(named[proof.start])} to {self._short(named[proof.end])} {proof.reads.pretty}"
            for proof in self.marked.proofs
        )
        slack = self.tape.reading(PROOF_SLACK).pretty
        says = (
            f"A length that is off by more than {slack} means that the mark at one of its ends has slipped: measure "
            "both again from 0."
        )
        alone = unproven(self.marks, self.marked.proofs)
        rest = says
        apart: tuple[Apart, ...] = ()
        if alone:
            them = "this mark fully, so measure it" if len(alone) == 1 else "these marks fully, so measure them"
            twice = f"No length proves {them} twice: {listed([self._short(mark) for mark in alone])}."
            says += f" {twice}"
            apart = (Apart("unproven", "check", "Proof lengths", twice, marks=_ids(alone)),)
        if self.marked.look is not None:
            says += f" {self.marked.look.says}"
        ids = dict.fromkeys(end for proof in self.marked.proofs for end in (proof.start, proof.end))
        whole = f"Measure in a straight line from mark to mark, in {self.unit}: {lengths}. {says}"
        beside = f"Measure straight from mark to mark, in {self.unit}. {says}"
        return [_Say("Proof lengths", whole, tuple(ids), "marks", beside=beside, apart=apart, rest=rest)]

    def _mending(self) -> list[_Say]:
        return [_Say("If something moved", " ".join(MENDING), beside="")]

    def _join(self) -> list[_Say]:
        closed = not self.piece.on_fold
        says = join_words(self.marks, closed=closed)
        apart = joins(self.marks, self.outline, closed=closed)
        return [_Say("Join the marks", says, belongs="marks", beside="", apart=apart, rest="")]

    def _notches(self, notches: Sequence[Notch]) -> list[_Say]:
        """A notch that lies on a mark is named by it; the others have their readings."""
        at_marks: list[str] = []
        placed: list[str] = []
        apart: list[Apart] = []
        for notch in notches:
            at, key = self._notch_at(notch), f"notch.{notch.seam}.{notch.id}"
            mark = self._mark_at(at)
            tick = "chalk a short tick across the edge"
            if mark is None:
                placed.append(f"{notch.words} {self._place(at)}")
                says = f"{upper_first(notch.words)}: {tick}."
                apart.append(Apart(key, "notch", "Notches", says, readings_of(at, self.tape), spot=at))
                continue
            if _says_the_same(notch.words, mark.label):
                at_marks.append(self._short(mark))
            else:
                at_marks.append(f"{notch.words} at ({mark.order})")
            apart.append(Apart(key, "notch", "Notches", f"{upper_first(tick)} at {at_marks[-1]}.", marks=(mark.id,)))
        said = []
        if at_marks:
            said.append(f"Chalk a short tick across the edge at {listed(at_marks)}.")
        if placed:
            begin = "Chalk another" if at_marks else "Chalk a short tick across the edge"
            said.append(f"{begin}, in {self.unit}: {'; '.join(placed)}.")
        return [_Say("Notches", " ".join(said), belongs="marks", apart=tuple(apart), rest="")] if said else []

    def _mark_at(self, point: Point) -> Mark | None:
        near = min(self.marked.every, key=lambda mark: mark.point.distance(point))
        return near if near.kind != "curve" and near.point.distance(point) <= NOTCH_AT_MARK else None

    def _notch_at(self, notch: Notch) -> Point:
        return notch.outer if self.line == "cut" else notch.inner

    def _clips(self) -> list[_Say]:
        """One sentence for every curve that may be clipped, between two marks; nothing is chalked for it."""
        clipped = self._clipped()
        stretches = [f"between ({a.order}) and ({b.order})" for a, b in clipped]
        if not stretches:
            return []
        every, title = say_length(sources.CLIP_EVERY, self.tape.unit), "Clips, after sewing"
        says = (
            "Clip as soon as the seam is sewn, and only where it pulls. The drawing shows where: "
            f"{listed(stretches)}. Clip the allowance every {every}, and stop {self._small(2.5)} before the stitching."
        )
        apart = tuple(
            Apart(
                f"clips.{a.id}-{b.id}", "clips", title,
                f"As soon as the seam is sewn, and only where it pulls, clip the allowance {where}. Clip every "
                f"{every}, and stop {self._small(2.5)} before the stitching.",
                marks=(a.id, b.id), line=self.outline.between(a.point, b.point),
            )
            for (a, b), where in zip(clipped, stretches, strict=True)
        )  # fmt: skip
        return [_Say(title, says, belongs="after", apart=apart, rest="")]

    def _clipped(self) -> list[tuple[Mark, Mark]]:
        """For each clipped curve the mark before its first clip and the mark after its last one, once round."""
        line = self.piece.cut_line if self.line == "cut" else self.piece.stitch_line
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
        placed = [(at(mark.point), mark) for mark in self.marks]
        found = []
        for run in runs:
            before = max((each for each in placed if each[0] <= run[0]), key=lambda each: each[0], default=placed[0])
            after = min((each for each in placed if each[0] >= run[-1]), key=lambda each: each[0], default=placed[-1])
            found.append((before[1], after[1]))
        return found

    def _slit(self) -> list[_Say]:
        open_end = self.piece.slit
        if open_end is None:
            return []
        side = self.piece.edge(open_end.edge)
        top = next((notch.inner for notch in self.piece.notches if notch.id == open_end.notch), None)
        stop = top or side.stitch.at_length(max(side.stitch.length() - open_end.high, 0.0))[0]
        open_for = self.tape.reading(open_end.high).pretty
        says = (
            f"In {self.unit}: the side stays open for {open_for} above the finished hem. "
            f'Chalk "sew to here" on the stitching line: {self._place(stop)}.'
        )
        reads: tuple[tuple[Counts, str], ...] = (("open", self.tape.reading(open_end.high).text),)
        slit = Outline.of(side.stitch.flatten(0.05)).between(stop, side.stitch.flatten(0.05)[-1])
        here = 'Chalk "sew to here" on the stitching line.'
        apart = (
            Apart(
                "slit.open", "slit", "Slit", "The side stays open, measured up from the finished hem.", reads, line=slit
            ),
            Apart("slit.stop", "slit", "Slit", here, readings_of(stop, self.tape), spot=stop),
        )
        return [_Say("Slit", says, belongs="marks", apart=apart, rest="")]

    def _guides(self, which: Container[str]) -> list[_Say]:
        """The lines inside the piece that the first piece has not, each stage a step."""
        said: list[_Say] = []
        for stage in self.marked.stages:
            guides = [one for one in self.marked.guides if one.guide in which and one.marks[0].stage == stage.key]
            marks = [mark for guide in guides for mark in guide.marks]
            if marks:
                words = "".join(self._guide_words(guide) for guide in guides)
                says = f"On {self._name()} only, in {self.unit}: {self._list(marks)}.{words}"
                apart = self._guides_apart(guides)
                said.append(_Say(stage.title, says, _ids(marks), "marks", stage.key, words.strip(), apart, ""))
        return said

    def _guides_apart(self, guides: Sequence[GuideMarks]) -> tuple[Apart, ...]:
        """The lines inside the piece, each with what is said of it."""
        lines = {guide.id: guide.line for guide in self.piece.guides}
        return tuple(
            Apart(
                f"guide.{guide.guide}", "line", upper_first(guide.label), says, marks=_ids(guide.marks),
                line=thinned(lines[guide.guide]),
            )
            for guide in guides
            if (says := self._guide_words(guide).strip())
        )  # fmt: skip

    def _guide_words(self, guide: GuideMarks) -> str:
        """How a line inside the piece is chalked, and what to know of it; begins with a space where there is any."""
        says = f" Chalk the {guide.label} dashed: {guide_words(guide.marks)}." if len(guide.marks) > 1 else ""
        return f"{says} {guide.says}" if guide.says else says

    def _lines(self, apart_from: Container[str] = ()) -> list[str]:
        """The lines inside the piece as they are carried over to another."""
        return list(dict.fromkeys(f"the {one.label}" for one in self.piece.guides if one.id not in apart_from))

    def _trim(self) -> list[_Say]:
        points = sorted(self.piece.trim, key=lambda point: point.x)
        if len(points) < 2:
            return []
        wearer = self.piece.trim_side or "left"
        seen = wearer if self.piece.worn_behind else {"left": "right", "right": "left"}[wearer]
        other = {"left": "right", "right": "left"}[seen]
        centre = "the centre line" if self.lying.kind == "whole" else "the fold line"
        listed = "; ".join(
            f"{self.tape.reading(abs(point.x)).pretty} to your {seen if point.x >= 0 else other} of {centre}, "
            + self._from_zero(point.y)
            for point in points
        )
        says = (
            f"Open {self._name()} out with its right side towards you and its neck away from you: the lower side of "
            f"the neck is the wearer's {wearer}, on your {seen}. Mark, in {self.unit}: {listed}. Rule from one mark to "
            "the next and trim along it."
        )
        rest = (
            f"Open {self._name()} out with its right side towards you and its neck away from you: the lower side of "
            f"the neck is the wearer's {wearer}, on your {seen}. Rule from one mark to the next and trim along it."
        )
        right = 1.0 if seen == "right" else -1.0
        spots = tuple(Point(right * point.x, point.y) for point in points)
        apart = tuple(
            Apart(
                f"trim.{number}", "trim", "Trim the neck", f"Mark {number} of {len(spots)} for the slanted neck.",
                (("to_right" if spot.x >= 0 else "to_left", self.tape.reading(abs(spot.x)).text),
                 down_from(spot.y, self.tape)), spot=spot, line=spots,
            )
            for number, spot in enumerate(spots, start=1)
        )  # fmt: skip
        return [_Say("Trim the neck", says, apart=apart, rest=rest)]

    def _past(self, check: Straightedge) -> list[Apart]:
        """The check by a straightedge, where it holds for this piece."""
        index = next(k for k, mark in enumerate(self.marks) if mark.id == check.past)
        end = next(mark for mark in self.marks if mark.id == check.to)
        before, mark = self.marks[index - 1], self.marks[index]
        if index == 0 or before.kind not in ("curve", "guide"):
            return []
        away = max(
            distance_to_line(mark.point, before.point, end.point),
            distance_to_line(mark.chalked, before.chalked, end.chalked),
        )
        if away > ON_STRAIGHTEDGE:
            return []
        ends = f"from the curve ({before.order}) to the {check.to_words} ({end.order})"
        says = f"A straightedge {ends} must pass the {check.past_words} ({mark.order})."
        title = next(stage.title for stage in self.marked.stages if stage.key == mark.stage)
        line = before.point, end.point
        return [Apart("straightedge", "check", title, says, marks=(before.id, mark.id, end.id), line=line)]

    def _list(self, marks: Sequence[Mark]) -> str:
        return "; ".join(
            f"({mark.order}) {lower_first(mark.label)} across {mark.across.pretty}, down {self._reach(mark.point.y)}"
            for mark in marks
        )

    def _place(self, point: Point) -> str:
        return f"across {self.tape.reading(point.x).pretty}, down {self._reach(point.y)}"

    def _reach(self, down: float) -> str:
        """A reading down, and from which 0 where it is not the first."""
        number, reading = self.tape.from_zero(self.tape.reading(down))
        return reading.pretty if number == 1 else f"{reading.pretty} from the {ordinal(number)} 0"

    def _from_zero(self, down: float) -> str:
        reading = self.tape.reading(down)
        return f"{reading.pretty} down from 0" if reading.steps else "level with 0"

    def _short(self, mark: Mark) -> str:
        return f"({mark.order}) {lower_first(mark.label)}"

    def _small(self, mm: float) -> str:
        """A few millimetres as people say them, whatever the step of the tape."""
        return f"{mm:g} mm" if self.tape.unit == "cm" else "⅛ in"

    def _name(self) -> str:
        return f"the {lower_first(self.piece.label)}"

    def _line_word(self) -> str:
        return "cutting" if self.line == "cut" else "stitching"


def _edge_name(edge: Edge) -> str:
    return edge.label or lower_first(edge.name.replace("_", " "))


def _ids(marks: Sequence[Mark]) -> tuple[str, ...]:
    return tuple(mark.id for mark in marks)


def _says_the_same(notch: str, mark: str) -> bool:
    """Whether a mark's label already says what the notch is called ("waist", "waist at the side")."""
    return lower_first(mark).startswith(notch)


def _same_notch(first: Notch, second: Notch) -> bool:
    return first.id == second.id and first.outer.distance(second.outer) <= SAME_MARK


def _same_guide(first: Guide, second: Guide) -> bool:
    if first.id != second.id or len(first.marks) != len(second.marks):
        return False
    pairs = zip(first.marks, second.marks, strict=True)
    return all(a.id == b.id and a.outer.distance(b.outer) <= SAME_MARK for a, b in pairs)
