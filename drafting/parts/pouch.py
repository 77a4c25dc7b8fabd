"""A front pouch: a pocket on the front with a slanted opening at either side, cut on the fold and sewn onto the front.

Body axes, finished: x across from the fold, y down from the side-neck level, millimetres. Its shares of the quarter at
the bust and of the hand are our choice.
"""

import math
from dataclasses import dataclass, replace
from typing import Final, Literal

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.contract.after_cut import SewStep
from drafting.contract.cutting import FinishedEdge, anchors, cut_out
from drafting.contract.fields import Field, Option
from drafting.contract.pieces import AnchorKind, FinishedFigure, Guide, GuideMark, Piece, Stage
from drafting.contract.seams import SetOn
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Line
from drafting.parts.reading import StyleReader
from drafting.parts.sewing import Say
from drafting.person.measures import Body

POUCH: Final = "pouch"
PouchChoice = Literal["none", "front"]
#: Half its width at the foot and at the top, as shares of the quarter at the bust; its height as a share of the hand.
FOOT, TOP, HEIGHT = 0.66, 0.40, 1.15
#: The opening ends this share of the height below the top, or lower where the hand needs it: half the hand and this.
OPENING_ENDS: Final = 0.7
OPENING_ROOM: Final = 45.0
#: It is warned of an opening of less than half the hand and this.
OPENING_LEAST: Final = 35.0
#: Its foot lies this × scale above the hem, and at most this share of its height below the waist; below the waist lies
#: at least so much of its height.
ABOVE_HEM: Final = 40.0
BELOW_WAIST: Final = 0.8
BELOW_WAIST_LEAST: Final = 0.4
#: All its edges are turned in by this. Common practice, no source.
ALLOWANCE: Final = 10.0
STAGE: Final = Stage("pouch", "Pouch")
STAGES: Final = (Stage("levels", "Height"), Stage("widths", "Corners"))


@dataclass(frozen=True, slots=True)
class Pouch:
    """Half a pouch: its corners from the top at the fold round to the foot at the fold."""

    corners: tuple[Point, Point, Point, Point, Point]

    @property
    def height(self) -> float:
        """How high it is at the fold."""
        return self.corners[4].y - self.corners[0].y

    @property
    def opening(self) -> float:
        """How long its slanted edge is."""
        return self.corners[1].distance(self.corners[2])

    @property
    def set_on(self) -> tuple[SetOn, ...]:
        """Where it is sewn onto the front."""
        return (SetOn(POUCH, "front", "pouch_line"),)


def read_pouch(read: StyleReader, asked: PouchChoice, body: Body, hem: float) -> bool:
    """Whether there is a pouch; refused where the garment ends so high (`hem`) that it would lie on the chest."""
    if asked == "none":
        return False
    waist = body.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK
    foot = hem - ABOVE_HEM * sources.scale(body.stature)
    if foot < waist + BELOW_WAIST_LEAST * HEIGHT * body.hand_girth - 1e-6:
        read.refuse("pouch", "it is too short for a pouch", "choose a longer one, or no pouch")
    return True


def pouch_of(body: Body, quarter: float, waist: float, hem: float) -> Pouch:
    """The pouch of a front of this quarter at the bust, with its waist and its hem at these levels."""
    grown, height = sources.scale(body.stature), HEIGHT * body.hand_girth
    foot = min(hem - ABOVE_HEM * grown, waist + BELOW_WAIST * height)
    top, wide, narrow = foot - height, FOOT * quarter, TOP * quarter
    needed = body.hand_girth / 2 + OPENING_ROOM
    down = max(OPENING_ENDS * height, math.sqrt(max(0.0, needed**2 - (wide - narrow) ** 2)))
    ends = Point(wide, min(top + down, foot - ALLOWANCE))
    return Pouch((Point(0.0, top), Point(narrow, top), ends, Point(wide, foot), Point(0.0, foot)))


