"""The pockets of a garment: what may be chosen, and what of it stands in pieces, findings and words of sewing."""

import math
from dataclasses import dataclass, replace
from typing import Final, Literal

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.contract.after_cut import SewStep, ToBuy
from drafting.contract.cutting import CutOut
from drafting.contract.fields import Chosen, Field, Option
from drafting.contract.pieces import FinishedFigure, Notch, Piece
from drafting.contract.seams import LetIn, Seam, SetOn
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.parts.in_seam import (
    LEFT_OPEN,
    InSeam,
    in_seam_bought,
    in_seam_closed,
    in_seam_figures,
    in_seam_notches,
    in_seam_of,
    in_seam_pair,
    in_seam_piece,
    in_seam_seam,
    in_seam_sewn_on,
    let_in,
    lowest,
)
from drafting.parts.in_seam import has_room as has_room_in_seam
from drafting.parts.patch import Patch, has_room, patch_figures, patch_of, patch_piece, patch_sewn, with_patch
from drafting.parts.reading import StyleReader
from drafting.parts.sewing import Say
from drafting.parts.side import Side
from drafting.parts.widths import Levels
from drafting.person.measures import Body

PocketsChoice = Literal["none", "patch", "in_seam"]
#: Of what has no front to set them on.
SidePockets = Literal["none", "in_seam"]


@dataclass(frozen=True, slots=True)
class Pockets:
    """Those that a garment has; None where it has none of the kind.

    `bags` are those in the sides: one that front and back have alike, or that of the front and that of the back.
    """

    patch: Patch | None = None
    bags: tuple[InSeam, ...] = ()

    @property
    def bag(self) -> InSeam | None:
        """The bag in the side of the front; None where there is none."""
        return self.bags[0] if self.bags else None

    @property
    def set_on(self) -> tuple[SetOn, ...]:
        """Where the patch pockets are sewn on."""
        return () if self.patch is None else (self.patch.set_on,)

    def on_front(self, front: Piece, cloth: ClothFacts) -> Piece:
        """The front with what is marked on it."""
        return with_patch(front, self.patch, cloth)

    def notches(self, cut: CutOut, edge: str, *, behind: bool = False) -> tuple[Notch, ...]:
        """What marks an opening on the edge that it lies in; `behind` where the back may have a bag of its own."""
        return in_seam_notches(self.bags[-1] if behind and self.bags else self.bag, cut, edge)

    def let_in(self, hosts: tuple[str, ...], edge: str) -> tuple[LetIn, ...]:
        """Where bags lie: on this edge of each of the hosts, the front before the back."""
        return let_in(self.bags, hosts, edge) if self.bags else ()

    def pieces(self, cloth: ClothFacts) -> tuple[Piece, ...]:
        """The pieces that they are cut from."""
        patches = () if self.patch is None else (patch_piece(self.patch, cloth),)
        return (*patches, *(in_seam_piece(bag, cloth) for bag in self.bags))

    @property
    def seams(self) -> tuple[Seam, ...]:
        """Bag to bag."""
        return (in_seam_seam(self.bags),) if self.bags else ()

    @property
    def figures(self) -> list[FinishedFigure]:
        """How large they are, and where they begin."""
        patches = [] if self.patch is None else patch_figures(self.patch)
        return patches if self.bag is None else [*patches, *in_seam_figures(self.bag)]

    @property
    def facts(self) -> dict[str, float]:
        """What is judged of them, mm; nothing where there are none."""
        openings = [] if self.patch is None else [self.patch.width]
        openings += [] if self.bag is None else [self.bag.opening]
        return {"pocket_opening": min(openings)} if openings else {}

    def sewn_first(self, say: Say, *, knit: bool = True) -> list[SewStep]:
        """What is sewn while the front still lies flat."""
        return [] if self.patch is None else [patch_sewn(say, knit=knit)]

    def around(self, sides: SewStep, say: Say) -> list[SewStep]:
        """The step that sews the sides, with the bags sewn on before it and closed after it."""
        if self.bag is None:
            return [sides]
        opened = replace(sides, says=f"{sides.says}{LEFT_OPEN}")
        return [in_seam_sewn_on(self.bag, say), opened, in_seam_closed(say)]

    @property
    def bought(self) -> tuple[ToBuy, ...]:
        """What they take besides the cloth."""
        return () if self.bag is None else (in_seam_bought(self.bag),)

    def seen(self, wider: float) -> list[tuple[Point, ...]]:
        """Their lines on the person, with what lies across so many times wider round the body."""
        found = []
        if self.patch is not None:
            corners = (*self.patch.corners, self.patch.corners[0])
            found.append(tuple(Point(place.x * wider, place.y) for place in corners))
        return [line for one in found for line in (one, tuple(Point(-place.x, place.y) for place in one))]


