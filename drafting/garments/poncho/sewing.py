"""How `poncho` is sewn up, tried on and what it takes besides the cloth: only what applies to draft and cloth.

Everything here is common practice, no source, unless a line says otherwise. Lengths in mm, said in the tape's unit.
"""

from drafting.contract.after_cut import AfterCut, SewStep, ToBuy, TryOn
from drafting.garments.poncho.outline import Parts
from drafting.parts.sewing import (
    THREAD,
    Say,
    bought,
    elastic,
    hang,
    hem_needle,
    needle,
    not_washed,
    pulled_by,
    shoulder_elastic,
    stitch,
)
from drafting.units import Unit


def after_cut(parts: Parts, unit: Unit) -> AfterCut:
    """What follows the cut."""
    say = Say(unit)
    over_head = pulled_by(parts.body.head_girth, parts.neck.ring)
    return AfterCut(
        needle(parts.cloth),
        THREAD,
        stitch(parts.cloth, say, (over_head, "the neck is stretched over the head")),
        (_seams(parts, say), _neck(parts, say), hang(parts.cloth, long=True), _hem(parts, say)),
        _try_on(say),
        _buy(parts, say),
        _before(parts, say),
    )


def _carries(parts: Parts) -> float:
    """The part of a seam that carries the poncho, from the neck to the shoulder point, mm."""
    return parts.neck.end.distance(parts.shoulder_point)


def _seams(parts: Parts, say: Say) -> SewStep:
    long = say(elastic(_carries(parts), parts.cloth))
    says = (
        f"Cut two pieces of clear elastic, or of the selvage, {long} long. Lay front and back "
        "right sides together and sew both seams, with the elastic on the seam of the back, from the neck to the "
        "shoulder point. Do not stretch it. Never sew it onto the neck edge, which has to stretch over the head. Try "
        f"the poncho on.{not_washed(parts.cloth)}"
    )
    return SewStep("seams", "Seams over shoulder and arm", says, tries_on=True)


def _neck(parts: Parts, say: Say) -> SewStep:
    says = f"Turn the edge in once, by {say(parts.allowances['neck'])}, and sew it with a stitch that stretches."
    if parts.choices.neck == "v":
        says += " At the point of the V snip the allowance up to the stitching first."
    if parts.choices.neck == "boat":
        says += " At the seams it comes to a point: sew across the seam there with a few stitches."
    return SewStep("neck", "Neck edge", says)


def _hem(parts: Parts, say: Say) -> SewStep:
    says = (
        f"Turn up the hem by {say(parts.allowances['hem'])}. It is curved, so its cut edge is a little longer: press "
        f"it flat as you go, and let the steam shrink it. {hem_needle(say)}"
    )
    return SewStep("hem", "Hem", says)


def _try_on(say: Say) -> tuple[TryOn, ...]:
    return (
        TryOn(
            "Folds run from the neck to the arms.",
            f"The shoulders slope more. Take in {say.span(10, 20)} at the end of the seam, and nothing at the neck.",
        ),
        TryOn("It slides to the back.", f"Next time cut the back neck {say(10)} lower. Now, take the elastic tighter."),
        TryOn("The hem hangs lower at the arms.", "Let it hang for a day, then level it from the floor."),
    )


def _buy(parts: Parts, say: Say) -> tuple[ToBuy, ...]:
    return (*bought(parts.cloth, say, "the hem"), shoulder_elastic(_carries(parts), parts.cloth, say))


def _before(parts: Parts, say: Say) -> tuple[str, ...]:
    if parts.body.kind != "child":
        return ()
    return (
        f"A poncho is wide, so it is outgrown in its length only: chalk the hem {say.span(30, 50)} farther out for "
        "that, and let it down later.",
    )