def pouch_piece(pouch: Pouch, cloth: ClothFacts) -> Piece:
    """The pouch as it is cut, on the fold."""
    named = (("pouch_top", "top of the pouch"), ("pouch_opening", "opening of the pouch"),
             ("pouch_side", "side of the pouch"), ("pouch_foot", "foot of the pouch"))  # fmt: skip
    edges = [
        FinishedEdge(name, Path((Line(start, end),)), ALLOWANCE, turned=True, label=label)
        for (name, label), start, end in zip(named, pouch.corners, pouch.corners[1:], strict=False)
    ]
    cut = cut_out(edges, cloth.shrink_across, cloth.shrink_along)
    wanted: list[tuple[str, str, AnchorKind, str, Point]] = [
        ("pouch_top", "top at the fold", "fold", "levels", cut.line[0]),
        ("pouch_top_corner", "top of the opening", "corner", "widths", cut.corners[0]),
        ("pouch_side", "end of the opening", "corner", "widths", cut.corners[1]),
        ("pouch_foot_corner", "foot at the side", "corner", "widths", cut.corners[2]),
        ("pouch_foot", "foot at the fold", "fold", "levels", cut.line[-1]),
    ]
    return Piece(POUCH, "Pouch", 1, True, cut.edges, cut.line, (), anchors(cut.line, wanted), (), stages=STAGES,
                 zero=cut.place(Point(0.0, 0.0)).y, fine=True)  # fmt: skip


def with_pouch(front: Piece, pouch: Pouch | None, cloth: ClothFacts) -> Piece:
    """The front with the line on which its pouch is laid."""
    if pouch is None:
        return front
    across, down = 1 / (1 - cloth.shrink_across), 1 / (1 - cloth.shrink_along)
    places = [Point(corner.x * across, corner.y * down + front.zero) for corner in pouch.corners]
    named = (("pouch_at_top", "top of the pouch at the fold"), ("pouch_at_top_corner", "top of the opening"),
             ("pouch_at_side", "end of the opening"), ("pouch_at_foot_corner", "foot of the pouch at the side"),
             ("pouch_at_foot", "foot of the pouch at the fold"))  # fmt: skip
    marks = tuple(
        GuideMark(id, label, "fold" if abs(place.x) < 1e-6 else "guide", place, place)
        for (id, label), place in zip(named, places, strict=True)
    )
    says = (
        "The pouch is laid on this line, its edges turned in. From {pouch_at_top_corner} to {pouch_at_side} it stays "
        "open."
    )
    line = Guide("pouch_line", "pouch line", STAGE.key, tuple(places), marks, says)
    return replace(front, guides=(*front.guides, line), stages=(*front.stages, STAGE))


def pouch_figures(pouch: Pouch | None) -> list[FinishedFigure]:
    """How high it is, and how long each opening."""
    if pouch is None:
        return []
    return [
        FinishedFigure("pouch_height", "height of the pouch", pouch.height),
        FinishedFigure("pouch_opening", "each opening of the pouch", pouch.opening),
    ]


def pouch_facts(pouch: Pouch | None) -> dict[str, float]:
    """What is judged of it, mm; nothing where there is none."""
    return {} if pouch is None else {"pouch_opening": pouch.opening}


def pouch_sewn(pouch: Pouch | None, say: Say) -> list[SewStep]:
    """The pouch, sewn on while the front still lies flat."""
    if pouch is None:
        return []
    says = (
        f"Turn the slanted openings in by {say(ALLOWANCE)} and sew them down with a stitch that stretches, an elastic "
        "or a strip of the selvage laid in. Then press the other edges in, lay the pouch on its line on the right side "
        "of the front, and sew it on along its top, its sides and its foot. Sew both ends of each opening over twice."
    )
    return [SewStep("pouch", "Pouch", says)]


POUCH_FIELD: Final = Field(
    "pouch", "choice", "Pouch", (Option("none", "None"), Option("front", "On the front")), lambda chosen: "none"
)
