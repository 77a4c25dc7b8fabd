"""How a flounce is sewn, tried on and bought for.

Everything here is common practice, no source, unless a line says otherwise. Lengths in mm, said in the tape's unit.
"""

from typing import Final

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.contract.after_cut import SewStep, TryOn
from drafting.parts.flounce import HEM_ALLOWANCE, Flounce
from drafting.parts.sewing import Say, hem_needle, washed_first
from drafting.sentences import lower_first

#: One that is longer than its edge by less than this share is eased in, by more it is gathered. Our choice.
EASED_MOST: Final = 0.1
#: Told as longer from here on, mm.
TOLD_FROM: Final = 2.0


def flounce_sewn(flounce: Flounce, say: Say) -> SewStep:
    """Its parts, its stay-stitching, and the seam that it hangs from; its hem comes after it has hung."""
    said = lower_first(flounce.label)
    title = "Sleeve flounces" if flounce.role == "sleeve" else "Hem flounce"
    says = f"{_joined(flounce)} Stay-stitch the inner edge just beside the stitching line, and clip it up to there "
    says += f"every {say(sources.CLIP_EVERY)}, so that it can be laid straight. {_pinned(flounce)}"
    longer = flounce.seam - flounce.ring
    if longer > EASED_MOST * flounce.ring:
        says += f" The {said} is {say(longer)} longer: gather it to the edge evenly between the pins."
    elif longer > TOLD_FROM:
        says += f" The {said} is {say(longer)} longer: ease that in evenly between the pins."
    says += " Sew it on, right sides together, with a stitch that stretches."
    return SewStep(flounce.name, title, says)


def _joined(flounce: Flounce) -> str:
    each = "each flounce" if flounce.garment > 1 else "the flounce"
    if flounce.parts == 1:
        return f"Right sides together, close {each} to a ring."
    return f"Right sides together, sew the {flounce.parts} parts of {each} to a ring."


def _pinned(flounce: Flounce) -> str:
    if flounce.role == "sleeve":
        if flounce.parts == 1:
            return (
                "Pin its seam to the under seam of the sleeve, its middle to the middle of the sleeve end, and its "
                "quarter marks to the notches there."
            )
        return (
            "Pin a seam of it to the under seam of the sleeve, and its other seams and its middles to the middle of "
            "the sleeve end and to the notches there."
        )
    if flounce.parts == 1:
        return (
            "Pin its seam to the centre back, its middle to the centre front, and its quarter marks to the side seams."
        )
    behind = "a seam" if flounce.parts % 2 else "the middle of another"
    to = "the side seams" if flounce.parts == 2 else "the notches of the hem"
    return (
        f"Pin the middle of a part to the centre front, {behind} to the centre back, and its other seams and middles "
        f"to {to}."
    )


def flounce_hung(cloth: ClothFacts, say: Say) -> SewStep:
    """A flounce hangs before its hem: its grain turns all round."""
    says = (
        "Let the garment hang for a day: where the cloth of a flounce runs slanting it drops. Then level its free "
        f"edge, and turn it up once, by {say(HEM_ALLOWANCE)}. That edge is longer than the cloth that it is turned "
        f"onto: ease that in evenly. {hem_needle(say)}"
    )
    return SewStep("hang", "Hang it, level and hem the flounce", washed_first(cloth) + says)


def flounce_rows() -> list[TryOn]:
    """A flounce at the try-on."""
    return [
        TryOn(
            "The flounce stands off instead of falling in folds.",
            "Clip its inner edge closer together, up to the stay-stitching, and press the seam towards the sleeve or "
            "the body.",
        ),
    ]
