"""What every garment of stretch cloth is sewn with, and lengths in the words of its sewing order.

Everything here is common practice, no source, unless a line says otherwise. Lengths in mm, said in the tape's unit.
"""

import math
from typing import Final

from drafting import sources
from drafting.cloth import ClothFacts, before_shrinking, wearing
from drafting.contract.after_cut import SewStep, ToBuy
from drafting.person.measures import Body
from drafting.units import INCH, Unit, say_length

THREAD: Final = "Take polyester thread, which gives with the seam. Cotton thread breaks."

#: From this stretch on a needle for stretch cloth is the first choice (fraction).
STRETCHY_FROM: Final = 0.50
#: A straight stitch cracks when it is stretched by this much (fraction); below it no proof of the seam is asked for.
STRAIGHT_CRACKS: Final = 0.10
#: A scrap seam for the proof by unit, and the steps in which its pulled length is rounded up, mm.
SCRAP: Final[dict[Unit, float]] = {"cm": 200.0, "in": 8 * INCH}
SCRAP_STEP: Final[dict[Unit, float]] = {"cm": 5.0, "in": INCH / 4}
#: Held at each end of a shoulder's elastic when it is sewn on, mm. Our choice: as much as a foot takes hold of.
ELASTIC_ENDS = 20.0
#: A hem this many times as far down as the hip drops, so it hangs a day before it is levelled (our choice).
LONG_FROM: Final = 1.1
#: Bust less upper chest that needs no more length in front, then so much length for each step, mm.
BUST_FREE, BUST_STEP, BUST_LONGER = 50.0, 25.0, 15.0


class Say:
    """Lengths in words, in the unit of the tape."""

    def __init__(self, unit: Unit) -> None:
        self.unit = unit

    def __call__(self, mm: float) -> str:
        """A length, mm turned into the unit."""
        return say_length(mm, self.unit)

    def about(self, mm: float) -> str:
        """A rough length from 5 cm on, in inches to the nearest half."""
        return self(mm if self.unit == "cm" else round(2 * mm / INCH) / 2 * INCH)

    def either(self, cm: str, inch: str) -> str:
        """What is set on a machine or sold is not a length on the tape, so each unit has its own words."""
        return cm if self.unit == "cm" else inch

    def span(self, low: float, high: float) -> str:
        """Two lengths and the unit once: "1 to 1.5 cm"."""
        first, last = self(low), self(high)
        return last if first == last else f"{first.rsplit(' ', 1)[0]} to {last}"


def pulled_by(girth: float, ring: float) -> float:
    """By what share a ring is stretched when a girth goes through (CALC)."""
    return max(0.0, girth / ring - 1) if ring > 0 else 0.0


def needle(cloth: ClothFacts) -> str:
    """Which needle to take."""
    if cloth.across >= STRETCHY_FROM:
        return "Take a stretch needle of size 75, or a ballpoint needle of size 90 for a heavy knit."
    return (
        "Take a ballpoint needle of size 70 to 80, and size 90 for a heavy knit. If the cloth holds elastane, take a "
        "stretch needle of size 75."
    )


def stitch(cloth: ClothFacts, say: Say, *asked: tuple[float, str]) -> str:
    """Which stitch to take, and a scrap to prove it on.

    `asked` are the shares by which places are stretched, each with where that is.
    """
    zigzag = say.either("zigzag, 0.5 to 1 mm wide and 2.5 to 3 mm long", "narrow zigzag, about 9 stitches to the inch")
    says = (
        f"Sew with a {zigzag}, or with an overlock, its differential feed at 1.3 to 1.5. A straight stitch cracks when "
        "the seam is stretched by 10 to 15 %."
    )
    most, where = max(*asked, (wearing(cloth.across), "the garment is stretched in wear"))
    if most > STRAIGHT_CRACKS:
        scrap, step = SCRAP[say.unit], SCRAP_STEP[say.unit]
        pulled = math.ceil(scrap * (1 + most) / step - 1e-9) * step
        says += (
            f" Here {where} by {100 * most:.0f} %: before the first seam, sew {say(scrap)} on a scrap and pull it to "
            f"{say(pulled)}. No stitch may break."
        )
    return says


def elastic(shoulder: float, cloth: ClothFacts) -> float:
    """The elastic of one shoulder, mm: as long as the seam before it shrinks, and what is held at its ends."""
    return before_shrinking(shoulder, cloth.shrink_across) + ELASTIC_ENDS


