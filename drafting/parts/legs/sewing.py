"""How leggings and trousers are sewn, tried on and bought for: what they share.

Everything here is common practice, from memory, no source, unless a line says otherwise. Lengths in mm, said in the
tape's unit.
"""

from drafting.cloth import ClothFacts
from drafting.contract.after_cut import SewStep, ToBuy, TryOn
from drafting.parts.legs.held import Held
from drafting.parts.legs.style import LegChoices
from drafting.parts.rib import rib_to_buy
from drafting.parts.sewing import Say, bought, hem_needle, pulled_by
from drafting.parts.waistband_sewing import (
    GAP,
    GROWING,
    closed_band,
    elastic_drawn_in,
    elastic_to_buy,
    sewn_on,
    tried_on,
    waist_rows,
)
from drafting.person.measures import Body

#: Room for a nappy round the hip, and in the length of the crotch, mm.
NAPPY: tuple[float, float] = (50.0, 20.0)


def seat_step() -> SewStep:
    """Both legs are joined by the seat, in one seam from waist to waist."""
    says = (
        "Turn one leg right side out and slip it into the other, so that right sides lie together. Pin the seat: "
        "centre front, centre back, the inner leg seams on each other, the single notches in front and the double "
        "ones behind. Sew it in one go from waist to waist, and once more beside the first stitching between the "
        "notches, with a stitch that stretches."
    )
    return SewStep("seat", "Seat seam", says)


def waist_steps(held: Held, say: Say, garment: str) -> list[SewStep]:
    """Band or casing, and the elastic."""
    if held.waistband is None:
        says = (
            f"Neaten the waist edge. Turn it in by {say(held.along_edge)} and sew it down all round, "
            f"{say(held.casing)} below the fold, with a stitch that stretches. At the centre back leave {say(GAP)} "
            f"open, for the elastic."
        )
        steps = [SewStep("waist", "Casing", says)]
    else:
        says = (
            "Pin the waistband to the right side of the waist: its seam to the centre back, its fold to the centre "
            f"front, and its notches to the sides. {sewn_on(held.waistband, garment)}"
        )
        steps = [closed_band(held.waistband, say), SewStep("waist", "Waist seam", says)]
    return steps if held.elastic is None else [*steps, elastic_drawn_in(held.elastic, say)]


def try_on_step(cloth: ClothFacts, held: Held, garment: str) -> SewStep:
    """It is tried on before the hems are sewn."""
    return tried_on(cloth, held.called, "Sit down, bend over, and lift a knee.", garment)


def hems_step(choices: LegChoices, say: Say) -> SewStep:
    """Both hems."""
    return SewStep("hem", "Hems", f"Turn both hems up once, by {say(choices.hem)}. {hem_needle(say)}")


def leg_rows(held: Held, say: Say) -> list[TryOn]:
    """What may be wrong at waist and seat, and what to change."""
    little, lower = say(10.0), "Turn the casing in deeper" if held.band is None else "Sew the waistband lower"
    return [
        *waist_rows(held.elastic, say, held.called),
        TryOn(
            "The waist is pulled down behind when you sit.",
            f"The seat seam is too short. Next time give the crotch length {say.span(10, 20)} more; now let the seat "
            "seam out between the legs, as far as the allowance goes.",
        ),
        TryOn(
            "Folds lie across under the seat.",
            f"The seat seam is too long. {lower} at the centre back by {little}, running to nothing at the sides.",
        ),
        TryOn(
            "Folds run from the crotch up to the hip.",
            "The seat is tight between the legs. Let the inner legs out at the crotch, as far as the allowance goes.",
        ),
        TryOn(
            "The seat pulls into the crotch.",
            f"The crotch lies too high. Sew the seat {say.span(5, 10)} lower at the crotch and cut the allowance back.",
        ),
    ]


def leg_buys(
    choices: LegChoices, cloth: ClothFacts, held: Held, say: Say
) -> tuple[ToBuy, ...]:  # fmt: skip
    """Thread, needles, elastic and rib."""
    bands = () if held.band is None else (held.band,)
    return (
        *bought(cloth, say, "hems and casing" if held.band is None else "the hems"),
        *elastic_to_buy(held.elastic, say, held.called),
        *rib_to_buy(bands, choices.rib, cloth, say),
    )


def before_cut(body: Body, say: Say) -> tuple[str, ...]:
    """What to know before it is cut: the estimates are rough, and a child grows."""
    said = []
    rough = [name for name in ("crotch_depth", "crotch_length") if body.estimated(name)]
    if rough:
        said.append(
            "The seat rests on measures that were estimated. Measure crotch depth and crotch length, or cut it first "
            "of cheap cloth that stretches as far."
        )
    if body.kind == "child":
        said.append(
            f"The marks hold no room to grow: legs that are {say.span(*GROWING)} longer can be taken up, and let down "
            "later. Ask for a new sheet with that length."
        )
        if body.age is not None and body.age < 3:
            round_hip, deep = NAPPY
            said.append(
                f"The marks hold no room for a nappy: measure hip and crotch depth over it, or add {say(round_hip)} to "
                f"the hip and {say(deep)} to the crotch depth."
            )
    return tuple(said)


def pulled_at_waist(body: Body, held: Held) -> float:
    """By what share waist edge and band are stretched when they go over the hip (CALC)."""
    ring = held.ring if held.band is None else min(held.ring, held.band.length)
    return pulled_by(body.hip_girth, ring)
