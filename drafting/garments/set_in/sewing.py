"""How `set_in` is sewn up, tried on and what it takes besides the cloth: only what applies to draft and cloth.

Everything here is common practice, no source, unless a line says otherwise. Lengths in mm, said in the tape's unit.
"""

from drafting.contract.after_cut import AfterCut, SewStep, ToBuy, TryOn
from drafting.garments.set_in.parts import Parts
from drafting.garments.set_in.rules import CAP_EASE
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
from drafting.units import Unit


def after_cut(parts: Parts, facts: dict[str, float], unit: Unit) -> AfterCut:
    """What follows the cut."""
    say, body = Say(unit), parts.body
    return AfterCut(
        needle(parts.cloth),
        THREAD,
        stitch(
            parts.cloth,
            say,
            (pulled_by(body.head_girth, facts["head_ring"]), "the neck is stretched over the head"),
            (pulled_by(body.hand_girth, facts["hand_ring"]), "the sleeve is stretched over the hand"),
        ),
        tuple(_order(parts, say)),
        tuple(_try_on(parts, say)),
        tuple(_buy(parts, say)),
        room_to_grow(body, say),
    )


def _shoulder(parts: Parts) -> float:
    """The finished shoulder seam, mm."""
    return parts.neck.end.distance(parts.over.end)


def _order(parts: Parts, say: Say) -> list[SewStep]:
    steps = [
        shoulders(_shoulder(parts), parts, say),
        neck_edge(parts, say),
        _sleeves(parts, say),
        *parts.pockets.around(sides(parts), say),
    ]
    return [*pouch_sewn(parts.pouch, say), *parts.pockets.sewn_first(say), *steps, *ends(parts, say)]


def _sleeves(parts: Parts, say: Say) -> SewStep:
    longer = say(CAP_EASE * parts.armholes.whole)
    says = (
        "There is a left and a right sleeve: one notch is the front of each, two are the back. Lay a sleeve on its "
        "armhole, right sides together. Pin the notch at the top of the cap to the shoulder seam, the one notch to the "
        "front, the two to the back, and the ends of the cap to the sides. The cap is "
        f"{longer} longer than the armhole: sew with the sleeve underneath, and the machine takes that in. Sew the "
        "armhole flat, before the sides are closed."
    )
    return SewStep("sleeves", "Sleeves", says)


def _try_on(parts: Parts, say: Say) -> list[TryOn]:
    slope = say.span(5, 10)
    rows = stands_off(parts, say)
    if parts.body.kind == "woman" and fuller_than_chest(parts.body):
        rows.append(TryOn("The front hem rises over a full bust, and folds point at it.", longer_front(say)))
    return [
        *rows,
        *lies_on_the_shoulders(say),
        TryOn(
            "The arm pushes against the front or the back of the sleeve, and folds slant.",
            f"Unpick the cap and pin it anew, its top notch {slope} farther to the side that the arm pushes against.",
        ),
        TryOn(
            "The sleeve pulls round the upper arm.",
            f"Let out the under seam by {slope}, and next time choose a looser fit.",
        ),
        TryOn(
            "The armhole cuts in under the arm.",
            f"Next time cut the underarm {slope} lower, on front, back and both ends of the cap.",
        ),
        TryOn(
            "The whole garment rises when the arm is raised.",
            "Next time choose a closer fit: its armhole lies higher under the arm.",
        ),
    ]


def _buy(parts: Parts, say: Say) -> list[ToBuy]:
    return [
        *bought(parts.cloth, say, hems_bought(parts, say)),
        shoulder_elastic(_shoulder(parts), parts.cloth, say),
        *hood_to_buy(parts.hood, parts.cloth, say),
        *parts.pockets.bought,
        *rib_to_buy(parts.bands.all, parts.choices.rib, parts.cloth, say),
    ]