def held(cloth: ClothFacts) -> str:
    """What washing will take from the garment, in words; nothing where the cloth was washed before it was cut."""
    ways = [(cloth.shrink_along, "along"), (cloth.shrink_across, "across")]
    return " and ".join(f"{100 * share:.0f} % {way}" for share, way in ways if share > 0.0)


def not_washed(cloth: ClothFacts) -> str:
    """What to know when a garment that is not washed yet is tried on, a sentence or two after a space; else nothing."""
    still = held(cloth)
    return f" It is not washed yet, so it is still larger by {still}. Take nothing in for that." if still else ""


def small_child(body: Body) -> bool:
    """Whether it is a child of an age at which nothing small may come off."""
    return body.kind == "child" and body.age is not None and body.age < sources.SMALL_PARTS_UNDER


def fuller_than_chest(body: Body) -> bool:
    """Whether the bust may ask for a longer front: past what is free, or past an upper chest that is estimated."""
    more = body.bust_girth - body.upper_chest_girth
    return more > (0.0 if body.estimated("upper_chest_girth") else BUST_FREE)


def longer_front(say: Say) -> str:
    """How much longer a front is to be for a full bust, next time."""
    return (
        f"Next time lengthen the front. A bust that is larger than the upper chest by up to {say(BUST_FREE)} asks for "
        f"nothing; each further {say(BUST_STEP)} asks for {say(BUST_LONGER)}."
    )


def room_to_grow(body: Body, say: Say) -> tuple[str, ...]:
    """What to know before a child's garment with sleeves is cut."""
    if body.kind != "child":
        return ()
    says = (
        f"The marks hold no room to grow: chalk the hem and the sleeve ends {say.span(30, 50)} farther out for that, "
        "and let them down later."
    )
    if not small_child(body):
        return (says,)
    return (
        says,
        f"The marks hold no room for a nappy: it needs {say.span(40, 60)} more round the hip, so ask for a new "
        "sheet with so much more ease there.",
    )


def hem_needle(say: Say) -> str:
    """What a hem is sewn with."""
    return f"Sew with {say.either('a twin stretch needle of 4 mm', 'a twin stretch needle')}, or with a zigzag."


def neck_band(name: str, before: float, say: Say) -> str:
    """How a band, called `name`, is sewn to a round neck; its quarter marks lie `before` the shoulder seams, mm."""
    where = "in front of" if before >= 0 else "behind"
    return (
        f"Close the {name} to a ring and fold it along its line, wrong sides together. Pin its seam to the centre "
        f"back, its fold to the centre front and its quarter marks to the neck: they lie {say(abs(before))} {where} "
        "each shoulder seam. Sew it on with both its edges together, stretched evenly between the pins."
    )


def bought(cloth: ClothFacts, say: Say, hem: str = "", reels: str = "one reel") -> list[ToBuy]:
    """Thread, needle, and the needle for what is turned up: "the hem", "the hems", or nothing."""
    which = "stretch needle, size 75" if cloth.across >= STRETCHY_FROM else "ballpoint needle, size 70 to 80"
    found = [ToBuy(f"polyester thread, {reels}"), ToBuy(which)]
    if hem:
        found.append(ToBuy(f"{say.either('twin stretch needle, 4 mm', 'twin stretch needle')}, for {hem}"))
    return found


def shoulder_elastic(shoulder: float, cloth: ClothFacts, say: Say) -> ToBuy:
    """The elastic of both shoulders; `shoulder` is the finished seam of one, mm."""
    wide = say.either("6 mm", "¼ in")
    return ToBuy(f"clear elastic or stay tape {wide} wide, for both shoulders", 2 * elastic(shoulder, cloth))


def washed_first(cloth: ClothFacts) -> str:
    """Said where washing will take something from the garment, a sentence before others; else nothing."""
    return "Wash it first, since the marks hold what washing takes. " if held(cloth) else ""


def hang(cloth: ClothFacts, *, long: bool) -> SewStep:
    """The garment hangs before its hem is levelled; a `long` one always."""
    if long or cloth.recovery != "good":
        says = "Let the garment hang for a day, since it will drop. Then level the hem."
    else:
        says = "Let viscose (rayon) or heavy knit hang for a day. Then level the hem."
    return SewStep("hang", "Hang it and level the hem", washed_first(cloth) + says)
