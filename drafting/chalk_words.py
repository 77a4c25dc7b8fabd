"""The steps of a chalk plan in words, for a person who stands at the cloth with a tape and chalk.

Each step names the unit of its readings once; "across" is measured from the fold, "down" from 0, the place on the
fold where the piece begins. Numbers in brackets are those of the marks on the drawing.
"""

from collections.abc import Sequence

from drafting.chalk_marks import STAGES, ChalkLine, Mark, PieceMarks, Stage, Step
from drafting.geometry.point import Point
from drafting.geometry.polyline import distance_to_line
from drafting.pieces import Edge, Notch, Piece
from drafting.proof_lengths import unproven
from drafting.units import Tape

#: The shoulder point lies on a straightedge when it is this near, mm: the tolerance of the joins (set-out).
ON_STRAIGHTEDGE = 3.0
#: Marks of two pieces that lie this near are the same mark, mm: half a chalk line (our choice).
SAME_MARK = 0.5
#: A proof length may be off by this much, mm, before a mark is looked for: less than any slip shows (our choice).
PROOF_SLACK = 5.0

_UNITS = {"in": "inches", "cm": "centimetres"}
_LEVELS = {"side_neck": "shoulder level", "bust": "bust", "waist": "waist", "hip": "hip"}

_TITLES: dict[Stage, str] = {
    "levels": "Levels",
    "widths": "Widths",
    "column": "Column and overarm",
    "sleeve": "Sleeve",
    "underarm": "Underarm",
    "side": "Side",
    "hem": "Hem",
}

_Say = tuple[str, str, tuple[str, ...]]


def steps_of(pieces: Sequence[Piece], marked: Sequence[PieceMarks], tape: Tape, line: ChalkLine) -> tuple[Step, ...]:
    """The steps for all pieces in the order of work: the first piece whole, the others by what differs."""
    steps: list[Step] = []
    for index, piece in enumerate(pieces):
        teller = _Teller(piece, marked[index], tape, line)
        differs = _differing(marked[0].marks, marked[index].marks)
        if index == 0 or 2 * len(differs) > len(marked[index].marks):
            said = [*teller.prepare(again=index > 0), *teller.marking(), *teller.extras(), *teller.cut()]
        else:
            said = [*teller.carry_over(pieces[0], differs), *teller.cut()]
        begin = len(steps) + 1
        steps.extend(Step(number, piece.name, *say) for number, say in enumerate(said, start=begin))
    if pieces:
        steps.append(Step(len(steps) + 1, pieces[-1].name, "Count", _count(pieces)))
    return tuple(steps)


def _differing(first: Sequence[Mark], second: Sequence[Mark]) -> list[Mark]:
    """Marks of the second piece that the first has not at the same place."""
    places = {mark.id: mark.point for mark in first}
    moved = [mark for mark in second if mark.id not in places or mark.point.distance(places[mark.id]) > SAME_MARK]
    return sorted(moved, key=lambda mark: mark.order)


def _count(pieces: Sequence[Piece]) -> str:
    total = sum(piece.cut for piece in pieces)
    each = ", ".join(f"{piece.cut} {_lower(piece.label)}{' on the fold' if piece.on_fold else ''}" for piece in pieces)
    return f"{total} {'piece' if total == 1 else 'pieces'} in all: {each}. Count them before the cloth is put away."


