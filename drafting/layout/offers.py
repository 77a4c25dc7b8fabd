"""Ways that buy less cloth than the one taken, each with its price in work."""

from collections.abc import Sequence
from dataclasses import dataclass

from drafting.cloth import ClothFacts
from drafting.layout.buying import length_to_buy, say_bought
from drafting.layout.places import Layout
from drafting.units import Unit, say_length

#: Said wherever pieces lie head to tail, or across: they look different in daylight on cloth with nap or shade.
ONLY_PLAIN = "Only for cloth without nap or shade."


@dataclass(frozen=True, slots=True)
class Offer:
    """A way that buys less than the one taken. `less` is how much less is bought, mm; `price` says what that takes.

    `says` is the whole of it: "You buy 40 cm less cloth, but it takes 8 outlines instead of 2." `heed` is ONLY_PLAIN or
    nothing.
    """

    layout: Layout
    less: float
    price: str
    says: str
    heed: str


def offers(layouts: Sequence[Layout], cloth: ClothFacts) -> tuple[Offer, ...]:
    """What buys less than the first layout, which is the one taken; the least cloth first."""
    if not layouts:
        return ()
    taken, unit = layouts[0], cloth.sold_in
    bought = length_to_buy(taken, cloth, unit).buy
    found = []
    for other in layouts[1:]:
        less = bought - length_to_buy(other, cloth, unit).buy
        if less > 1.0:
            price = _price(other, taken)
            says = f"You buy {say_less(less, unit)} less cloth, but it takes {price}."
            found.append(Offer(other, less, price, says, heed(other)))
    return tuple(sorted(found, key=lambda offer: -round(offer.less)))


def heed(layout: Layout) -> str:
    """What is to be known of a way before it is taken; nothing for most."""
    return ONLY_PLAIN if layout.turns else ""


def say_less(less: float, unit: Unit) -> str:
    """A whole number of what cloth is sold by, in words: 40 cm, or ⅜ yd."""
    return say_length(less, unit) if unit == "cm" else say_bought(less, unit)


def _price(other: Layout, taken: Layout) -> str:
    parts = []
    if other.chalked != taken.chalked:
        parts.append(f"{_counted(other.chalked, 'outline')} instead of {taken.chalked}")
    if other.foldings > taken.foldings:
        parts.append(f"{_counted(other.foldings, 'folding')} instead of {taken.foldings or 'none'}")
    return " and ".join(parts)


def _counted(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"
