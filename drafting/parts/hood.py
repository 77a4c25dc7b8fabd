"""A hood: two mirrored halves that are sewn together over the crown and to the neck, with a straight face edge.

A strip may lie between the halves, from the face over the crown to the neck; each half then ends half of it earlier, at
the crown as at the back. A lining is the same pieces once more, of another cloth, sewn to the hood along the face.

Finished axes of a half: the face edge is x = 0, the back lies to its right; y down from the level at which the back of
the hood meets the neck, millimetres. The neck edge is half the neckline, level at both ends and lower in front; the
back leaves it square, is widest at half the height, and the crown arrives square to the face edge.

What says nothing else is our choice, held against the reference figures of a median woman and man and a child of 8.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
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
from drafting.sentences import lower_first

HOOD: Final = "hood"
STRIP: Final = "hood_strip"
LINING: Final = "hood_lining"
LINING_STRIP: Final = "hood_lining_strip"
#: What a lining is cut of: it has to give as far as the cloth, and the hood with it inside should not be heavy. Common
#: practice, no source.
LINING_CLOTH: Final = "thin jersey"
#: How wide a strip is × scale, and at least and at most. Common practice, from memory: 8 to 12 cm.
STRIP_WIDE: Final = 100.0
STRIP_LIMITS: Final = (80.0, 120.0)
#: So much of half the back neck is left to each half beside a strip, which is narrower where there is less. Our choice.
BESIDE_STRIP: Final = 15.0
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
#: The crown seam has the allowance of a seam, and so has a face edge that is lined. Common practice, no source.
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

STRIP_STAGES: Final[tuple[Stage, ...]] = (Stage("levels", "Length"), Stage("corners", "Corners"))
STAGES: Final[tuple[Stage, ...]] = (
    Stage("levels", "Levels"),
    Stage("corners", "Corners"),
    Stage("neck", "Neck edge"),
    Stage("crown", "Back and crown"),
)


@dataclass(frozen=True, slots=True)
class Hood:
    """A hood, finished: half the neckline it is sewn to, its height and depth, the width of a half at the neck, mm.

    `drop` is how much lower its neck edge lies in front, `crown_lower` how much lower than its height its crown
    arrives at the face; `to_shoulder` is half the back neck, `allowance` lies along its neck edge. `strip` is how wide
    the strip between its halves is, 0 where there is none.
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
    strip: float = 0.0
    lined: bool = False

    @property
    def half_neck(self) -> float:
        """Length of the neck edge of a half: half the neckline, less its half of the strip."""
        return self.neck - self.strip / 2

    @property
    def half_height(self) -> float:
        """Height of a half; the strip makes up what is missing."""
        return self.height - self.strip / 2

    @property
    def half_depth(self) -> float:
        """Depth of a half; the strip makes up what is missing."""
        return self.depth - self.strip / 2

    @property
    def face(self) -> float:
        """Length of the face edge of a half."""
        return self.half_height - self.crown_lower + self.drop

    @property
    def face_ring(self) -> float:
        """Both face edges together, with the end of the strip."""
        return 2 * self.face + self.strip

    @property
    def face_allowance(self) -> float:
        """What lies along the face edge: it is turned in, or sewn to that of the lining."""
        return CROWN_ALLOWANCE if self.lined else FACE_ALLOWANCE

    @property
    def widest(self) -> Point:
        """The widest place of the back of a half."""
        return Point(self.half_depth, -self.half_height / 2)

    @property
    def neck_edge(self) -> Path:
        """The neck edge from the centre back to the face."""
        return _neck_edge(self.width, self.drop)

    @property
    def crown(self) -> Path:
        """The seam from the face over the crown and down the back to the neck."""
        wide, end, top = self.widest, Point(self.width, 0.0), self.crown_lower - self.half_height
        rise = wide.y - top
        first = Point(STRAIGHT_END, top)
        before = Point(wide.x, wide.y - CROWN_HANDLE * rise)
        over = Cubic(first, Point(CROWN_HANDLE * wide.x, top), before, wide)
        reach = BACK_HANDLE * self.half_height / 2
        down = Cubic(wide, wide + Point(0.0, reach), end - Point(0.0, reach), end)
        return Path((Line(Point(0.0, top), first), over, down))


def _neck_edge(width: float, drop: float) -> Path:
    """A neck edge so wide, level at both ends, from the back down to the front; its last is straight."""
    reach, last = NECK_HANDLE * width, Point(STRAIGHT_END, drop)
    curve = Cubic(Point(width, 0.0), Point(width - reach, 0.0), Point(reach, drop), last)
    return Path((curve, Line(last, Point(0.0, drop))))


