"""Pockets let into a seam: it stays open between two notches, and a bag lies on the edge of either side.

The side of a bag is a copy of its host's edge, so that it moves with it. Millimetres, finished; y down, and x across
from the middle of the body, so that the side of the host lies to the right. What says nothing else is our choice.
"""

from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.contract.after_cut import SewStep, ToBuy
from drafting.contract.cutting import CutOut, FinishedEdge, anchors, cut_out
from drafting.contract.pieces import AnchorKind, FinishedFigure, Notch, Part, Piece, Stage
from drafting.contract.seams import EdgeRun, LetIn, Seam
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Cubic, Line, Segment
from drafting.parts.notches import notch_at
from drafting.parts.sewing import Say
from drafting.person.measures import Body

BAG: Final = "pocket_bag"
SIDE = "bag_side"
#: Its other edges, from its top at the side round to its foot there, with what they are called.
ROUND: Final = (("bag_top", "top of the pocket bag"), ("bag_outer", "outer edge of the pocket bag"),
                ("bag_foot", "foot of the pocket bag"))  # fmt: skip
BEGINS, ENDS = "pocket_begins", "pocket_ends"
#: They have the allowance of a seam. Common practice, no source.
ALLOWANCE: Final = 10.0
#: A notch of the pocket lies no nearer than this to one that marks the hip, mm: those of a double notch lie so near.
CLEAR: Final = 15.0
STAGES: Final = (Stage("levels", "Levels"), Stage("corners", "Corners"), Stage("side", "Side"))
PARTS: Final = (
    Part("bag_top", "bag_edge", "edge of the bag", "corners"),
    Part("bag_foot", "bag_side_curve", "side of the bag", "side"),
)
#: What "across" counts from: the side of a bag slants or is curved.
BESIDE: Final = "the line beside the piece"


def opening_of(body: Body) -> float:
    """How long an opening is."""
    grown = min(1.0, sources.scale(body.stature) + sources.OPENING_CHILD)
    return body.hand_girth / 2 + sources.OPENING_ROOM * grown


def has_room(body: Body, waist: float, low: float) -> bool:
    """Whether an opening and the least of a bag find room between the waist and a lowest level."""
    grown = sources.scale(body.stature)
    needed = sources.POCKET_BELOW_WAIST * grown + opening_of(body) + sources.BAG_BELOW_LEAST * grown
    return low - waist >= needed - 1e-6


def lowest(hem: float, slit: float) -> float:
    """The lowest level of a bag above a hem and above the top of a slit so high, 0 where there is none."""
    return min(hem - sources.BAG_ABOVE_HEM, hem - slit - sources.BAG_ABOVE_SLIT if slit > 0 else hem)


@dataclass(frozen=True, slots=True)
class InSeam:
    """The bag of one pocket: the run of its host's side that it lies on, from its top to its foot.

    `begins` and `ends` are how far along that run the opening does; `width` is how wide the bag is, `allowance` that of
    the host's side.
    """

    side: Path
    begins: float
    ends: float
    width: float
    allowance: float

    @property
    def opening(self) -> float:
        """How long the opening is."""
        return self.ends - self.begins

    @property
    def height(self) -> float:
        """How high the bag is."""
        return self.side.end.y - self.side.start.y

    @property
    def marks(self) -> tuple[tuple[str, str, Point], ...]:
        """Both notches: their names, what they are called, and where they lie on the host."""
        return (
            (BEGINS, "top of the pocket opening", self.side.at_length(self.begins)[0]),
            (ENDS, "end of the pocket opening", self.side.at_length(self.ends)[0]),
        )

    @property
    def copied(self) -> Path:
        """The run turned over, as the bag has it: the bag lies to its right."""
        return Path(tuple(_turned_over(segment) for segment in self.side.segments))

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """From its top at the side round to its foot there. Top and foot are square to the side (CALC)."""
        side = self.copied
        top, foot = side.start, side.end
        wide = max(top.x, foot.x) + self.width
        ends = (top, side.segments[0].tangent(0.0).left()), (foot, side.segments[-1].tangent(1.0).left())
        upper, lower = (place + away * ((wide - place.x) / away.x) for place, away in ends)
        return top, upper, lower, foot


def _turned_over(segment: Segment) -> Segment:
    def over(place: Point) -> Point:
        return Point(-place.x, place.y)

    if isinstance(segment, Line):
        return Line(over(segment.start), over(segment.end))
    return Cubic(over(segment.start), over(segment.first), over(segment.second), over(segment.end))


def in_seam_of(body: Body, waist: float, low: float, side: Path, allowance: float, hip: float) -> InSeam:
    """The bag on a side that runs down from the waist, with its lowest level and the hip at these levels.

    An end of the opening that would lie beside the notch of the hip moves away from it, the shorter way.
    """
    grown = sources.scale(body.stature)
    level = max(waist + sources.POCKET_BELOW_WAIST * grown, side.start.y + CLEAR)
    opening, at_hip = opening_of(body), _along(side, hip)
    begins = _along(side, level)
    for end in (begins, begins + opening):
        if abs(end - at_hip) < CLEAR:
            begins += (at_hip - CLEAR - end) if end <= at_hip else (at_hip + CLEAR - end)
            break
    top = max(begins - sources.BAG_ABOVE * grown, 0.0)
    ends = begins + opening
    foot = min(ends + sources.BAG_BELOW * grown, _along(side, low))
    return InSeam(side.part(top, foot), begins - top, ends - top, sources.BAG_WIDE * grown, allowance)


