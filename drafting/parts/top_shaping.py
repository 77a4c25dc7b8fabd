"""Which choice of a top shapes which edge: what is named, and changed, where an outline crosses itself.

Only what was chosen is listed; what is left to the draft is worked out so that it fits.
"""

from collections.abc import Iterable, Mapping
from typing import Final

from drafting.parts.top_style import TopChoices
from drafting.problems import Shaping, Try

#: What is tried where an allowance was asked for, mm. Our choice: the least that can be sewn.
ALLOWANCE_TRIED: Final = 6.0
#: A figure that was asked for: its key, the figure, what it is for, and the edges it shapes.
Figure = tuple[str, float | None, str, frozenset[str]]


def top_shapings(
    choices: TopChoices, side: frozenset[str], figures: Iterable[Figure],
    allowances: Mapping[str, tuple[frozenset[str], str]],
) -> tuple[Shaping, ...]:  # fmt: skip
    """The choices that were made, by what they shape.

    `side` are the edges at the side, `figures` what else may be asked for, `allowances` the edges that each lies
    outside of and where that is.
    """
    found: list[Shaping] = []

    def left_to_us(key: str, asked: float | None, what: str, edges: frozenset[str]) -> None:
        if asked is not None:
            says = f"What was asked for {what} ({key}) makes its cutting line cross itself, so it cannot be cut."
            way = Try(key, "auto", f"Leave to the draft what was asked for {what}.")
            found.append(Shaping(key, says, edges, ((way,),)))

    for where, asked in (("bust", choices.ease_bust), ("waist", choices.ease_waist), ("hip", choices.ease_hip)):
        left_to_us(f"ease_{where}", asked, f"as ease at the {where}", side | {"armhole"})
    left_to_us("hem_girth", choices.hem_girth, "at the hem", side)
    for figure in figures:
        left_to_us(*figure)
    for name in sorted(choices.allowances_given):
        edges, where = allowances[name]
        key = f"allowances.{name}"
        says = f"The allowance asked for {where} ({key}) makes the cutting line cross itself, so it cannot be cut."
        way = Try(key, f"{ALLOWANCE_TRIED:.2f} mm", f"Take an allowance of {{}} {where}.", ALLOWANCE_TRIED)
        found.append(Shaping(key, says, edges, ((way,),)))
    return tuple(found)
