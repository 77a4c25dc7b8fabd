"""A hood: two mirrored halves that are sewn together over the crown and to the neck, with a straight face edge.

Finished axes of a half: the face edge is x = 0, the back lies to its right; y down from the level at which the back of
the hood meets the neck, millimetres. The neck edge is half the neckline, level at both ends and lower in front; the
back leaves it square, is widest at half the height, and the crown arrives square to the face edge.

What says nothing else is our choice, held against the reference figures of a median woman and man and a child of 8.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.contract.cutting import CutOut, FinishedEdge, anchors, cut_out
from drafting.contract.girths import Along, FinishedGirth, Passes, SumOf
from drafting.contract.pieces import AnchorKind, FinishedFigure, Level, Notch, Part, Piece, Stage
from drafting.contract.seams import EdgeRun, Seam, plain_seam
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Cubic, Line
from drafting.geometry.solve import crossing_value
from drafting.parts.notches import level_with, notch_at
from drafting.person.measures import Body
from drafting.person.passing import head_needs

HOOD: Final = "hood"
#: Height and depth as shares of the head, and × scale (common practice, from memory: 33–37 cm and 23–27 cm); the depth
#: is at least so much more than the neck edge, mm.
HEIGHT: Final = (0.58, 30.0)
DEPTH: Final = (0.42, 20.0)
DEEPER_THAN_NECK: Final = 10.0
#: In front the neck edge lies this × scale lower than behind; the crown arrives this × scale below its full height,
#: else it runs to a beak.
LOWER_IN_FRONT: Final = 30.0
CROWN_LOWER: Final = 10.0
#: Handles: of the neck edge as a share of its width, of the back as a share of half the height, of the crown.
NECK_HANDLE, BACK_HANDLE, CROWN_HANDLE = 0.45, 0.45, 0.81
#: The face edge is turned in by this. Common practice, no source.
FACE_ALLOWANCE: Final = 30.0
#: The crown seam has the allowance of a seam. Common practice, no source.
CROWN_ALLOWANCE: Final = 10.0
#: Both face edges together are at least this longer than the head.
FACE_ROOM: Final = 100.0
#: Each end of a cord hangs down from the face edge by this, and its holes lie so far above the neck seam.
CORD_END: Final = 250.0
CORD_HOLES: Final = 20.0
#: The last of a neck edge and of a crown is straight by this, so that their cut edges run on square to the face.
STRAIGHT_END: Final = 2.0
#: The width of a hood is solved to this, mm.
ACCURACY: Final = 1e-3

STAGES: Final[tuple[Stage, ...]] = (
    Stage("levels", "Levels"),
    Stage("corners", "Corners"),
    Stage("neck", "Neck edge"),
    Stage("crown", "Back and crown"),
)
PARTS: Final[tuple[Part, ...]] = (
    Part("hood_neck_back", "hood_neck_curve", "neck edge", "neck"),
    Part("hood_neck_front", "hood_face_curve", "face edge", "corners"),
    Part("hood_top", "hood_crown_curve", "crown", "crown"),
    Part("hood_wide", "hood_back_curve", "back of the hood", "crown"),
)


@dataclass(frozen=True, slots=True)
class Hood:
    """A hood, finished: half the neckline that it is sewn to, its height and depth, its width at the neck, mm.

    `drop` is how much lower its neck edge lies in front, `crown_lower` how much lower than its height its crown
    arrives at the face; `to_shoulder` is half the back neck, `allowance` lies along its neck edge.
    """

    neck: float
    height: float
    depth: float
    width: float
    drop: float
    crown_lower: float
    to_shoulder: float
    allowance: float
    corded: bool

    @property
    def face(self) -> float:
        """Length of the face edge of a half."""
        return self.height - self.crown_lower + self.drop

    @property
    def neck_edge(self) -> Path:
        """The neck edge from the centre back to the face."""
        return _neck_edge(self.width, self.drop)

    @property
    def crown(self) -> Path:
        """The seam from the face over the crown and down the back to the neck."""
        middle, top = -self.height / 2, self.crown_lower - self.height
        rise = middle - top
        wide, end = Point(self.depth, middle), Point(self.width, 0.0)
        first = Point(STRAIGHT_END, top)
        before = Point(self.depth, middle - CROWN_HANDLE * rise)
        over = Cubic(first, Point(CROWN_HANDLE * self.depth, top), before, wide)
        reach = BACK_HANDLE * self.height / 2
        down = Cubic(wide, wide + Point(0.0, reach), end - Point(0.0, reach), end)
        return Path((Line(Point(0.0, top), first), over, down))


def _neck_edge(width: float, drop: float) -> Path:
    """A neck edge so wide, level at both ends, from the back down to the front; its last is straight."""
    reach, last = NECK_HANDLE * width, Point(STRAIGHT_END, drop)
    curve = Cubic(Point(width, 0.0), Point(width - reach, 0.0), Point(reach, drop), last)
    return Path((curve, Line(last, Point(0.0, drop))))


def hood_of(body: Body, ring: float, back: float, allowance: float, *, corded: bool = False) -> Hood:
    """The hood of a neckline of the length `ring`, of which half the back is `back`, mm.

    Its width is solved so that its neck edge is as long as half the neckline.
    """
    grown, half = sources.scale(body.stature), ring / 2
    drop = LOWER_IN_FRONT * grown
    width = crossing_value(lambda wide: _neck_edge(wide, drop).length() - half, 0.3 * half, half, ACCURACY)
    height, depth = (share * body.head_girth + more * grown for share, more in (HEIGHT, DEPTH))
    return Hood(
        half, height, max(depth, half + DEEPER_THAN_NECK), width, drop, CROWN_LOWER * grown, back,
        allowance, corded,
    )  # fmt: skip


def hood_piece(hood: Hood, cloth: ClothFacts) -> Piece:
    """One half as it is cut, from its neck edge round."""
    crown, neck = hood.crown, hood.neck_edge
    edges = [
        FinishedEdge("hood_neck", neck, hood.allowance, label="neck edge of the hood"),
        FinishedEdge(
            "hood_face", Path((Line(neck.end, crown.start),)), FACE_ALLOWANCE, turned=True,
            label="face edge of the hood",
            points=(("start", "both face edges come down to one place at the centre front"),),
        ),
        FinishedEdge("hood_crown", crown, CROWN_ALLOWANCE, label="crown of the hood"),
    ]  # fmt: skip
    cut = cut_out(edges, cloth.shrink_across, cloth.shrink_along, closed=True)
    wide = cut.place(Point(hood.depth, -hood.height / 2))
    notches = _notches(hood, cut)
    neck_front, top, neck_back = cut.corners
    wanted: list[tuple[str, str, AnchorKind, str, Point]] = [
        ("hood_neck_back", "neck at the centre back", "corner", "corners", neck_back),
        ("hood_neck_front", "neck at the face", "corner", "corners", neck_front),
        ("hood_top", "crown at the face", "corner", "corners", top),
        ("hood_wide", "widest place of the back", "level", "corners", level_with(cut, wide.y, notches[1].outer)),
    ]
    levels = (
        Level("hood_wide", "widest", wide.y, ruled=True, width=True),
        Level("hood_neck", "back of the neck", cut.place(Point(0.0, 0.0)).y, ruled=True),
    )
    return Piece(
        HOOD, "Hood", 2, False, cut.edges, cut.line, levels, anchors(cut.line, wanted), notches, stages=STAGES,
        parts=PARTS, straight="the cut edge of the face", zero=levels[1].down, fine=True,
    )  # fmt: skip


def _notches(hood: Hood, cut: CutOut) -> tuple[Notch, ...]:
    """The shoulder on the neck edge, and the widest place on the crown seam."""
    shoulder = hood.neck_edge.at_length(hood.to_shoulder)[0]
    return (
        notch_at(cut, "hood_neck", "hood_shoulder", "shoulder", shoulder),
        notch_at(cut, "hood_crown", "hood_wide", "widest place", Point(hood.depth, -hood.height / 2)),
    )


def hood_seams(hood: Hood | None, neck: Sequence[EdgeRun]) -> tuple[Seam, ...]:
    """The crown, and the neck edge of a half to half the neck, from the centre back to the shoulder and to the front.

    The hood is curved otherwise than the neck, so they are compared after the wash.
    """
    if hood is None:
        return ()
    return (
        plain_seam((HOOD, "hood_crown"), (HOOD, "hood_crown")),
        Seam((EdgeRun(HOOD, "hood_neck"),), tuple(neck), washed=True),
    )


def hood_girths(hood: Hood | None, body: Body, cloth: ClothFacts) -> list[FinishedGirth]:
    """The neck edge of both halves, which the head passes, and both face edges."""
    if hood is None:
        return []
    neck = SumOf(((2.0, Along(HOOD, ("hood_neck_back", "hood_neck_front"))),))
    return [
        FinishedGirth("hood_neck", "neck edge of the hood", 2 * hood.neck, body.neck_girth, chalked=neck,
                      worn_stretched=False, passes=Passes("head", head_needs(body), cloth.across)),
    ]  # fmt: skip


def hood_figures(hood: Hood | None) -> list[FinishedFigure]:
    """How high and how deep it is, and how long its edges are."""
    if hood is None:
        return []
    return [
        FinishedFigure("hood_height", "height of the hood", hood.height),
        FinishedFigure("hood_depth", "depth of the hood", hood.depth),
        FinishedFigure("hood_crown", "crown seam of the hood", hood.crown.length()),
        FinishedFigure("hood_face", "face edges of the hood, both together", 2 * hood.face),
    ]


def hood_facts(hood: Hood | None) -> dict[str, float]:
    """What is judged of it, mm; nothing where there is none."""
    return {} if hood is None else {"hood_face": 2 * hood.face}
