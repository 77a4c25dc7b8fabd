"""The lines that are chalked inside a piece of `cut_in_one`: the fold-over line of a folded neck, and the opening.

They are data that the garment hands over; whatever draws, tells or writes them knows no line by its name.
"""

import math
from typing import Final

from drafting import sources
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.cutting import CutOut
from drafting.contract.pieces import Edge, Guide, GuideMark
from drafting.garments.cut_in_one.neck import FoldOver
from drafting.geometry.point import Point
from drafting.geometry.segments import flatten

#: How near joined points keep to the line of a guide, mm: a tenth of a chalk line (our choice).
LINE_WITHIN: Final = 0.05

#: A place that every seam across the fold-over line is notched at: its id, its label and the finished point.
Across = tuple[str, str, Point]


def across_shoulder(over: FoldOver) -> tuple[Across, Across]:
    """Where the sides of a folded neck are notched: at the line, and where the seam changes sides."""
    return ("fold_over", "fold-over line", over.line[-1].end), ("turn", "change of sides", over.turn)


def across_centre(over: FoldOver) -> tuple[Across, Across]:
    """The same at a centre back seam."""
    at, below = Point(0.0, -over.stands), Point(0.0, sources.FOLD_OVER_TURNS_BELOW - over.stands)
    return ("fold_over", "fold-over line", at), ("turn", "change of sides", below)


def fold_over_guides(over: FoldOver, cut: CutOut, *, seam: bool) -> tuple[Guide, ...]:
    """The fold-over line, and a tick where each seam across it changes sides; `seam`: the centre back is one too."""
    side, turn = (_on_edge(cut, "shoulder", point) for _, _, point in across_shoulder(over))
    middle = cut.place(over.line[0].start)
    line = [cut.place(point) for point in flatten(over.line, LINE_WITHIN)]
    marks = [GuideMark("fold_over", "fold-over line at the fold", "fold", middle, middle)]
    turns = [GuideMark("turn_side", "change of sides at the side", "guide", *turn)]
    if seam:
        at, below = (_on_edge(cut, "centre_back", point) for _, _, point in across_centre(over))
        marks = [GuideMark("fold_over", "fold-over line at the centre back", "guide", *at)]
        turns.append(GuideMark("turn_centre", "change of sides at the centre back", "guide", *below))
        line.insert(0, at[0])
    marks.append(GuideMark("fold_over_side", "fold-over line at the side", "guide", *side))
    line.append(side[0])
    says = "Up from {%s} the seam is sewn with its allowances to the other side."
    ticks = tuple(
        Guide(mark.id, "change of sides", "neck", (mark.inner, mark.outer), (mark,), says % mark.id) for mark in turns
    )
    return Guide("fold_over", "fold-over line", "neck", tuple(line), tuple(marks)), *ticks


def opening_level(end: float, cut: CutOut, chalked: ChalkedLine) -> float:
    """How far below the origin an opening ends on the cloth, mm: `end` (finished, body axes) or the next whole step.

    The head passes through what is chalked, so the end is never read higher than it was solved.
    """
    step = chalked.tape.size
    return math.ceil(cut.place(Point(0.0, end)).y / step - 1e-6) * step


def opening_guide(level: float, cut: CutOut, *, seam: bool) -> Guide:
    """The opening down the fold, to be faced and then cut; in a centre back seam the place down to which it is open."""
    label = "end of the opening"
    if seam:
        edge = _edge(cut, "centre_back")
        inner = Point(edge.stitch.start.x, level)
        outer = Point(0.0, level)
        says = "Above {opening_end} the seam stays open."
        mark = GuideMark("opening_end", f"{label} at the centre back", "guide", outer, inner)
        return Guide("opening", label, "opening", (inner, outer), (mark,), says)
    end = Point(0.0, level)
    says = "Chalk the opening from {neck_top} straight down to {opening_end}. Do not cut it yet: it is faced first."
    mark = GuideMark("opening_end", f"{label} at the fold", "fold", end, end)
    return Guide("opening", "opening", "opening", (cut.line[0], end), (mark,), says, cut=True)


def _edge(cut: CutOut, name: str) -> Edge:
    return next(edge for edge in cut.edges if edge.name == name)


def _on_edge(cut: CutOut, name: str, finished: Point) -> tuple[Point, Point]:
    """The places abreast of a finished point on the cut line and on the stitch line of an edge."""
    edge = _edge(cut, name)
    _, inner, tangent = edge.stitch.nearest(cut.place(finished))
    return inner + tangent.left() * edge.allowance, inner