def _along(side: Path, level: float) -> float:
    """How far along a side that runs down a level lies, mm."""
    far = 0.0
    for before, place in pairwise(side.flatten(0.005)):
        if place.y >= level:
            share = (level - before.y) / (place.y - before.y)
            return far + max(0.0, share) * before.distance(place)
        far += before.distance(place)
    return far


def in_seam_piece(bag: InSeam, cloth: ClothFacts) -> Piece:
    """A bag as it is cut, four times: two for either side."""
    corners = bag.corners
    edges = [
        FinishedEdge(name, Path((Line(start, end),)), ALLOWANCE, label=label)
        for (name, label), start, end in zip(ROUND, corners, corners[1:], strict=False)
    ]
    edges.append(FinishedEdge(SIDE, bag.copied.reversed(), bag.allowance, label="side of the pocket bag"))
    cut = cut_out(edges, cloth.shrink_across, cloth.shrink_along, closed=True)
    upper, lower, foot, top = cut.corners
    wanted: list[tuple[str, str, AnchorKind, str, Point]] = [
        ("bag_top", "top at the side", "corner", "corners", top),
        ("bag_upper", "outer top", "corner", "corners", upper),
        ("bag_lower", "outer foot", "corner", "corners", lower),
        ("bag_foot", "foot at the side", "corner", "corners", foot),
    ]
    return Piece(
        BAG, "Pocket bag", 4, False, cut.edges, cut.line, (), anchors(cut.line, wanted),
        tuple(_notch(cut, bag, *mark) for mark in bag.marks), stages=STAGES, parts=PARTS, straight=BESIDE,
        zero=cut.place(Point(0.0, 0.0)).y, fine=True, stretches=cloth.kind == "knit",
    )  # fmt: skip


def _notch(cut: CutOut, bag: InSeam, id: str, label: str, place: Point) -> Notch:
    return notch_at(cut, SIDE, id, label, Point(-place.x, place.y))


def in_seam_notches(bag: InSeam | None, cut: CutOut, edge: str) -> tuple[Notch, ...]:
    """Both notches on the side of a host."""
    if bag is None:
        return ()
    return tuple(notch_at(cut, edge, id, label, place) for id, label, place in bag.marks)


def let_in(hosts: tuple[str, ...], edge: str) -> tuple[LetIn, ...]:
    """A bag on this edge of each of the hosts."""
    return tuple(LetIn(BAG, SIDE, host, edge, BEGINS, ENDS) for host in hosts)


def in_seam_seam() -> Seam:
    """Bag to bag, from the side round to the side."""
    edges = tuple(EdgeRun(BAG, name) for name, _ in ROUND)
    return Seam(edges, edges)


def in_seam_figures(bag: InSeam) -> list[FinishedFigure]:
    """How long each opening is, and how large the bags."""
    return [
        FinishedFigure("pocket_opening", "each opening of the pockets in the sides", bag.opening),
        FinishedFigure("bag_height", "height of the pocket bags", bag.height),
        FinishedFigure("bag_width", "width of the pocket bags", bag.width),
    ]


def in_seam_sewn_on(bag: InSeam, say: Say) -> SewStep:
    """The bags, sewn to the sides while these lie open."""
    nearer = min(sources.BAG_SEWN_NEARER, bag.allowance / 2)
    says = (
        "Stay both sides of the front: sew a strip of the selvage or of tape onto the wrong side, on the seam line, "
        "from a little above the upper notch of the pocket to a little below the lower one. Lay a bag on each side of "
        "front and back, right sides together, cut edge on cut edge and notch on notch. Sew it on along its whole "
        f"side, {say(nearer)} outside the seam line, and press it outwards, over the allowance."
    )
    return SewStep("pockets", "Pocket bags", says)


#: What is said of the side seam that they lie in.
LEFT_OPEN: Final = (
    " Leave it open between the notches of the pockets, and sew back a few stitches at each. Above and below, fold the "
    "bags out of the way."
)


def in_seam_closed(say: Say) -> SewStep:
    """Bag to bag, once the sides are sewn."""
    says = (
        f"Sew the two bags of each side together by {say(ALLOWANCE)}, rounding both corners, from the side seam above "
        "to the side seam below, and neaten the edge. Turn them to the front, and bar both ends of each opening: a few "
        "close zigzag stitches across, through all layers."
    )
    return SewStep("bags", "Close the pocket bags", says)


def in_seam_bought(bag: InSeam) -> ToBuy:
    """What stays the openings."""
    return ToBuy("stay tape, for both pocket openings", 2 * (bag.opening + sources.OPENING_STAYED))
