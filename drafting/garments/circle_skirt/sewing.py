"""How `circle_skirt` is sewn up, tried on and what it takes besides the cloth: only what applies to the draft.

Everything here is common practice, from memory, no source, unless a line says otherwise. Lengths in mm, said in the
tape's unit.
"""

import math
from typing import Final

from drafting.cloth import wearing
from drafting.contract.after_cut import AfterCut, SewStep, ToBuy, TryOn
from drafting.garments.circle_skirt.band import Waistband
from drafting.garments.circle_skirt.lay_out import Parts
from drafting.units import INCH, Unit, say_length

#: From this stretch on a needle for stretch cloth is the first choice (fraction).
STRETCHY_FROM: Final = 0.50
#: A scrap seam for the proof by unit, and the steps in which its pulled length is rounded up, mm.
SCRAP: Final[dict[Unit, float]] = {"cm": 200.0, "in": 8 * INCH}
SCRAP_STEP: Final[dict[Unit, float]] = {"cm": 5.0, "in": INCH / 4}
#: Room to grow at the hem, and what a nappy needs round the hip, mm.
GROWING: Final = (30.0, 50.0)
#: The gap through which elastic is drawn into its casing, mm.
GAP: Final = 40.0
#: Elastic is bought with this stretch or more, in steps of so many percent: our choice, so that it is not at its end
#: when it passes over the hip.
ELASTIC_STEP: Final = 10
NAMES: Final = {1: "the centre back seam", 2: "both side seams"}


def after_cut(parts: Parts, unit: Unit) -> AfterCut:
    """What follows the cut."""
    return AfterCut(
        _needle(parts),
        "Take polyester thread, which gives with the seam. Cotton thread breaks.",
        _stitch(parts, unit),
        tuple(_order(parts, unit)),
        tuple(_try_on(parts, unit)),
        tuple(_buy(parts, unit)),
        tuple(_before(parts, unit)),
    )


def _needle(parts: Parts) -> str:
    if parts.cloth.across >= STRETCHY_FROM:
        return "Take a stretch needle of size 75, or a ballpoint needle of size 90 for a heavy knit."
    return (
        "Take a ballpoint needle of size 70 to 80, and size 90 for a heavy knit. If the cloth holds elastane, take a "
        "stretch needle of size 75."
    )


def asked_of_seams(parts: Parts) -> tuple[float, str]:
    """By how much the waist seam is stretched most, a share (CALC), and when."""
    passes = max(0.0, parts.body.hip_girth / min(parts.ring.seam, parts.waistband.band.length) - 1)
    return max((passes, "the waist is stretched over the hip"), (wearing(parts.cloth.across), "the skirt is worn"))


def _stitch(parts: Parts, unit: Unit) -> str:
    zigzag = (
        "zigzag, 0.5 to 1 mm wide and 2.5 to 3 mm long"
        if unit == "cm"
        else "narrow zigzag, about 9 stitches to the inch"
    )
    says = (
        f"Sew with a {zigzag}, or with an overlock, its differential feed at 1.3 to 1.5. A straight stitch cracks when "
        "the seam is stretched by 10 to 15 %."
    )
    share, when = asked_of_seams(parts)
    scrap, step = SCRAP[unit], SCRAP_STEP[unit]
    pulled = math.ceil(scrap * (1 + share) / step - 1e-9) * step
    return (
        f"{says} The waist seam gives by {100 * share:.0f} % when {when}: before the first seam, sew "
        f"{say_length(scrap, unit)} on a scrap and pull it to {say_length(pulled, unit)}. No stitch may break."
    )


def _order(parts: Parts, unit: Unit) -> list[SewStep]:
    return [
        _panels(parts),
        *_closed_band(parts, unit),
        _attached(parts),
        *([] if parts.waistband.jersey else [_elastic(parts.waistband, unit)]),
        _tried(parts),
        SewStep(
            "hang",
            "Hang it and level the hem",
            "Hang the skirt by its waistband for a day: where the cloth runs slanting it drops, and a circle runs "
            "slanting nearly everywhere. Then put it on, measure up from the floor all round, and level the hem.",
        ),
        SewStep(
            "hem",
            "Hem",
            f"Turn the hem up once, by {say_length(parts.ring.hem, unit)}. Its edge is longer than the skirt there: "
            "ease that in evenly. Sew it with a twin stretch needle, or with a zigzag.",
        ),
    ]


def _panels(parts: Parts) -> SewStep:
    panels = parts.ring.panels
    if panels == 1:
        says = "Right sides together, sew the centre back seam from the waist to the hem, notch on notch."
        return SewStep("panels", "Centre back seam", says)
    if panels == 2:
        says = "Right sides together, sew both side seams from the waist to the hem, notch on notch."
        return SewStep("panels", "Side seams", says)
    says = (
        f"Right sides together, sew the {panels} panels to a ring, each seam from the waist to the hem, notch on "
        f"notch. {where_seams_lie(panels)}"
    )
    return SewStep("panels", "Seams of the panels", says)


