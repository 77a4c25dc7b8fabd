"""Everything of a `drop_shoulder` that was set out: what pieces, findings, sewing and picture are made from."""

from dataclasses import dataclass

from drafting.cloth import ClothFacts
from drafting.contract.chalked_line import ChalkedLine
from drafting.garments.drop_shoulder.bands import Bands
from drafting.garments.drop_shoulder.sleeve import Sleeve
from drafting.garments.drop_shoulder.style import Choices
from drafting.garments.drop_shoulder.upper import Armhole, Shoulder
from drafting.parts.hem import Hem
from drafting.parts.neck import NeckBase, Neckline
from drafting.parts.side import Side
from drafting.parts.widths import Levels
from drafting.person.measures import Body


@dataclass(frozen=True, slots=True)
class Parts:
    """The finished parts, in body axes. `dip` is how much longer the front is at its fold, mm; `slit` its height."""

    body: Body
    choices: Choices
    cloth: ClothFacts
    chalked: ChalkedLine
    base: NeckBase
    neck: Neckline
    over: Shoulder
    at: Levels
    armhole: Armhole
    side: Side
    hem: Hem
    dip: float
    sleeve: Sleeve
    bands: Bands
    allowances: dict[str, float]
    slit: float
