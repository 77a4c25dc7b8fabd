"""Which choice of leggings or trousers shapes which edge: what is changed where an outline crosses itself."""

from collections.abc import Mapping
from typing import Final

from drafting.parts.legs.style import LegChoices
from drafting.problems import Shaping, Try

#: What is tried instead of an allowance that makes the outline cross itself, mm. Our choice: the least in use.
TRIED: Final = 6.0
_WHERE: Final = {"waist": "at the waist", "seams": "at the seams", "hem": "at the hem"}


def leg_shapings(choices: LegChoices, edges: Mapping[str, frozenset[str]]) -> tuple[Shaping, ...]:
    """The choices that were made, by what they shape; `edges` are the edges that each allowance lies outside of."""
    found = []
    if choices.hem_girth is not None:
        says = "The girth asked for at the hem (hem_girth) makes its cutting line cross itself, so it cannot be cut."
        way = Try("hem_girth", "auto", "Leave the girth of the hem to the draft.")
        found.append(Shaping("hem_girth", says, edges["seams"] | edges["hem"], ((way,),)))
    for name in sorted(choices.allowances_given):
        key, where = f"allowances.{name}", _WHERE[name]
        says = f"The allowance asked for {where} ({key}) makes the cutting line cross itself, so it cannot be cut."
        way = Try(key, f"{TRIED:.2f} mm", f"Take an allowance of {{}} {where}.", TRIED)
        found.append(Shaping(key, says, edges[name], ((way,),)))
    return tuple(found)
