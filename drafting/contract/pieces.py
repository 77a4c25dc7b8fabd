"""What a garment is made of once it is set out: pieces, their edges, notches and anchors.

Millimetres; x runs across from the fold, y down the fold. The origin of a piece is the fold at the top of
its cut line (of a scooped neck: level with its highest place), so no coordinate a person reads is negative.
Everything here lies on the cloth as it is cut: shrinkage is already in.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.sentences import lower_first

AnchorKind = Literal["fold", "corner", "level", "guide"]
#: Ends of an edge that come to a point, each with the reason why.
Points = tuple[tuple[Literal["start", "end"], str], ...]


@dataclass(frozen=True, slots=True)
class Stage:
    """A stage of chalking that the garment names: its key, and the title that a person reads."""

    key: str
    title: str


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the outline that may curve: it begins at an anchor and reaches to where the next part begins.

    Curve points on it are called by `words` and named by `id`, counted where there are several. A single one is called
    by `one` ("middle") and the words, where that is given. They are chalked in the stage `stage`; `late` ones wait for
    that stage's own corners.
    """

    begins: str
    id: str
    words: str
    stage: str
    one: str = ""
    late: bool = False


@dataclass(frozen=True, slots=True)
class Swing:
    """An edge that is chalked by swinging the tape: the `centre` that the tape is held at, and two radii, mm.

    The centre lies on the fold or on its continuation, on the piece or off it. `cut` is the radius of the cutting line,
    `stitch` that of the stitching line.
    """

    centre: Point
    cut: float
    stitch: float


@dataclass(frozen=True, slots=True)
class Edge:
    """One edge of the stitch line, in outline order, with its own allowance outside it.

    `turned` edges are hems: their allowance is folded back onto the piece. `label` is what it is called in a sentence.
    `points` are the ends at which it comes to a point on purpose, each with the reason: there it need not run smooth
    into the edge it meets across a fold or a seam.
    One with a `swing` is an arc of a circle that needs no points between its ends.
    """

    name: str
    stitch: Path
    cut: tuple[Point, ...]
    allowance: float
    turned: bool = False
    label: str = ""
    points: Points = ()
    swing: Swing | None = None

    def comes_to_a_point(self, at: Literal["start", "end"]) -> bool:
        """Whether it comes to a point on purpose at its beginning or end."""
        return any(end == at for end, _ in self.points)


@dataclass(frozen=True, slots=True)
class Notch:
    """A short tick across a seam: `at` mm along the stitch line of its edge, `inner` on it, `outer` on the cut line.

    `where` is added to the label where the piece has another notch of that name ("at the centre back"). A proof length
    ends at the mark nearest to one that is `proven`.
    """

    seam: str
    id: str
    label: str
    at: float
    inner: Point
    outer: Point
    where: str = ""
    proven: bool = False

    @property
    def words(self) -> str:
        """What it is called in a sentence."""
        return f"{lower_first(self.label)} {self.where}".rstrip()


@dataclass(frozen=True, slots=True)
class Anchor:
    """A place on the cut line that is always a mark: a corner, a level or a guide the hand needs.

    `at` is the distance in mm along the cut line from the fold at the top. kind: "fold" lies on the fold,
    "corner" is where two edges meet, "level" is where a body level meets the edge, "guide" helps the hand. `stage` is
    the key of the stage of chalking in which it is marked. `seen` says that a slip of it shows to the eye, as a kink in
    a curve, so that a length need not prove it.
    """

    id: str
    label: str
    kind: AnchorKind
    at: float
    point: Point
    stage: str
    seen: bool = False


@dataclass(frozen=True, slots=True)
class Level:
    """A level across a piece, `down` mm from its origin on the cloth as cut; `words` is what a person calls it.

    One that is `ruled` is ruled across before any mark is made. One that is `drawn` is a line on the drawings; of one
    with a `width` they tell the width as cut. One that `narrows` is drawn little farther than the levels with a width
    reach, because the piece runs out there. The level at which the piece `ends` is drawn by its edge.
    """

    key: str
    words: str
    down: float
    ruled: bool = False
    drawn: bool = True
    width: bool = False
    narrows: bool = False
    ends: bool = False


@dataclass(frozen=True, slots=True)
class Straightedge:
    """A check by a straightedge: from the curve before the mark `past`, past that mark, to the mark `to`."""

    past: str
    past_words: str
    to: str
    to_words: str


@dataclass(frozen=True, slots=True)
class Slit:
    """A seam that stays open at its end: so high above the finished end of its edge, mm; `notch` marks its top."""

    edge: str
    high: float
    notch: str = ""


@dataclass(frozen=True, slots=True)
class GuideMark:
    """A place that is measured for a guide: `outer` on the cut line, `inner` on the stitch line; inside they agree."""

    id: str
    label: str
    kind: AnchorKind
    outer: Point
    inner: Point


