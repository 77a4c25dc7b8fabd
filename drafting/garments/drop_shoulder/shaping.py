"""Which choice of `drop_shoulder` shapes which edge: what is named, and changed, where an outline crosses itself.

Only what was chosen is listed; what is left to the draft is worked out so that it fits.
"""

from typing import Final

from drafting.garments.drop_shoulder.style import Choices
from drafting.problems import Shaping, Try

SIDE: Final = frozenset({"side", "hem"})
#: The edges that each allowance lies outside of, and where that is.
ALLOWANCES: Final = {
    "side": (frozenset({"side", "under"}), "along side and under seam"),
    "armhole": (frozenset({"armhole", "cap"}), "at armhole and cap"),
    "shoulder": (frozenset({"shoulder"}), "at the shoulder"),
    "hem": (frozenset({"hem"}), "at the hem"),
    "sleeve_end": (frozenset({"sleeve_end"}), "at the sleeve end"),
    "neck": (frozenset({"neck_edge"}), "at the neck edge"),
}
#: What is tried where an allowance was asked for, mm. Our choice: the least that can be sewn.
ALLOWANCE_TRIED: Final = 6.0


def shapings(choices: Choices) -> tuple[Shaping, ...]:
    """The choices that were made, by what they shape."""
    found: list[Shaping] = []

    def left_to_us(key: str, asked: float | None, what: str, edges: frozenset[str]) -> None:
        if asked is not None:
            says = f"What was asked for {what} ({key}) makes its cutting line cross itself, so it cannot be cut."
            way = Try(key, "auto", f"Leave to the draft what was asked for {what}.")
            found.append(Shaping(key, says, edges, ((way,),)))

    for where, asked in (("bust", choices.ease_bust), ("waist", choices.ease_waist), ("hip", choices.ease_hip)):
        left_to_us(f"ease_{where}", asked, f"as ease at the {where}", SIDE | {"armhole"})
    left_to_us("hem_girth", choices.hem_girth, "at the hem", SIDE)
    left_to_us("extension", choices.extension, "past the shoulder point", frozenset({"shoulder", "armhole"}))
    left_to_us("sleeve_end_girth", choices.sleeve_end_girth, "at the sleeve end", frozenset({"under", "sleeve_end"}))
    for name in sorted(choices.allowances_given):
        edges, where = ALLOWANCES[name]
        key = f"allowances.{name}"
        says = f"The allowance asked for {where} ({key}) makes the cutting line cross itself, so it cannot be cut."
        way = Try(key, f"{ALLOWANCE_TRIED:.2f} mm", f"Take an allowance of {{}} {where}.", ALLOWANCE_TRIED)
        found.append(Shaping(key, says, edges, ((way,),)))
    return tuple(found)
