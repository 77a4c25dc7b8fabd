"""What every garment of woven cloth is sewn with.

Everything here is common practice, no source, unless a line says otherwise. Lengths in mm, said in the tape's unit.
"""

from typing import Final

from drafting.contract.after_cut import ToBuy
from drafting.parts.sewing import Say

NEEDLE: Final = (
    "Take a universal needle of size 70 for fine cloth, 80 for shirting and 90 for heavy linen. Change it when the "
    "cloth puckers."
)
THREAD: Final = "Take polyester thread. Cotton thread does for cotton and linen too."


def stitch(say: Say) -> str:
    """Which stitch to take, and how the raw edges are kept from fraying."""
    long = say.either("2.5 mm long", "about 10 stitches to the inch")
    return (
        f"Sew with a straight stitch, {long}. Woven cloth frays: sew French seams, or overcast every raw edge with a "
        "zigzag or an overlock before it is pressed."
    )


def bought(reels: str = "two reels") -> list[ToBuy]:
    """Thread and needle."""
    return [ToBuy(f"polyester thread, {reels}"), ToBuy("universal needle, size 80")]