def where_seams_lie(panels: int) -> str:
    """Where the seams of three panels or more come to lie on the body, a sentence."""
    if panels % 2:
        return "The middle of one panel is the centre front, and the seam opposite it is the centre back."
    return "The middle of one panel is the centre front, and the middle of the panel opposite it is the centre back."


def _closed_band(parts: Parts, unit: Unit) -> list[SewStep]:
    says = "Right sides together, sew the two ends of the waistband to a ring."
    if not parts.waistband.jersey:
        says = (
            f"Right sides together, sew the two ends of the waistband to a ring. On one half of its height leave "
            f"{say_length(GAP, unit)} open, for the elastic."
        )
    fold = "Fold it along its fold-over line, wrong sides together, and baste the two long edges on each other."
    return [SewStep("band", "Waistband", f"{says} {fold}")]


def _attached(parts: Parts) -> SewStep:
    seam = "its seam to the centre back seam" if parts.ring.panels % 2 else "its seam to the middle of the back"
    pinned = f"Pin the waistband to the right side of the waist: {seam}, its fold to the middle of the front"
    if parts.ring.panels == 1:
        pinned += ", and its quarter marks to those of the skirt."
    elif parts.ring.panels == 2:
        pinned += ", and its notches to the side seams."
    else:
        pinned += ", and its notches to the seams and the middles of the panels."
    if parts.waistband.jersey:
        sewn = "It is shorter than the waist: stretch it evenly from pin to pin while you sew, and never the skirt."
    else:
        sewn = "It is as long as the waist: sew them together without stretching either."
    return SewStep("waist", "Waist seam", f"{pinned} {sewn}")


def _elastic(held: Waistband, unit: Unit) -> SewStep:
    says = (
        f"Cut the elastic {say_length(held.elastic_cut, unit)} long and draw it through the casing. Lay its ends over "
        "each other by 2 cm, sew them together in a square, and close the gap. Spread the fullness evenly, and sew "
        "through casing and elastic at the seams, so that the elastic cannot turn over."
    )
    if unit == "in":
        says = says.replace("by 2 cm", "by ¾ in")
    return SewStep("elastic", "Elastic", says)


def _tried(parts: Parts) -> SewStep:
    says = "Put the skirt on over the hip. The waistband lies at the waist and does not slide down when you walk."
    held = _held(parts)
    if held:
        says += f" It is not washed yet, so it is still larger by {held}. Take nothing in for that."
    return SewStep("try_on", "Try it on", says, tries_on=True)


def _held(parts: Parts) -> str:
    """What washing will take from the garment, in words; nothing where the cloth was washed before it was cut."""
    ways = [(parts.cloth.shrink_along, "along"), (parts.cloth.shrink_across, "across")]
    return " and ".join(f"{100 * share:.0f} % {way}" for share, way in ways if share > 0.0)


def _try_on(parts: Parts, unit: Unit) -> list[TryOn]:
    little = say_length(10.0, unit)
    if parts.waistband.jersey:
        slides = TryOn(
            "The waistband slides down.", f"Cut it {little} shorter, or sew it as a casing and draw elastic through it."
        )
        cuts = TryOn("The waistband cuts in.", f"Cut a new one that is {little} longer.")
    else:
        slides = TryOn("The waistband slides down.", f"Make the elastic {little} shorter.")
        cuts = TryOn("The waistband cuts in.", f"Make the elastic {little} longer.")
    return [
        slides,
        cuts,
        TryOn(
            "The hem hangs lower at some places.",
            "The cloth has dropped where it runs slanting. Hang it for another day, then level the hem from the floor.",
        ),
        TryOn(
            "The hem rises in front or behind.",
            "The belly or the seat takes up length. Sew the waistband lower on the opposite side, by as much as the "
            "hem rises, running to nothing at the sides.",
        ),
    ]


def _before(parts: Parts, unit: Unit) -> list[str]:
    if parts.body.kind != "child":
        return []
    low, high = (say_length(length, unit) for length in GROWING)
    return [
        f"The marks hold no room to grow: a skirt that is {low.rsplit(' ', 1)[0]} to {high} longer can be taken up, "
        "and let down later. Ask for a new sheet with that length."
    ]


def elastic_bought(held: Waistband) -> int:
    """The stretch to ask for in the shop, percent: the next step above what is needed."""
    return (math.floor(100 * held.elastic_stretch / ELASTIC_STEP) + 1) * ELASTIC_STEP


def _buy(parts: Parts, unit: Unit) -> list[ToBuy]:
    needle = "stretch needle, size 75" if parts.cloth.across >= STRETCHY_FROM else "ballpoint needle, size 70 to 80"
    twin = "twin stretch needle, 4 mm" if unit == "cm" else "twin stretch needle"
    bought = [ToBuy("polyester thread, two reels"), ToBuy(needle), ToBuy(f"{twin}, for the hem")]
    held = parts.waistband
    if not held.jersey:
        wide = say_length(held.elastic_wide, unit)
        bought.append(
            ToBuy(
                f"elastic {wide} wide that stretches by {elastic_bought(held)} % or more, for the waistband",
                held.elastic_cut,
            )
        )
    return bought
