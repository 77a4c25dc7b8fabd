"""Everything of a `set_in` that was set out: what pieces, findings, sewing and picture are made from."""

from dataclasses import dataclass

from drafting.garments.set_in.cap import Armholes
from drafting.garments.set_in.sleeve import Sleeve
from drafting.garments.set_in.upper import Upper
from drafting.parts.top import TopParts


@dataclass(frozen=True, slots=True, kw_only=True)
class Parts(TopParts):
    """The finished parts, in body axes. `bust` is the level of the bust where it lies below the underarm, else None."""

    over: Upper
    armholes: Armholes
    bust: float | None
    sleeve: Sleeve
