"""Pockets let into a seam: it stays open between two notches, and a bag lies on the edge of either side.

The side of a bag is a copy of its host's edge, so that it moves with it. Where front and back have sides of different
shapes, each has a bag of its own. Millimetres, finished; y down, and x across as the host has it. What says nothing
else is our choice.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
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
from drafting.geometry.solve import crossing_value
from drafting.parts.notches import notch_at
from drafting.parts.sewing import Say
from drafting.person.measures import Body
from drafting.sentences import upper_first

BAG: Final = "pocket_bag"
SIDE = "bag_side"
#: Its other edges, from its top at the side round to its foot there, with what they are called.
ROUND: Final = (("bag_top", "top"), ("bag_outer", "outer edge"), ("bag_foot", "foot"))
BEGINS, ENDS = "pocket_begins", "pocket_ends"
#: They have the allowance of a seam. Common practice, no source.
ALLOWANCE: Final = 10.0
#: The widths of two bags are solved to this, mm: far below what a tape shows.
ACCURACY: Final = 0.01
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


def has_room(body: Body, waist: float, low: float, turned_in: float = 0.0) -> bool:
    """Whether an opening and the least of a bag find room between the waist and a lowest level.

    `turned_in` is what is turned in at the waist.
    """
    needed = _begins(body, turned_in) + opening_of(body) + sources.BAG_BELOW_LEAST * sources.scale(body.stature)
    return low - waist >= needed - 1e-6


def _begins(body: Body, turned_in: float) -> float:
    """How far below the waist an opening begins: as far as usual, and clear of what is turned in there."""
    return max(sources.POCKET_BELOW_WAIST * sources.scale(body.stature), turned_in + CLEAR if turned_in > 0 else 0.0)


def lowest(hem: float, slit: float) -> float:
    """The lowest level of a bag above a hem and above the top of a slit so high, 0 where there is none."""
    return min(hem - sources.BAG_ABOVE_HEM, hem - slit - sources.BAG_ABOVE_SLIT if slit > 0 else hem)


@dataclass(frozen=True, slots=True)
class InSeam:
    """The bag of one pocket: the run of its host's side that it lies on, from its top to its foot.

    `begins` and `ends` are how far along that run the opening does; `width` is how wide the bag is, `allowance` that of
    the host's side. `on_left` says that the side of its host lies to the left; `of` is the one of two hosts that it
    belongs to ("front"), where each has its own.
    """

    side: Path
    begins: float
    ends: float
    width: float
    allowance: float
    on_left: bool = False
    of: str = ""

    @property
    def piece(self) -> str:
        """The name of its piece."""
        return f"{self.of}_{BAG}" if self.of else BAG

    @property
    def called(self) -> str:
        """What it is called in a sentence."""
        return self.piece.replace("_", " ")

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

    def as_cut(self, place: Point) -> Point:
        """A place of the host as the bag has it: the bag lies to the right of its side."""
        return place if self.on_left else _over(place)

    @property
    def copied(self) -> Path:
        """The run as the bag has it."""
        return self.side if self.on_left else Path(tuple(_turned_over(segment) for segment in self.side.segments))

    @property
    def round(self) -> float:
        """How long it is round, from its top at the side to its foot there."""
        return sum(start.distance(end) for start, end in pairwise(self.corners))

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """From its top at the side round to its foot there. Top and foot are square to the side (CALC)."""
        side = self.copied
        top, foot = side.start, side.end
        wide = max(top.x, foot.x) + self.width
        ends = (top, side.segments[0].tangent(0.0).left()), (foot, side.segments[-1].tangent(1.0).left())
        upper, lower = (place + away * ((wide - place.x) / away.x) for place, away in ends)
        return top, upper, lower, foot


def _over(place: Point) -> Point:
    return Point(-place.x, place.y)


def _turned_over(segment: Segment) -> Segment:
    if isinstance(segment, Line):
        return Line(_over(segment.start), _over(segment.end))
    return Cubic(_over(segment.start), _over(segment.first), _over(segment.second), _over(segment.end))


def in_seam_of(
    body: Body, waist: float, low: float, side: Path, allowance: float, hip: float, turned_in: float = 0.0
) -> InSeam:
    """The bag on a side that runs down from the waist, with its lowest level and the hip at these levels.

    An end of the opening that would lie beside the notch of the hip moves away from it, the shorter way. `turned_in` is
    what is turned in at the waist, which the bag begins below.
    """
    return _on(body, side, _places(body, waist, low, side, hip, turned_in), allowance)


def in_seam_pair(
    body: Body, waist: float, low: float, sides: tuple[Path, Path], allowance: float, hip: float, turned_in: float
) -> tuple[InSeam, InSeam]:  # fmt: skip
    """The bags on the sides of front and back, which are as long and lie to the left, but are shaped otherwise.

    Both lie as far from the beginning of their side. That of the back is so wide that both are as long all round.
    """
    places = _places(body, waist, low, sides[0], hip, turned_in)
    front, back = (
        replace(_on(body, side, places, allowance), on_left=True, of=of)
        for side, of in zip(sides, ("front", "back"), strict=True)
    )

    def longer(width: float) -> float:
        return replace(back, width=width).round - front.round

    return front, replace(back, width=crossing_value(longer, 0.8 * front.width, 1.2 * front.width, ACCURACY))


def _on(body: Body, side: Path, places: tuple[float, float, float, float], allowance: float) -> InSeam:
    """The bag on a side, with its top, both ends of its opening, and its foot so far along it."""
    top, begins, ends, foot = places
    width = sources.BAG_WIDE * sources.scale(body.stature)
    return InSeam(side.part(top, foot), begins - top, ends - top, width, allowance)


def _places(
    body: Body, waist: float, low: float, side: Path, hip: float, turned_in: float
) -> tuple[float, float, float, float]:
    """How far along a side a bag begins, its opening begins and ends, and the bag ends."""
    grown = sources.scale(body.stature)
    level = max(waist + _begins(body, turned_in), side.start.y + CLEAR)
    opening, at_hip = opening_of(body), _along(side, hip)
    begins = least = _along(side, level)
    for end in (begins, begins + opening):
        if abs(end - at_hip) < CLEAR:
            begins += (at_hip - CLEAR - end) if end <= at_hip else (at_hip + CLEAR - end)
            if turned_in > 0 and begins < least:  # there is no room above
                begins = least + at_hip + CLEAR - end
            break
    top = max(begins - sources.BAG_ABOVE * grown, _along(side, waist + turned_in) if turned_in > 0 else 0.0)
    ends = begins + opening
    return top, begins, ends, min(ends + sources.BAG_BELOW * grown, _along(side, low))


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
    """A bag as it is cut: one for either host on both sides of the body, so four times where these are alike."""
    corners = bag.corners
    edges = [
        FinishedEdge(name, Path((Line(start, end),)), ALLOWANCE, label=f"{label} of the {bag.called}")
        for (name, label), start, end in zip(ROUND, corners, corners[1:], strict=False)
    ]
    edges.append(FinishedEdge(SIDE, bag.copied.reversed(), bag.allowance, label=f"side of the {bag.called}"))
    cut = cut_out(edges, cloth.shrink_across, cloth.shrink_along, closed=True)
    upper, lower, foot, top = cut.corners
    wanted: list[tuple[str, str, AnchorKind, str, Point]] = [
        ("bag_top", "top at the side", "corner", "corners", top),
        ("bag_upper", "outer top", "corner", "corners", upper),
        ("bag_lower", "outer foot", "corner", "corners", lower),
        ("bag_foot", "foot at the side", "corner", "corners", foot),
    ]
    return Piece(
        bag.piece, upper_first(bag.called), 2 if bag.of else 4, False, cut.edges, cut.line, (),
        anchors(cut.line, wanted),
        tuple(_notch(cut, bag, *mark) for mark in bag.marks), stages=STAGES, parts=PARTS, straight=BESIDE,
        zero=cut.place(Point(0.0, 0.0)).y, fine=True, stretches=cloth.kind == "knit",
    )  # fmt: skip


def _notch(cut: CutOut, bag: InSeam, id: str, label: str, place: Point) -> Notch:
    return notch_at(cut, SIDE, id, label, bag.as_cut(place))


def in_seam_notches(bag: InSeam | None, cut: CutOut, edge: str) -> tuple[Notch, ...]:
    """Both notches on the side of a host."""
    if bag is None:
        return ()
    return tuple(notch_at(cut, edge, id, label, place) for id, label, place in bag.marks)


def let_in(bags: Sequence[InSeam], hosts: Sequence[str], edge: str) -> tuple[LetIn, ...]:
    """A bag on this edge of each of the hosts: the one of all of them, or each its own."""
    of_each = bags if len(bags) > 1 else [bags[0] for _ in hosts]
    return tuple(
        LetIn(bag.piece, SIDE, host, edge, BEGINS, ENDS) for bag, host in zip(of_each, hosts, strict=True)
    )  # fmt: skip


def in_seam_seam(bags: Sequence[InSeam]) -> Seam:
    """Bag to bag, from the side round to the side."""
    first, second = (tuple(EdgeRun(bag.piece, name) for name, _ in ROUND) for bag in (bags[0], bags[-1]))
    return Seam(first, second)


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
    lay = (
        "Lay a front pocket bag on the side of each front and a back pocket bag on that of each back, right sides "
        "together, cut edge on cut edge and notch on notch. "
        if bag.of
        else "Lay a bag on each side of front and back, right sides together, cut edge on cut edge and notch on notch. "
    )
    says = (
        "Stay both sides of the front: sew a strip of the selvage or of tape onto the wrong side, on the seam line, "
        f"from a little above the upper notch of the pocket to a little below the lower one. {lay}"
        f"Sew it on along its whole side, {say(nearer)} outside the seam line, and press it outwards, over the "
        "allowance."
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
