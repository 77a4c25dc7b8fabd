"""How a hood is sewn, and what its cord takes.

Everything here is common practice, no source, unless a line says otherwise. Lengths in mm, said in the tape's unit.
"""

from drafting.contract.after_cut import SewStep, ToBuy
from drafting.parts.hood import CORD_END, CORD_HOLES, FACE_ALLOWANCE, Hood
from drafting.parts.sewing import Say, hem_needle


def hood_sewn(hood: Hood, say: Say) -> SewStep:
    """Crown, face edge, then to the neck, whose back is stayed."""
    says = (
        "Right sides together, sew the two halves from the face over the crown and down the back to the neck, notch on "
        "notch. "
    )
    if hood.corded:
        says += (
            f"On each side work a buttonhole in the part of the face edge that is turned in, {say(CORD_HOLES)} above "
            "the neck seam and in the middle of what will be the channel, over a scrap of interfacing. "
        )
    says += f"Turn the face edge in by {say(FACE_ALLOWANCE)} and sew it down. {hem_needle(say)} "
    says += (
        "Pin the hood to the neck, right sides together: its crown seam to the centre back, its notches to the "
        "shoulder seams, and both face edges to the centre front, where they meet. Sew it on with a stitch that "
        "stretches. Stay the seam across the back from shoulder to shoulder with tape or a strip of the selvage; in "
        "front leave it free, because the head has to pass."
    )
    if hood.corded:
        says += (
            f" Draw the cord through, and let {say(CORD_END)} hang from each side. Sew it fast at the crown, so that "
            "it cannot be pulled out."
        )
    return SewStep("hood", "Hood", says)


def cord_to_buy(hood: Hood | None, say: Say) -> tuple[ToBuy, ...]:
    """The cord, where there is one."""
    if hood is None or not hood.corded:
        return ()
    return (ToBuy("cord for the hood", 2 * hood.face + 2 * CORD_END),)
