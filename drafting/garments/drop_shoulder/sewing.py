"""How `drop_shoulder` is sewn up, tried on and what it takes besides the cloth: only what applies to draft and cloth.

Everything here is common practice, no source, unless a line says otherwise. Lengths in mm, said in the tape's unit.
"""

from dataclasses import dataclass

from drafting.cloth import ClothFacts
from drafting.contract.after_cut import AfterCut, SewStep, ToBuy, TryOn
from drafting.garments.drop_shoulder.parts import Parts
from drafting.parts.hood_sewing import hood_to_buy
from drafting.parts.pouch import pouch_sewn
from drafting.parts.rib import rib_to_buy
from drafting.parts.sewing import (
    THREAD,
    Say,
    bought,
    fuller_than_chest,
    longer_front,
    needle,
    pulled_by,
    room_to_grow,
    shoulder_elastic,
    stitch,
)
from drafting.parts.top_sewing import (
    ends,
    hems_bought,
    lies_on_the_shoulders,
    neck_edge,
    shoulders,
    sides,
    stands_off,
)
from drafting.person.measures import Body
from drafting.units import Unit


@dataclass(frozen=True, slots=True)
class _Facts:
    """What decides which lines apply."""

    parts: Parts
    asked_neck: float
    asked_sleeve: float

    @property
    def body(self) -> Body:
        return self.parts.body

    @property
    def cloth(self) -> ClothFacts:
        return self.parts.cloth

    @property
    def shoulder(self) -> float:
        """The finished shoulder seam, mm."""
        return self.parts.neck.end.distance(self.parts.over.end)


def after_cut(parts: Parts, facts: dict[str, float], unit: Unit) -> AfterCut:
    """What follows the cut."""
    found = _Facts(
        parts,
        pulled_by(parts.body.head_girth, facts["head_ring"]),
        pulled_by(parts.body.hand_girth, facts["hand_ring"]),
    )
    say = Say(unit)
    return AfterCut(
        needle(parts.cloth),
        THREAD,
        stitch(
            parts.cloth,
            say,
            (found.asked_neck, "the neck is stretched over the head"),
            (found.asked_sleeve, "the sleeve is stretched over the hand"),
        ),
        tuple(_order(found, say)),
        tuple(_try_on(found, say)),
        tuple(_buy(found, say)),
        room_to_grow(found.body, say),
    )


# ---- the order of sewing -----------------------------------------------------------------------------------------


def _order(found: _Facts, say: Say) -> list[SewStep]:
    parts = found.parts
    steps = [
        shoulders(found.shoulder, parts, say),
        neck_edge(parts, say),
        _sleeves(),
        *parts.pockets.around(sides(parts), say),
    ]
    return [*pouch_sewn(parts.pouch, say), *parts.pockets.sewn_first(say), *steps, *ends(parts, say)]


def _sleeves() -> SewStep:
    says = (
        "Open the sleeves out. The one notch is the front; snip a second beside it on the back half. Pin the top of "
        "each cap to its shoulder seam, one notch to the front and two to the back, and the ends to the sides. Sew the "
        "armhole flat."
    )
    return SewStep("sleeves", "Sleeves", says)


# ---- the try-on --------------------------------------------------------------------------------------------------


def _try_on(found: _Facts, say: Say) -> list[TryOn]:
    rows = stands_off(found.parts, say)
    if found.body.kind == "woman" and fuller_than_chest(found.body):
        rows.append(TryOn("The front hem rises over a full bust, and folds point at it.", _full_bust(found, say)))
    rows += lies_on_the_shoulders(say)
    slope = say.span(5, 10)
    rows.append(
        TryOn(
            "The sleeve pulls when the arm is raised.",
            f"Next time choose a lower cap: {say(20)} instead of {say(found.parts.choices.cap_height)}."
            if found.parts.choices.cap_height > 20
            else "Next time choose the loose fit.",
        )
    )
    rows.append(
        TryOn(
            "Folds hang under the arm.",
            f"Next time choose a higher cap, or a closer fit. Now, take in the under seam by {slope}.",
        )
    )
    return rows


def _full_bust(found: _Facts, say: Say) -> str:
    if found.parts.dip > 0:
        return (
            f"The front is already {say(found.parts.dip)} longer at its fold. Next time make it longer by as much as "
            "the hem still rises."
        )
    return f"{longer_front(say)} Measure the upper chest, and the draft does so by itself."


# ---- before the cut, and the shop --------------------------------------------------------------------------------


def _buy(found: _Facts, say: Say) -> list[ToBuy]:
    parts = found.parts
    return [
        *bought(found.cloth, say, hems_bought(found.parts, say)),
        shoulder_elastic(found.shoulder, found.cloth, say),
        *hood_to_buy(parts.hood, parts.cloth, say),
        *parts.pockets.bought,
        *rib_to_buy(parts.bands.all, parts.choices.rib, found.cloth, say),
    ]