#: The hem may lie so much higher at the side than at the fold, mm.
HEM_RISES: Final = 50.0
NO_POCKETS: Final = Pockets()


def pockets_of(
    chosen: PocketsChoice, body: Body, quarter: float, at: Levels, side: Side, hem: Point, slit: float,
    allowance: float, side_from: float = 0.0, turned_in: float = 0.0,
) -> Pockets:  # fmt: skip
    """The pockets of a body of this quarter at the bust, with its levels, its side down to the corner of the hem.

    `slit` is the height of a slit in the side, `allowance` that of the side; `side_from` the level from which on the
    side is the edge, `turned_in` what is turned in at the waist.
    """
    if chosen == "patch":
        return Pockets(patch_of(body, quarter, at.waist, at.hem, side.x))
    if chosen == "in_seam":
        run = Path.of(side.between(max(at.waist, side_from), hem.y))
        return Pockets(bags=(in_seam_of(body, at.waist, lowest(hem.y, slit), run, allowance, at.hip, turned_in),))
    return NO_POCKETS


def pockets_of_legs(
    chosen: PocketsChoice, body: Body, sides: tuple[Path, Path], hip: float, low: float, allowance: float,
    turned_in: float,
) -> Pockets:  # fmt: skip
    """The pockets in the sides of front and back of a leg, which run down from the waist and lie to the left.

    No bag reaches below the level `low`; `turned_in` is what is turned in at the waist.
    """
    if chosen != "in_seam":
        return NO_POCKETS
    return Pockets(bags=in_seam_pair(body, 0.0, low, sides, allowance, hip, turned_in))


def read_pockets(
    read: StyleReader, asked: PocketsChoice, body: Body, hem: float, *, waist: float | None = None, slit: float = 0.0,
    pouch: bool = False, turned_in: float = 0.0, low: float | None = None,
) -> PocketsChoice:  # fmt: skip
    """Which pockets there are; refused where a `pouch` lies there, or the hem comes too near to the waist.

    Both levels count alike, from the side-neck level where no waist is given; `slit` is the height of one that is asked
    for, `turned_in` what is turned in at the waist, and `low` a level that no bag reaches below.
    """
    if waist is None:
        waist = body.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK
    if asked == "patch":
        if pouch:
            read.refuse("pockets", "the pouch lies where they would be", "choose no pouch, or other pockets")
        if not has_room(body, waist, hem):
            read.refuse("pockets", "it is too short for patch pockets", "choose a longer one, or no pockets")
    if asked == "in_seam":
        lows = math.inf if low is None else low

        def room(slit: float, turned_in: float, low: float) -> bool:
            return has_room_in_seam(body, waist, min(lowest(hem - HEM_RISES, slit), low), turned_in)

        if not room(slit, turned_in, lows):
            if room(0.0, turned_in, lows):
                wrong, fix = "the slits leave no room for pockets in the sides", "choose lower slits, or no pockets"
            elif room(slit, 0.0, lows):
                wrong, fix = "the casing leaves no room for pockets in the sides", "choose a lower one, or no pockets"
            elif room(slit, turned_in, math.inf):
                wrong = "the crotch lies too high for pockets in the sides"
                fix = "measure the crotch depth again, or choose no pockets"
            else:
                wrong, fix = "it is too short for pockets in the sides", "choose a longer one, or no pockets"
            read.refuse("pockets", wrong, fix)
    return asked


NONE: Final = Option("none", "None")
IN_SEAM: Final = Option("in_seam", "In the side seams")
POCKETS_FIELD: Final = Field(
    "pockets",
    "choice",
    "Pockets",
    (NONE, Option("patch", "Patch pockets on the front"), IN_SEAM),
    lambda chosen: "none",
)
SIDE_POCKETS_FIELD: Final = Field("pockets", "choice", "Pockets", (NONE, IN_SEAM), lambda chosen: "none")


def has_side_pockets(chosen: Chosen) -> bool:
    """Whether there are pockets in the side seams, whose openings rest on the hand."""
    return chosen("pockets") == "in_seam"
