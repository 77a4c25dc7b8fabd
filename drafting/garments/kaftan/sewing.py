"""How a `kaftan` is sewn up, tried on and what it takes besides the cloth: only what applies to draft and cloth.

Everything here is common practice, no source, unless a line says otherwise. Lengths in mm, said in the tape's unit.
"""

from drafting import sources
from drafting.contract.after_cut import AfterCut, SewStep, ToBuy, TryOn
from drafting.garments.kaftan.facing import TURNED_UNDER, wide_of
from drafting.garments.kaftan.outline import Parts
from drafting.parts.sewing import Say, not_washed, room_to_grow, small_child, washed_first
from drafting.parts.sewing_woven import NEEDLE, THREAD, bought, stitch
from drafting.sentences import listed
from drafting.units import Unit

#: How far either side of the underarm its stay reaches, mm.
STAYED = 60.0


def after_cut(parts: Parts, unit: Unit) -> AfterCut:
    """What follows the cut."""
    say = Say(unit)
    return AfterCut(
        NEEDLE, THREAD, stitch(say), tuple(_order(parts, say)), tuple(_try_on(parts, say)), tuple(_buy(parts, say)),
        room_to_grow(parts.body, say),
    )  # fmt: skip


def gusset(parts: Parts) -> float:
    """The side of a gusset for this body, whole centimetres, mm."""
    return round(sources.GUSSET * sources.scale(parts.body.stature), -1)


def _order(parts: Parts, say: Say) -> list[SewStep]:
    steps = [_facing(parts, say), *parts.pockets.sewn_first(say, knit=False), _shoulders(), _neck(parts, say)]
    if parts.joint is not None:
        says = (
            "Pin each lower sleeve to its sleeve: its centre line to the overarm seam, notch on notch. Sew the joint."
        )
        steps.append(SewStep("joint", "Sleeve joint", says))
    return [*steps, *parts.pockets.around(_side(parts, say), say), _corner(say), _hang(parts), _hems(parts, say)]


def _facing(parts: Parts, say: Say) -> SewStep:
    beside = say(sources.FACING_BESIDE)
    says = (
        f"Interface the front facing. Turn the outer edges of both facings under by {say(TURNED_UNDER)} and stitch "
        "them, but not at the shoulders. Lay the front facing on the front, "
        f"right sides together, neck on neck and marked line on marked line. Sew {beside} beside the line, down one "
        "side, tapering to a point at its stop, and up the other. Leave the neck edge open for now. Only then cut both "
        "layers along the line and clip to the stop, as near to the stitching as you dare."
    )
    return SewStep("slit", "Slit of the neck", says)


def _shoulders() -> SewStep:
    says = (
        "Fold the front facing away. Right sides together, sew front and back from the neck over the shoulder to the "
        "end of the sleeve, and press the seam. Sew the shoulders of the two facings together as well."
    )
    return SewStep("overarm", "Shoulder and overarm", says)


def _neck(parts: Parts, say: Say) -> SewStep:
    says = (
        "Lay the facings round the neck again, shoulder seam on shoulder seam, and sew the neck edge by "
        f"{say(parts.allowances['neck'])}. Clip the curve, turn the facings in, press the edge, and catch them to the "
        "shoulder seams by hand. The slit stays open and needs no closure."
    )
    if small_child(parts.body):
        says += " Sew no button and no tie to it: under three years nothing small may come off."
    return SewStep("neck", "Neck facing", says)


def _side(parts: Parts, say: Say) -> SewStep:
    to = "down to the top of the slit" if parts.slit > 0 else "to the hem"
    says = (
        f"Baste underarm and side in one seam, from the end of the sleeve {to}, notch on notch. Try the garment on "
        f"before the curve of the underarm is clipped.{not_washed(parts.cloth)} Then sew the seam."
    )
    return SewStep("side", "Underarm and side", says, tries_on=True)


def _corner(say: Say) -> SewStep:
    says = (
        f"Sew a stay of tape or of the selvage into the curve of the underarm, {say.about(STAYED)} to each side of its "
        "notch. Only then clip the allowance there, and overcast it."
    )
    return SewStep("corner", "Stay and clip the underarm", says)


def _hang(parts: Parts) -> SewStep:
    hung = "Let the garment hang for a day, since the flared sides drop. Then level the hem."
    says = f"{washed_first(parts.cloth)}{hung}"
    return SewStep("hang", "Hang it and level the hem", says)


def _hems(parts: Parts, say: Say) -> SewStep:
    allow = parts.allowances
    edges = [f"the sleeve ends by {say(allow['sleeve_end'])}", f"the hem by {say(allow['hem'])}"]
    if parts.slit > 0:
        edges.append(f"the edges of the slits by {say(allow['side'])}")
    says = (
        f"Turn up {listed(edges)}, with the raw edge turned under, and sew. The hem is curved, so its cut edge is a "
        "little longer: press it flat as you go."
    )
    return SewStep("hems", "Hems", says)


def _try_on(parts: Parts, say: Say) -> list[TryOn]:
    side = say(gusset(parts))
    higher, slit = "slit both sides from the middle of the thigh down", "slit them"
    if parts.slit > 0:
        higher = slit = "let the slits begin higher up"
    return [
        TryOn(
            "The raised arm lifts the hem.",
            f"Set a gusset of {side} square into the underarm, or {higher}.",
        ),
        TryOn(
            "Folds run from the neck to the underarm.",
            f"The shoulders slope more. Take in {say.span(10, 20)} at the end of the sleeve, and nothing at the neck.",
        ),
        TryOn("The neck slides back.", f"Next time cut the back neck {say(10)} lower, and the front as much higher."),
        TryOn("It binds across the hip when you sit.", f"Let the sides out by {say.span(5, 10)}, or {slit}."),
        TryOn("The underarm pulls in points.", "Clip its curve once more, and press it over a rolled towel."),
    ]


def _buy(parts: Parts, say: Say) -> list[ToBuy]:
    long = parts.opened.end + sources.FACING_LONGER
    wide = say(2 * (parts.neck.end.x + wide_of(parts)))
    return [
        *bought(),
        ToBuy(f"light woven interfacing, {wide} wide, for the front facing", long),
        ToBuy("stay tape, for both underarms", 4 * STAYED),
        *parts.pockets.bought,
    ]
