"""Which choice of `knit_skirt` shapes which edge: what is named, and changed, where an outline crosses itself."""

from typing import Final

from drafting.garments.knit_skirt.style import Choices
from drafting.problems import Shaping, Try

#: What is tried instead of an allowance that makes the outline cross itself, mm. Our choice: the least in use.
TRIED: Final = 6.0
_EDGES: Final = {"waist": "at the waist", "side": "at the side", "hem": "at the hem"}


def shapings(choices: Choices) -> tuple[Shaping, ...]:
    """The choices that were made, by what they shape."""
    found = []
    if choices.hem_girth is not None:
        says = "The girth asked for at the hem (hem_girth) makes its cutting line cross itself, so it cannot be cut."
        way = Try("hem_girth", "auto", "Leave the girth of the hem to the draft.")
        found.append(Shaping("hem_girth", says, frozenset({"side", "hem"}), ((way,),)))
    for name in sorted(choices.allowances_given):
        key, where = f"allowances.{name}", _EDGES[name]
        says = f"The allowance asked for {where} ({key}) makes the cutting line cross itself, so it cannot be cut."
        way = Try(key, f"{TRIED:.2f} mm", f"Take an allowance of {{}} {where}.", TRIED)
        found.append(Shaping(key, says, frozenset({name}), ((way,),)))
    return tuple(found)
