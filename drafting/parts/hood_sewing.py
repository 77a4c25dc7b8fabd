"""How a hood is sewn, and what its cord and its lining take.

Everything here is common practice, no source, unless a line says otherwise. Lengths in mm, said in the tape's unit.
"""

from typing import Final

from drafting.cloth import ClothFacts
from drafting.contract.after_cut import SewStep, ToBuy
from drafting.parts.hood import CORD_END, CORD_HOLES, CROWN_ALLOWANCE, FACE_ALLOWANCE, LINING_CLOTH, Hood, hood_pieces
from drafting.parts.sewing import Say, hem_needle

#: A lining is bought with so much to spare, mm: the cloth is cut off crooked. Our choice.
LINING_SPARE: Final = 50.0


def hood_sewn(hood: Hood, say: Say) -> SewStep:
    """Crown, face edge, then to the neck, whose back is stayed."""
    return SewStep("hood", "Hood", " ".join((_crown(hood), *_face(hood, say), *_neck(hood, say))))


def _crown(hood: Hood) -> str:
    if hood.strip:
        says = (
            "Right sides together, sew a half to each side of the strip, from the face over the crown and down the "
            "back to the neck, notch on notch."
        )
    else:
        says = (
            "Right sides together, sew the two halves from the face over the crown and down the back to the neck, "
            "notch on notch."
        )
    return f"{says} Sew the lining in the same way." if hood.lined else says


def _face(hood: Hood, say: Say) -> list[str]:
    """The face edge, turned in or lined, with the buttonholes of a cord before it is closed."""
    if not hood.lined:
        worked = (
            f"On each side work a buttonhole in the part of the face edge that is turned in, {say(CORD_HOLES)} above "
            "the neck seam and in the middle of what will be the channel, over a scrap of interfacing."
        )
        turned = f"Turn the face edge in by {say(FACE_ALLOWANCE)} and sew it down. {hem_needle(say)}"
        return [worked, turned] if hood.corded else [turned]
    lined = (
        "Lay hood and lining into each other, right sides together and seam on seam, and sew the face edge by "
        f"{say(CROWN_ALLOWANCE)}. Turn the lining to the inside, press the edge, and baste the two neck edges on each "
        "other."
    )
    if not hood.corded:
        return [lined]
    worked = (
        f"On each side work a buttonhole in the hood itself, {say(CORD_HOLES)} above the neck seam and in the middle "
        "of what will be the channel, over a scrap of interfacing."
    )
    channel = f"For the channel of the cord stitch through hood and lining, {say(FACE_ALLOWANCE)} beside the face edge."
    return [worked, lined, channel]


def _neck(hood: Hood, say: Say) -> list[str]:
    middle = "the middle of its strip" if hood.strip else "its crown seam"
    says = [
        f"Pin the hood to the neck, right sides together: {middle} to the centre back, its notches to the shoulder "
        "seams, and both face edges to the centre front, where they meet. Sew it on with a stitch that stretches. Stay "
        "the seam across the back from shoulder to shoulder with tape or a strip of the selvage; in front leave it "
        "free, because the head has to pass."
    ]
    if hood.corded:
        says.append(
            f"Draw the cord through, and let {say(CORD_END)} hang from each side. Sew it fast at the crown, so that it "
            "cannot be pulled out."
        )
    return says


def hood_to_buy(hood: Hood | None, cloth: ClothFacts, say: Say) -> tuple[ToBuy, ...]:
    """The cord and the cloth of the lining, where there are any."""
    if hood is None:
        return ()
    found = [ToBuy("cord for the hood", hood.face_ring + 2 * CORD_END)] if hood.corded else []
    lining = [piece for piece in hood_pieces(hood, cloth) if piece.other_cloth]
    if lining:
        # Folded lengthwise, the strip on the fold and a half beside it.
        wide = 2 * sum(piece.width for piece in lining)
        what = f"{LINING_CLOTH} that stretches as far as the cloth, at least {say(wide)} wide laid flat and open"
        found.append(ToBuy(what, max(piece.long for piece in lining) + LINING_SPARE))
    return tuple(found)