class _Teller:
    """Tells the steps of one piece."""

    def __init__(self, piece: Piece, marked: PieceMarks, tape: Tape, line: ChalkLine) -> None:
        self.piece = piece
        self.marks = marked.marks
        self.by_order = sorted(self.marks, key=lambda mark: mark.order)
        self.marked = marked
        self.tape = tape
        self.line = line
        self.unit = _UNITS[tape.unit]

    def prepare(self, *, again: bool) -> list[_Say]:
        """Squaring, folding and the one origin."""
        begin = "" if again else "Wash the cloth as it will be washed later, let it dry flat and press it. "
        fold = (
            "Fold it lengthwise, right sides together, with the most stretch running across and the grain along the "
            "fold: follow one rib of the knit, not the edge. Let it lie without pulling. "
            if self.piece.on_fold
            else "Lay it flat, right side down, with the most stretch running across; the left edge is the fold line. "
        )
        top = self.marks[0]
        zero = "Chalk 0 at the top of the fold. Measure every mark from there: across from the fold, down from 0. "
        if top.down.steps != 0:
            zero += f"In {self.unit}: the {self._line_word()} line begins {top.down.pretty} down the fold. "
        end = "Square the end. " if not again else "Square the end again. "
        return [("Prepare", f"{begin}{end}{fold}{zero}".strip(), (top.id,))]

    def marking(self) -> list[_Say]:
        """Levels, then the marks stage by stage, proof lengths and joining."""
        said = [self._levels()]
        for stage in STAGES[1:]:
            marks = [mark for mark in self.by_order if mark.stage == stage]
            if marks:
                says = f"In {self.unit}: {self._list(marks)}."
                if stage == "column":
                    says += self._straightedge()
                said.append((_TITLES[stage], says, _ids(marks)))
        return [*said, *self._proofs(), *self._join()]

    def extras(self) -> list[_Say]:
        """Notches, clips, slit and opening, each with its place."""
        return [*self._notches(self.piece.notches), *self._clips(), *self._slit(), *self._opening()]

    def cut(self) -> list[_Say]:
        """Cutting, and trimming a slanted neck afterwards."""
        allow = ""
        if self.line == "stitch":
            each = ", ".join(
                f"{_lower(edge.name.replace('_', ' '))} {self.tape.reading(edge.allowance).pretty}"
                for edge in self.piece.edges
                if edge.allowance > 0
            )
            allow = (
                f"You have chalked the stitching line: first add the allowances outside it, in {self.unit}: {each}. "
            )
        layers = "through both layers " if self.piece.on_fold else ""
        fold = ""
        if self.piece.on_fold:
            fold = (
                "Never cut the fold. " if self.piece.opening <= 0 else "Cut the fold for the opening and no farther. "
            )
        says = f"{allow}Pin, then cut {self._name()} {layers}along the cutting line. {fold}Snip the notches 3 mm deep."
        return [("Cut", says.replace("3 mm", self._small(3.0)), ()), *self._trim()]

    def carry_over(self, first: Piece, differs: Sequence[Mark]) -> list[_Say]:
        """Chalking round the first piece, then only what differs."""
        name = _lower(first.label)
        slit = " and the slit mark" if self.piece.slit > 0 and first.slit == self.piece.slit else ""
        lay = (
            f"Fold the second length the same way. Lay the {name} on it, still folded, fold to fold and grain to "
            f"grain. Chalk round it; carry every notch{slit} over."
        )
        clips = " Carry the clips over too." if self.piece.clips else ""
        said: list[_Say] = [(f"Lay the {name} on the second length", lay + clips, ())]
        notches = [n for n in self.piece.notches if not any(_same_notch(n, other) for other in first.notches)]
        if differs:
            says = f"On {self._name()} these lie elsewhere, in {self.unit}: {self._list(differs)}."
            said.append(("Mark what differs", f"{says} Chalk the line anew through them.", _ids(differs)))
        said.extend(self._notches(notches))
        if first.slit != self.piece.slit:
            said.extend(self._slit())
        said.extend(self._opening())
        if len(said) == 1:
            said.append(("Nothing differs", f"{_upper(self._name())} is chalked exactly like the {name}.", ()))
        return said

    # ---- parts -----------------------------------------------------------------------------------------------

    def _levels(self) -> _Say:
        hem = self.marks[-1]
        levels = [
            (down, _LEVELS[name]) for name, down in self.piece.levels.items() if name in _LEVELS and down < hem.point.y
        ]
        listed = [f"{name} {self.tape.reading(down).pretty}" for down, name in sorted(levels)]
        listed.append(f"hem {hem.down.pretty} ({hem.order})")
        says = f"Down the fold, in {self.unit} from 0: {', '.join(listed)}. Rule each level across, square to the fold."
        return "Levels", says, tuple(mark.id for mark in self.marks if mark.kind == "fold")

    def _proofs(self) -> list[_Say]:
        if not self.marked.proofs:
            return []
        named = {mark.id: mark for mark in self.marks}
        listed = "; ".join(
            f"{self._short(named[proof.start])} to {self._short(named[proof.end])} {proof.reads.pretty}"
            for proof in self.marked.proofs
        )
        slack = self.tape.reading(PROOF_SLACK).pretty
        says = (
            f"Measure straight across the cloth, in {self.unit}: {listed}. A length that is off by more than {slack} "
            "means that the mark at one of its ends has slipped: measure both again from 0."
        )
        alone = unproven(self.marks, self.marked.proofs)
        if alone:
            says += f" Measure twice what no length proves fully: {', '.join(self._short(mark) for mark in alone)}."
        ids = dict.fromkeys(end for proof in self.marked.proofs for end in (proof.start, proof.end))
        return [("Proof lengths", says, tuple(ids))]

    def _join(self) -> list[_Say]:
        straight: list[str] = []
        begin = None
        for before, mark in zip(self.marks, self.marks[1:], strict=False):
            if mark.joins == "straight" and begin is None:
                begin = before
            if begin is not None and (mark.joins == "curve" or mark.kind != "curve"):
                end = before if mark.joins == "curve" else mark
                straight.append(f"({begin.order}) to ({end.order})")
                begin = None
        ruled = f"Rule straight: {', '.join(straight)}. " if straight else ""
        curved = any(mark.joins == "curve" for mark in self.marks)
        sweep = (
            "Join the others in one smooth sweep through the marks; a kink shows a mark that has slipped."
            if curved
            else ""
        )
        return [("Join the marks", f"{ruled}{sweep}".strip(), ())]

    def _notches(self, notches: Sequence[Notch]) -> list[_Say]:
        if not notches:
            return []
        listed = "; ".join(f"{_lower(notch.label)} {self._place(self._notch_at(notch))}" for notch in notches)
        return [("Notches", f"A short tick across the edge, in {self.unit}: {listed}.", ())]

    def _notch_at(self, notch: Notch) -> Point:
        return notch.outer if self.line == "cut" else notch.inner

    def _clips(self) -> list[_Say]:
        if not self.piece.clips:
            return []
        listed = "; ".join(self._place(cut if self.line == "cut" else inner) for cut, inner in self.piece.clips)
        says = (
            f"Mark where the allowance is clipped once it is sewn, to {self._small(2.5)} from the stitching, "
            f"in {self.unit}: {listed}."
        )
        return [("Clips", says, ())]

    def _slit(self) -> list[_Say]:
        side = _side_edge(self.piece)
        if self.piece.slit <= 0 or side is None:
            return []
        top = next((notch.inner for notch in self.piece.notches if notch.id == "slit"), None)
        stop = top or side.stitch.at_length(max(side.stitch.length() - self.piece.slit, 0.0))[0]
        open_for = self.tape.reading(self.piece.slit).pretty
        says = (
            f"In {self.unit}: the side stays open {open_for} up from the finished hem. "
            f'Chalk "sew to here" on the stitching line: {self._place(stop)}.'
        )
        return [("Slit", says, ())]

    def _opening(self) -> list[_Say]:
        if self.piece.opening <= 0:
            return []
        long = self.tape.reading(self.piece.opening).pretty
        says = (
            f"For {self._name()} only, in {self.unit}: cut down the fold {long} from the cut top. Chalk the end across "
            "the fold, cut to there and no farther."
        )
        return [("Opening", says, ())]

    def _trim(self) -> list[_Say]:
        points = sorted(self.piece.trim, key=lambda point: point.x)
        if len(points) < 2:
            return []
        wearer = self.piece.trim_side or "left"
        back = "back" in self.piece.name
        seen = wearer if back else {"left": "right", "right": "left"}[wearer]
        other = {"left": "right", "right": "left"}[seen]
        listed = "; ".join(
            f"{self.tape.reading(abs(point.x)).pretty} to your {seen if point.x >= 0 else other} of the fold line, "
            + self._from_zero(point.y)
            for point in points
        )
        says = (
            f"Open {self._name()} out with its right side towards you and its neck away from you: the lower side of "
            f"the neck is the wearer's {wearer}, on your {seen}. Mark, in {self.unit}: {listed}. Rule from one mark to "
            "the next and trim along it."
        )
        return [("Trim the neck", says, ())]

    def _straightedge(self) -> str:
        """The check of the overarm by a straightedge, where it holds for this piece; else nothing."""
        shoulder = next((k for k, mark in enumerate(self.marks) if "shoulder" in mark.id), 0)
        end = next((mark for mark in self.marks if mark.kind == "corner" and "sleeve_end" in mark.id), None)
        before = self.marks[shoulder - 1]
        if end is None or shoulder == 0 or before.kind not in ("curve", "guide"):
            return ""
        mark = self.marks[shoulder]
        away = max(
            distance_to_line(mark.point, before.point, end.point),
            distance_to_line(mark.chalked, before.chalked, end.chalked),
        )
        if away > ON_STRAIGHTEDGE:
            return ""
        ends = f"from the curve ({before.order}) to the sleeve end ({end.order})"
        return f" A straightedge {ends} must pass the shoulder point ({mark.order})."

    def _list(self, marks: Sequence[Mark]) -> str:
        return "; ".join(
            f"({mark.order}) {_lower(mark.label)} across {mark.across.pretty}, down {mark.down.pretty}"
            for mark in marks
        )

    def _place(self, point: Point) -> str:
        return f"across {self.tape.reading(point.x).pretty}, down {self.tape.reading(point.y).pretty}"

    def _from_zero(self, down: float) -> str:
        reading = self.tape.reading(down)
        return f"{reading.pretty} down from 0" if reading.steps else "level with 0"

    def _short(self, mark: Mark) -> str:
        return f"({mark.order}) {_lower(mark.label)}"

    def _small(self, mm: float) -> str:
        """A few millimetres as people say them, whatever the step of the tape."""
        return f"{mm:g} mm" if self.tape.unit == "cm" else "⅛ in"

    def _name(self) -> str:
        return f"the {_lower(self.piece.label)}"

    def _line_word(self) -> str:
        return "cutting" if self.line == "cut" else "stitching"


def _ids(marks: Sequence[Mark]) -> tuple[str, ...]:
    return tuple(mark.id for mark in marks)


def _lower(words: str) -> str:
    return words[:1].lower() + words[1:]


def _upper(words: str) -> str:
    return words[:1].upper() + words[1:]


def _same_notch(first: Notch, second: Notch) -> bool:
    return first.id == second.id and first.outer.distance(second.outer) <= SAME_MARK


def _side_edge(piece: Piece) -> Edge | None:
    """The edge that ends at the hem: the last hem round the outline, and what comes before it."""
    hem = next((k for k in range(len(piece.edges) - 1, 0, -1) if piece.edges[k].name == "hem"), None)
    return piece.edges[hem - 1] if hem is not None else None
