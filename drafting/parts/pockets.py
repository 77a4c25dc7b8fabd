"""The pockets of a garment: what may be chosen, and what of it stands in pieces, findings and words of sewing."""

from dataclasses import dataclass
from typing import Final, Literal

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.contract.after_cut import SewStep
from drafting.contract.fields import Field, Option
from drafting.contract.pieces import FinishedFigure, Piece
from drafting.contract.seams import SetOn
from drafting.geometry.point import Point
from drafting.parts.patch import Patch, has_room, patch_figures, patch_of, patch_piece, patch_sewn, with_patch
from drafting.parts.reading import StyleReader
from drafting.parts.sewing import Say
from drafting.parts.side import Side
from drafting.person.measures import Body

PocketsChoice = Literal["none", "patch"]


@dataclass(frozen=True, slots=True)
class Pockets:
    """Those that a garment has; None where it has none of the kind."""

    patch: Patch | None = None

    @property
    def set_on(self) -> tuple[SetOn, ...]:
        """Where the patch pockets are sewn on."""
        return () if self.patch is None else (self.patch.set_on,)

    def on_front(self, front: Piece, cloth: ClothFacts) -> Piece:
        """The front with what is marked on it."""
        return with_patch(front, self.patch, cloth)

    def pieces(self, cloth: ClothFacts) -> tuple[Piece, ...]:
        """The pieces that they are cut from."""
        return () if self.patch is None else (patch_piece(self.patch, cloth),)

    @property
    def figures(self) -> list[FinishedFigure]:
        """How large they are, and where they begin."""
        return [] if self.patch is None else patch_figures(self.patch)

    @property
    def facts(self) -> dict[str, float]:
        """What is judged of them, mm; nothing where there are none."""
        return {} if self.patch is None else {"pocket_opening": self.patch.width}

    def sewn_first(self, say: Say, *, knit: bool = True) -> list[SewStep]:
        """What is sewn while the front still lies flat."""
        return [] if self.patch is None else [patch_sewn(say, knit=knit)]

    def seen(self, wider: float) -> list[tuple[Point, ...]]:
        """Their lines on the person, with what lies across so many times wider round the body."""
        if self.patch is None:
            return []
        one = [Point(place.x * wider, place.y) for place in (*self.patch.corners, self.patch.corners[0])]
        return [tuple(one), tuple(Point(-place.x, place.y) for place in one)]


NO_POCKETS: Final = Pockets()


def pockets_of(chosen: PocketsChoice, body: Body, quarter: float, waist: float, hem: float, side: Side) -> Pockets:
    """The pockets of a body of this quarter at the bust, with its waist, hem and side at these levels."""
    return Pockets(patch_of(body, quarter, waist, hem, side.x) if chosen == "patch" else None)


def read_pockets(
    read: StyleReader, asked: PocketsChoice, body: Body, hem: float, *, pouch: bool = False
) -> PocketsChoice:
    """Which pockets there are; refused where a `pouch` lies there, or the garment ends (`hem`) too near its waist."""
    if asked == "patch":
        waist = body.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK
        if pouch:
            read.refuse("pockets", "the pouch lies where they would be", "choose no pouch, or other pockets")
        if not has_room(body, waist, hem):
            read.refuse("pockets", "it is too short for patch pockets", "choose a longer one, or no pockets")
    return asked


_OPTIONS: Final = (Option("none", "None"), Option("patch", "Patch pockets on the front"))
POCKETS_FIELD: Final = Field("pockets", "choice", "Pockets", _OPTIONS, lambda chosen: "none")
