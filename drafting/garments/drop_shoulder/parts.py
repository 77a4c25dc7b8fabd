"""Everything of a `drop_shoulder` that was set out: what pieces, findings, sewing and picture are made from."""

from dataclasses import dataclass

from drafting.garments.drop_shoulder.sleeve import Sleeve
from drafting.garments.drop_shoulder.style import Choices
from drafting.garments.drop_shoulder.upper import Armhole, Shoulder
from drafting.parts.top import TopParts


@dataclass(frozen=True, slots=True, kw_only=True)
class Parts(TopParts):
    """The finished parts, in body axes. `dip` is how much longer the front is at its fold, mm; `slit` its height."""

    choices: Choices
    over: Shoulder
    armhole: Armhole
    dip: float
    sleeve: Sleeve