def hood_of(
    body: Body, ring: float, back: float, allowance: float, *, corded: bool = False, strip: bool = False,
    lined: bool = False,
) -> Hood:  # fmt: skip
    """The hood of a neckline of the length `ring`, of which half the back is `back`, mm.

    The width of a half is solved so that both, with the strip between them, are as long as the neckline.
    """
    grown, half = sources.scale(body.stature), ring / 2
    least, most = STRIP_LIMITS
    between = min(max(least, STRIP_WIDE * grown), most, 2 * (back - BESIDE_STRIP)) if strip else 0.0
    drop, own = LOWER_IN_FRONT * grown, half - between / 2
    width = crossing_value(lambda wide: _neck_edge(wide, drop).length() - own, 0.3 * own, own, ACCURACY)
    height, depth = (share * body.head_girth + more * grown for share, more in (HEIGHT, DEPTH))
    return Hood(
        half, height, max(depth, half + DEEPER_THAN_NECK), width, drop, CROWN_LOWER * grown, back,
        allowance, corded, between, lined,
    )  # fmt: skip


def hood_pieces(hood: Hood | None, cloth: ClothFacts) -> tuple[Piece, ...]:
    """The halves, the strip between them where there is one, and both once more for a lining."""
    if hood is None:
        return ()
    own = [_half(hood, cloth, HOOD, "Hood")]
    own += [_strip(hood, cloth, STRIP, "Hood strip")] if hood.strip else []
    if hood.lined:
        lining = [_half(hood, cloth, LINING, "Hood lining")]
        lining += [_strip(hood, cloth, LINING_STRIP, "Lining strip")] if hood.strip else []
        own += [replace(piece, other_cloth=LINING_CLOTH) for piece in lining]
    return tuple(own)


def _half(hood: Hood, cloth: ClothFacts, name: str, label: str) -> Piece:
    """One half as it is cut, from its neck edge round."""
    crown, neck, said = hood.crown, hood.neck_edge, lower_first(label)
    edges = [
        FinishedEdge(f"{name}_neck", neck, hood.allowance, label=f"neck edge of the {said}"),
        FinishedEdge(
            f"{name}_face", Path((Line(neck.end, crown.start),)), hood.face_allowance, turned=not hood.lined,
            label=f"face edge of the {said}",
            points=(("start", "both face edges come down to one place at the centre front"),),
        ),
        FinishedEdge(f"{name}_crown", crown, CROWN_ALLOWANCE, label=f"crown of the {said}"),
    ]  # fmt: skip
    cut = cut_out(edges, cloth.shrink_across, cloth.shrink_along, closed=True)
    wide = cut.place(hood.widest)
    notches = _notches(hood, cut, name)
    neck_front, top, neck_back = cut.corners
    wanted: list[tuple[str, str, AnchorKind, str, Point]] = [
        (
            f"{name}_neck_back",
            "neck at the strip" if hood.strip else "neck at the centre back",
            "corner",
            "corners",
            neck_back,
        ),
        (f"{name}_neck_front", "neck at the face", "corner", "corners", neck_front),
        (f"{name}_top", "crown at the face", "corner", "corners", top),
        (f"{name}_wide", "widest place of the back", "level", "corners", level_with(cut, wide.y, notches[1].outer)),
    ]
    levels = (
        Level("hood_wide", "widest place", wide.y, ruled=True, width=True),
        Level("hood_neck", "back of the neck", cut.place(Point(0.0, 0.0)).y, ruled=True),
    )
    return Piece(
        name, label, 2, False, cut.edges, cut.line, levels, anchors(cut.line, wanted), notches, stages=STAGES,
        parts=_parts(name), straight="the cut edge of the face", zero=levels[1].down, fine=True,
    )  # fmt: skip


def _parts(name: str) -> tuple[Part, ...]:
    """What the curve points of a half are called."""
    return (
        Part(f"{name}_neck_back", f"{name}_neck_curve", "neck edge", "neck"),
        Part(f"{name}_neck_front", f"{name}_face_curve", "face edge", "corners"),
        Part(f"{name}_top", f"{name}_crown_curve", "crown", "crown"),
        Part(f"{name}_wide", f"{name}_back_curve", "back of the hood", "crown"),
    )


def _notches(hood: Hood, cut: CutOut, name: str) -> tuple[Notch, ...]:
    """The shoulder on the neck edge, and the widest place on the crown seam."""
    shoulder = hood.neck_edge.at_length(hood.to_shoulder - hood.strip / 2)[0]
    return (
        notch_at(cut, f"{name}_neck", "hood_shoulder", "shoulder", shoulder),
        notch_at(cut, f"{name}_crown", "hood_wide", "widest place", hood.widest),
    )


