"""How `drop_shoulder` is sewn up, tried on and what it takes besides the cloth: only what applies to draft and cloth.

Everything here is common practice, no source, unless a line says otherwise. Lengths in mm, said in the tape's unit.
"""

from dataclasses import dataclass
from typing import Final

from drafting.cloth import ClothFacts
from drafting.contract.after_cut import AfterCut, SewStep, ToBuy, TryOn
from drafting.garments.drop_shoulder.parts import Parts
from drafting.parts.band import Band
from drafting.parts.rib import rib_to_buy
from drafting.parts.sewing import (
    BUST_FREE,
    BUST_LONGER,
    BUST_STEP,
    LONG_FROM,
    THREAD,
    Say,
    bought,
    elastic,
    fuller_than_chest,
    hang,
    hem_needle,
    neck_band,
    needle,
    not_washed,
    pulled_by,
    room_to_grow,
    shoulder_elastic,
    stitch,
)
from drafting.person.measures import Body
from drafting.sentences import listed
from drafting.units import Unit

#: A sleeve end this many times as wide as its cuff is gathered; less is only stretched. Our choice.
GATHERED_FROM: Final = 1.35


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
    steps = [_shoulders(found, say), _neck(found, say), _sleeves(), _sides(found)]
    if parts.bands.cuff is not None:
        steps.append(_cuffs(found, parts.bands.cuff))
    steps.append(hang(found.cloth, long=parts.at.hem > parts.at.hip * LONG_FROM))
    if parts.bands.hem is not None:
        steps.append(_hem_band(parts.bands.hem))
    edges = _hem_edges(found, say)
    if edges:
        steps.append(SewStep("hems", "Hems", f"Turn up {listed(edges)}. {hem_needle(say)}"))
    return steps


def _shoulders(found: _Facts, say: Say) -> SewStep:
    long = say(elastic(found.shoulder, found.cloth))
    says = (
        f"Cut two pieces of clear elastic, or of the selvage, {long} long. Lay front and back right sides together and "
        "sew the shoulder seams, with the elastic on the seam of the back. Do not stretch it. Never sew it onto the "
        "neck edge, which has to stretch over the head."
    )
    return SewStep("shoulders", "Shoulder seams", says)


def _neck(found: _Facts, say: Say) -> SewStep:
    parts, band = found.parts, found.parts.bands.neck
    if band is None:
        says = f"Turn the edge in once, by {say(parts.allowances['neck'])}, and sew it with a stitch that stretches."
        if parts.choices.neck == "v":
            says += " At the point of the V snip the allowance up to the stitching first."
        if parts.choices.neck == "boat":
            says += " At the shoulders it comes to a point: snip the allowance there up to the stitching first."
        return SewStep("neck", "Neck edge", says)
    name = band.label.lower()
    if parts.choices.neck == "v":
        says = (
            f"Close the {name} to a ring and fold it along its line, wrong sides together. At its middle sew a mitre "
            "that is as pointed as the V. Snip the point of the front up to the stitching line. Pin the seam of the "
            f"{name} to the centre back and its mitre to the point, and sew it on from the point round, stretched "
            "evenly."
        )
        return SewStep("neck", "Neck band", says)
    says = neck_band(name, parts.neck.ring / 4 - parts.neck.back.length(), say)
    return SewStep("neck", band.label, says)


def _sleeves() -> SewStep:
    says = (
        "Open the sleeves out. The one notch is the front; snip a second beside it on the back half. Pin the top of "
        "each cap to its shoulder seam, one notch to the front and two to the back, and the ends to the sides. Sew the "
        "armhole flat."
    )
    return SewStep("sleeves", "Sleeves", says)


def _sides(found: _Facts) -> SewStep:
    slits = ", down to the top of the slit" if found.parts.slit > 0 else " to the hem"
    says = f"Baste under seam and side in one seam, from the sleeve end{slits}. Try the garment on."
    says += f"{not_washed(found.cloth)} Then sew the seam."
    return SewStep("sides", "Under seam and side", says, tries_on=True)


def _cuffs(found: _Facts, band: Band) -> SewStep:
    wider = found.parts.sleeve.end_girth / band.length
    fitted = "stretch it to the sleeve" if wider < GATHERED_FROM else "gather the sleeve to it"
    says = (
        "Close each cuff to a ring and fold it along its line, wrong sides together. Pin its seam to the under seam, "
        f"and {fitted} evenly. Sew it on with both its edges together."
    )
    return SewStep("cuffs", "Cuffs", says)


def _hem_band(band: Band) -> SewStep:
    says = (
        "Close the hem band to a ring and fold it along its line, wrong sides together. Pin its seam to a side, its "
        "fold to the other and its quarter marks to the centres of front and back. Sew it on with both its edges "
        "together, stretched evenly."
    )
    return SewStep("hem_band", band.label, says)


def _hem_edges(found: _Facts, say: Say) -> list[str]:
    allow, parts, edges = found.parts.allowances, found.parts, []
    if parts.bands.cuff is None:
        edges.append(f"the sleeve ends by {say(allow['sleeve_end'])}")
    if parts.bands.hem is None:
        edges.append(f"the hem by {say(allow['hem'])}")
    if parts.slit > 0:
        edges.append(f"the edges of the slits by {say(allow['side'])}")
    return edges


# ---- the try-on --------------------------------------------------------------------------------------------------


def _try_on(found: _Facts, say: Say) -> list[TryOn]:
    rows = []
    if found.parts.bands.neck is not None:
        rows.append(TryOn("The neck band stands off.", f"Take its seam in by {say.span(10, 20)}, and sew it on again."))
    if found.body.kind == "woman" and fuller_than_chest(found.body):
        rows.append(TryOn("The front hem rises over a full bust, and folds point at it.", _full_bust(found, say)))
    longer = f"Next time cut the back {say(10)} longer there, and wider."
    rows.append(TryOn("It pulls across the shoulder blades.", longer))
    slope = say.span(5, 10)
    rows.append(
        TryOn(
            "Folds run from the neck to the underarm.",
            f"The shoulders slope more. Take in {slope} at the end of the shoulder, and lower the underarm as much.",
        )
    )
    rows.append(
        TryOn(
            "The shoulder seam lies behind the shoulder.",
            f"Move the seam {say(10)} forward at its end, and not at all at the neck.",
        )
    )
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
    return (
        f"Next time lengthen the front: bust less upper chest is free up to {say(BUST_FREE)}, then {say(BUST_LONGER)} "
        f"for each {say(BUST_STEP)}. Measure the upper chest, and the draft does so by itself."
    )


# ---- before the cut, and the shop --------------------------------------------------------------------------------


def _buy(found: _Facts, say: Say) -> list[ToBuy]:
    parts = found.parts
    return [
        *bought(found.cloth, say, "the hems" if _hem_edges(found, say) else ""),
        shoulder_elastic(found.shoulder, found.cloth, say),
        *rib_to_buy(parts.bands.all, parts.choices.rib, found.cloth, say),
    ]