@dataclass(frozen=True, slots=True)
class Guide:
    """A line inside a piece that is chalked on it, such as a fold-over line or an opening.

    `line` is joined points as cut, which begins at the first and ends at the last of several `marks`; those stand in
    order along it, and curve points between them come by themselves. `label` is what a person calls it, `stage` the key
    of its stage of chalking. `says` is what to know of it while chalking, whole sentences in which "{waist}" stands
    for the number of the mark `waist`. Where the piece is not the same to both sides of a line that runs down it,
    `beside` names them ("back", "front"): the side nearer to the line that "across" counts from, then the other.
    One that is `cut` is cut open once it is faced: it begins on the edge of the piece and stops at its last mark.
    """

    id: str
    label: str
    stage: str
    line: tuple[Point, ...]
    marks: tuple[GuideMark, ...]
    says: str = ""
    beside: tuple[str, str] = ("", "")
    cut: bool = False


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of cloth: its edges once round, open from fold to fold when it lies on the fold.

    Every place counts from the origin, the piece's 0. That is the fold at the top of the cut line, or a place farther
    up the line of the fold, off the piece, from which the tape is swung.
    `levels` stand from the top down; construction points are measured from `zero`, mm below the origin on the cloth.
    `clips` are places on the cut line where the allowance is snipped, each followed by its point on the stitch line.
    `trim` holds four points of a slanted edge on the opened-out piece, from the high side to the low one: x positive
    towards the lower side, y from the origin; `trim_words` is what that edge is called in a sentence ("neck"),
    `trim_side` its lower side, the wearer's left or right, and
    `worn_behind` says that the piece covers the wearer's back. `stages` are the stages of chalking in their order,
    `parts` the parts of the outline once round from the first anchor, `guides` the lines that are chalked inside it.
    `fine` says that all its readings are in the finest steps of the tape, whatever step was chosen.
    `straight` is what the line is called that "across" counts from where that is no fold. `written` are the levels, mm
    down, near which its name and its grain are written; None where any place will do. `reaches` names the part that
    reaches farthest across ("sleeve"), where that is not the piece itself. `other_cloth` is what it is cut of ("rib")
    where that is not the cloth of the garment: it is chalked like any piece, but not laid with the others. One that
    does not stretch (`stretches`) is of woven cloth, and has no direction of most stretch.
    """

    name: str
    label: str
    cut: int
    on_fold: bool
    edges: tuple[Edge, ...]
    cut_line: tuple[Point, ...]
    levels: tuple[Level, ...]
    anchors: tuple[Anchor, ...]
    notches: tuple[Notch, ...]
    clips: tuple[tuple[Point, Point], ...] = ()
    slit: Slit | None = None
    trim: tuple[Point, ...] = ()
    trim_side: str = ""
    trim_words: str = "edge"
    stages: tuple[Stage, ...] = ()
    parts: tuple[Part, ...] = ()
    guides: tuple[Guide, ...] = ()
    straightedges: tuple[Straightedge, ...] = ()
    straight: str = "the straight edge"
    worn_behind: bool = False
    zero: float = 0.0
    written: tuple[float, float] | None = None
    reaches: str = ""
    fine: bool = False
    other_cloth: str = ""
    stretches: bool = True

    def level(self, key: str) -> float:
        """How far down a level lies on the cloth as cut, mm."""
        return next(level.down for level in self.levels if level.key == key)

    def edge(self, name: str) -> Edge:
        """An edge by its name."""
        return next(edge for edge in self.edges if edge.name == name)

    @property
    def stitch_line(self) -> tuple[Point, ...]:
        """The stitch line flattened to within 0.05 mm, from the top of the fold round to its end."""
        points: list[Point] = []
        for edge in self.edges:
            run = edge.stitch.flatten(0.05)
            points.extend(run[1:] if points else run)
        if not self.on_fold and points[0].distance(points[-1]) < 1e-6:
            points.pop()  # a closed line does not repeat its first point, as the cut line does not
        return tuple(points)

    @property
    def slit_down(self) -> float:
        """How far a cut down the fold runs below the stitching line that it begins at, mm; 0 where there is none."""
        cuts = [guide.marks[-1].inner.y for guide in self.guides if guide.cut]
        return max(cuts) - self.edges[0].stitch.start.y if cuts else 0.0

    @property
    def width(self) -> float:
        """Widest reach of the cut line across from the fold, mm."""
        return max(point.x for point in self.cut_line)

    @property
    def height(self) -> float:
        """Deepest reach of the cut line down from the origin, mm."""
        return max(point.y for point in self.cut_line)

    @property
    def top(self) -> float:
        """Highest reach of the cut line, mm down from the origin: 0 but where the origin lies off the piece."""
        return min(point.y for point in self.cut_line)

    @property
    def long(self) -> float:
        """What the piece takes of the cloth from its top to its foot, mm."""
        return self.height - self.top

    @property
    def starts_off(self) -> bool:
        """Whether its 0 lies off the piece, farther up the line of the fold."""
        return self.top > 1e-6


@dataclass(frozen=True, slots=True)
class FinishedFigure:
    """A place or length of the sewn garment that is no girth: `label` says what and from where, `value` is in mm."""

    at: str
    label: str
    value: float


def counted(piece: Piece) -> str:
    """A number and the piece: "1 front", "2 lower sleeves", "2 cuffs of rib"."""
    many = f"{piece.cut} {lower_first(piece.label)}{'s' if piece.cut > 1 else ''}"
    return f"{many} of {piece.other_cloth}" if piece.other_cloth else many


def of_the_cloth(pieces: Iterable[Piece]) -> tuple[Piece, ...]:
    """The pieces that are cut of the garment's own cloth, and so are laid on it."""
    return tuple(piece for piece in pieces if not piece.other_cloth)