def _strip(hood: Hood, cloth: ClothFacts, name: str, label: str) -> Piece:
    """The strip between the halves, on the fold, its face end at the top."""
    half, long, said = hood.strip / 2, hood.crown.length(), lower_first(label)
    corners = (Point(0.0, 0.0), Point(half, 0.0), Point(half, long), Point(0.0, long))
    ends = [Path((Line(start, end),)) for start, end in pairwise(corners)]
    edges = [
        FinishedEdge(
            f"{name}_face", ends[0], hood.face_allowance, turned=not hood.lined, label=f"face end of the {said}"
        ),
        FinishedEdge(f"{name}_side", ends[1], CROWN_ALLOWANCE, label=f"side of the {said}"),
        FinishedEdge(f"{name}_neck", ends[2], hood.allowance, label=f"neck end of the {said}"),
    ]
    cut = cut_out(edges, cloth.shrink_across, cloth.shrink_along)
    down_to_widest = sum(segment.length() for segment in hood.crown.segments[:-1])
    notches = (
        notch_at(cut, f"{name}_side", "hood_wide", "widest place", Point(half, down_to_widest)),
        notch_at(cut, f"{name}_neck", "hood_centre", "centre back", Point(0.0, long)),
    )
    wanted: list[tuple[str, str, AnchorKind, str, Point]] = [
        (f"{name}_top", "face end at the fold", "fold", "levels", cut.line[0]),
        (f"{name}_top_corner", "corner of the face end", "corner", "corners", cut.corners[0]),
        (f"{name}_foot_corner", "corner of the neck end", "corner", "corners", cut.corners[1]),
        (f"{name}_foot", "neck end at the fold", "fold", "levels", cut.line[-1]),
    ]
    return Piece(
        name, label, 1, True, cut.edges, cut.line, (), anchors(cut.line, wanted), notches, stages=STRIP_STAGES,
        zero=cut.place(Point(0.0, 0.0)).y, fine=True,
    )  # fmt: skip


def hood_seams(hood: Hood | None, neck: Sequence[EdgeRun]) -> tuple[Seam, ...]:
    """The crown, the face where it is lined, and the neck edges to half the neck, from the centre back to the front.

    The hood is curved otherwise than the neck, and than the strip, so they are compared after the wash.
    """
    if hood is None:
        return ()
    names = [(HOOD, STRIP), (LINING, LINING_STRIP)][: 2 if hood.lined else 1]
    crowns, necks = list[Seam](), list[Seam]()
    for half, strip in names:
        crown, own = EdgeRun(half, f"{half}_crown"), (EdgeRun(half, f"{half}_neck"),)
        beside = EdgeRun(strip, f"{strip}_side") if hood.strip else crown
        crowns.append(Seam((crown,), (beside,), washed=bool(hood.strip)))
        ahead = (EdgeRun(strip, f"{strip}_neck", backwards=True),) if hood.strip else ()
        necks.append(Seam((*ahead, *own), tuple(neck), washed=True))
    faces = [plain_seam((HOOD, f"{HOOD}_face"), (LINING, f"{LINING}_face"))] if hood.lined else []
    if hood.lined and hood.strip:
        faces.append(plain_seam((STRIP, f"{STRIP}_face"), (LINING_STRIP, f"{LINING_STRIP}_face")))
    return (*crowns, *faces, *necks)


def hood_girths(hood: Hood | None, body: Body, cloth: ClothFacts) -> list[FinishedGirth]:
    """The neck edge of both halves, which the head passes, and both face edges."""
    if hood is None:
        return []
    runs = [(2.0, Along(HOOD, ("hood_neck_back", "hood_neck_front")))]
    if hood.strip:
        runs.append((2.0, Along(STRIP, (f"{STRIP}_foot_corner", f"{STRIP}_foot"))))
    neck = SumOf(tuple(runs))
    return [
        FinishedGirth("hood_neck", "neck edge of the hood", 2 * hood.neck, body.neck_girth, chalked=neck,
                      worn_stretched=False, passes=Passes("head", head_needs(body), cloth.across)),
    ]  # fmt: skip


def hood_figures(hood: Hood | None) -> list[FinishedFigure]:
    """How high and how deep it is, and how long its edges are."""
    if hood is None:
        return []
    found = [
        FinishedFigure("hood_height", "height of the hood", hood.height),
        FinishedFigure("hood_depth", "depth of the hood", hood.depth),
        FinishedFigure("hood_crown", "crown seam of the hood", hood.crown.length()),
        FinishedFigure("hood_face", "face edges of the hood, both together", hood.face_ring),
    ]
    return [*found, FinishedFigure("hood_strip", "width of the strip of the hood", hood.strip)] if hood.strip else found


def hood_facts(hood: Hood | None) -> dict[str, float]:
    """What is judged of it, mm; nothing where there is none."""
    return {} if hood is None else {"hood_face": hood.face_ring}
