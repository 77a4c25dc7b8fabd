"""Which choices of a `kaftan` shape which edges: what to look at first where an outline crosses itself."""

from typing import Final

from drafting.garments.kaftan.style import Choices
from drafting.problems import Shaping, Try

#: What is tried instead of an allowance that makes the outline cross itself, mm. Our choice: the least in use.
TRIED: Final = 6.0
_EDGES: Final = {
    "shoulder": (frozenset({"shoulder"}), "at shoulder and overarm"),
    "side": (frozenset({"side", "under"}), "at underarm and side"),
    "hem": (frozenset({"hem"}), "at the hem"),
    "sleeve_end": (frozenset({"sleeve_end"}), "at the sleeve end"),
    "neck": (frozenset({"neck_edge"}), "at the neck"),
    "sleeve_joint": (frozenset({"sleeve_joint", "joint"}), "at the sleeve joint"),
}


def shapings(choices: Choices) -> tuple[Shaping, ...]:
    """The allowances that were given."""
    found = []
    for name in sorted(choices.allowances_given):
        edges, where = _EDGES[name]
        key = f"allowances.{name}"
        says = f"The allowance asked for {where} ({key}) makes the cutting line cross itself, so it cannot be cut."
        way = Try(key, f"{TRIED:.2f} mm", f"Take an allowance of {{}} {where}.", TRIED)
        found.append(Shaping(key, says, edges, ((way,),)))
    return tuple(found)
