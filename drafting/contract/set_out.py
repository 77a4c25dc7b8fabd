"""What a garment is once it is set out for one body on one cloth: the record SetOut."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from drafting.cloth import ClothFacts
from drafting.contract.after_cut import AfterCut
from drafting.contract.asked import Asked
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.front_view import Worn
from drafting.contract.girths import FinishedGirth
from drafting.contract.pieces import FinishedFigure, Piece, Stage
from drafting.contract.seams import LetIn, Seam, SetOn
from drafting.geometry.point import Point
from drafting.person.measures import Body
from drafting.problems import Adjustment, Shaping


@dataclass(frozen=True, slots=True)
class SetOut:
    """A garment set out for one body on one cloth: what every check reads and every output draws.

    `facts` are the numbers that the garment's own checks judge, each in the unit that stands where it is recorded: most
    are mm, some are shares, and a few are 1 where something holds and 0 where it does not. `refused` holds
    the ids of the checks that stopped the setting-out itself; `pieces` is then empty. `points` are finished
    construction points, measured from the side-neck level. `figures` say where things lie that no girth says.
    `after_cut` is how it is sewn and tried on; None where nothing was set out. `asked` is every length, girth and
    angle that the style asks for, with how it is measured on the finished outline. `shapings` are the choices that
    shape edges, the likeliest cause of a crossed outline first; `crossed` names the edges for which no piece was made.
    `worn` is how it is seen on the person from the front.
    `chalked_facts` gives the facts that depend on the tape, as the same outline is chalked with another one; None where
    nothing was set out. `garment` is its name; `closed_by_hand` says that it has an opening with a closure, so that it
    need not pass over the body shut. `from_shoulders` says that it hangs from the shoulders and has a neck, which the
    head passes unless it opens; what hangs from below them has neither. `cloth_needed` is the least length of cloth,
    mm, once it has been laid. `set_on` are the pieces that are sewn onto others,
    `let_in` the pocket bags that lie in a seam.
    """

    garment: str
    body: Body
    choices: Any
    cloth: ClothFacts
    chalked: ChalkedLine
    pieces: tuple[Piece, ...] = ()
    seams: tuple[Seam, ...] = ()
    girths: tuple[FinishedGirth, ...] = ()
    figures: tuple[FinishedFigure, ...] = ()
    adjusted: tuple[Adjustment, ...] = ()
    facts: dict[str, float] = field(default_factory=dict)
    points: dict[str, Point] = field(default_factory=dict)
    refused: tuple[str, ...] = ()
    after_cut: AfterCut | None = None
    asked: tuple[Asked, ...] = ()
    shapings: tuple[Shaping, ...] = ()
    crossed: tuple[str, ...] = ()
    worn: Worn | None = None
    closed_by_hand: bool = False
    from_shoulders: bool = True
    cloth_needed: float | None = None
    set_on: tuple[SetOn, ...] = ()
    let_in: tuple[LetIn, ...] = ()
    chalked_facts: Callable[[ChalkedLine], dict[str, float]] | None = field(default=None, compare=False, repr=False)

    @property
    def stages(self) -> tuple[Stage, ...]:
        """The stages of chalking that the pieces name, each once, in their order."""
        return tuple(dict.fromkeys(stage for piece in self.pieces for stage in piece.stages))
