"""What finished leggings or trousers are found to be: girths of the waist, figures, and the facts of their checks."""

from dataclasses import dataclass
from itertools import pairwise

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.contract.asked import Allowance, Asked, EdgeLength, FinishedOutline, Sum
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.girths import Along, ChalkedGirth, FinishedGirth, Passes, SumOf
from drafting.contract.pieces import FinishedFigure
from drafting.parts.legs.held import Held, band_as_chalked
from drafting.parts.legs.sizes import slack
from drafting.parts.legs.style import LegChoices
from drafting.parts.rib import band_stretch
from drafting.person.measures import Body
from drafting.person.passing import foot_needs, hip_needs


@dataclass(frozen=True, slots=True)
class Measured:
    """A pair of legs as its outline measures it, mm: `seat` is the seat seam, `inner` the inner leg of one leg.

    `thigh` and `hem` go round one leg; `corners` are the corners at which the waist is chalked, all round.
    """

    hip: float
    thigh: float
    hem: float
    seat: float
    inner: float
    raised: float
    crotch: float
    corners: int


@dataclass(frozen=True, slots=True)
class Wide:
    """The width of a piece at a level, from its outline on one side to that on the other."""

    piece: str
    level: str

    def of(self, outline: FinishedOutline) -> float:
        """Mm."""
        level = outline.level(self.piece, self.level)
        found = []
        for edge in outline.piece(self.piece).edges:
            points = outline.path(self.piece, edge.name).flatten(0.02)
            for a, b in pairwise(points):
                if min(a.y, b.y) <= level <= max(a.y, b.y) and a.y != b.y:
                    found.append(a.between(b, (level - a.y) / (b.y - a.y)).x)
        return max(found) - min(found)


def waist_girths(
    body: Body, choices: LegChoices, cloth: ClothFacts, held: Held, along: ChalkedGirth
) -> list[FinishedGirth]:
    """Waistband and waist edge, from the top down, each with how it runs over the marks."""
    found, band, needs = [], held.band, hip_needs(body)
    if band is not None:
        top = Along(band.name, (f"{band.name}_top", f"{band.name}_corner"))
        label = "waistband" if held.elastic is None else "casing of the waistband"
        stretch = band_stretch(choices.rib, cloth)
        found.append(FinishedGirth("waistband", label, band.length, body.waist_girth, chalked=SumOf(((2.0, top),)),
                                   passes=Passes("hip", needs, stretch)))  # fmt: skip
    label = "waist edge" if band is None else "waist seam"
    found.append(FinishedGirth("waist_seam", label, held.ring, body.waist_girth, chalked=along,
                               passes=Passes("hip", needs, cloth.across)))  # fmt: skip
    return found


def hem_passes(body: Body, cloth: ClothFacts) -> Passes:
    """What goes through a hem."""
    return Passes("heel", foot_needs(body), cloth.across)


def leg_figures(choices: LegChoices, held: Held, found: Measured) -> tuple[FinishedFigure, ...]:
    """Lengths that no girth says, mm."""
    top = "waist edge" if held.band is None else "waist seam"
    figures = [
        FinishedFigure("length", f"{top} to hem, at the side", choices.length),
        FinishedFigure("inner_leg", "inner leg", found.inner),
        FinishedFigure("crotch", f"crotch below the {top}, at the side", found.crotch),
        FinishedFigure("seat", "seat seam, waist to waist between the legs", found.seat),
        FinishedFigure("raised", "waist higher at the centre back than at the side", found.raised),
        FinishedFigure("band_height", f"height of the {held.called}", held.casing),
    ]
    if held.elastic is not None:
        figures.append(FinishedFigure("elastic", "elastic, with its ends over each other", held.elastic.cut))
    return tuple(figures)


def leg_facts(
    body: Body, choices: LegChoices, cloth: ClothFacts, chalked: ChalkedLine, held: Held, found: Measured
) -> dict[str, float]:  # fmt: skip
    """What the shared checks judge, mm, but for stretches and shares."""
    facts = {
        "hip_needs": hip_needs(body),
        "waist_seam": held.ring,
        "waist_stretch": cloth.across,
        "band_is_jersey": float(held.elastic is None),
        "elastic": 0.0 if held.elastic is None else held.elastic.length,
        "gathered": held.ring / held.holds,
        "hip_finished": found.hip,
        "seat_seam": found.seat,
        "thigh_finished": found.thigh,
        "leg_end": found.hem,
        "hem_above_floor": body.waist_height - choices.length,
        **leg_rings(cloth, held, found, chalked),
    }
    if held.band is not None:
        facts |= {"band_length": held.band.length, "band_stretch": band_stretch(choices.rib, cloth)}
    return facts


def leg_rings(cloth: ClothFacts, held: Held, found: Measured, chalked: ChalkedLine) -> dict[str, float]:
    """The facts of the rings that something must pass, as a tape chalks them, mm.

    Both ends of a hem may be read half a step too near.
    """
    return {
        "waist_seam_chalked": held.ring - slack(chalked, cloth, found.corners),
        "leg_end_chalked": found.hem - chalked.tape.finest.size * (1 - cloth.shrink_across),
        **band_as_chalked(held, cloth, chalked),
    }


def leg_allowances(choices: LegChoices, held: Held, edges: dict[str, list[tuple[str, str]]]) -> list[Asked]:
    """The allowances and the height of the band that were asked for; `edges` are where each allowance lies."""
    found: list[Asked] = []
    band = held.band
    on = {**edges, "waist": [*edges["waist"]]}
    if band is not None:
        on["waist"] += [(band.name, band.first_edge), (band.name, band.second_edge)]
    if choices.band_height_given and band is not None:
        height = Sum(((0.5, EdgeLength(band.name, band.end)),))
        found.append(Asked("waistband_height", "height of the waistband", choices.band_height, height))
    elif choices.band_height_given:
        piece, edge = edges["waist"][0]
        what = "what is turned in at the waist"
        found.append(Asked("waistband_height", what, choices.band_height + held.allowance, Allowance(piece, edge)))
    beyond = {"waist": 0.0 if band is not None else held.casing}
    for key in sorted(choices.allowances_given):
        wanted = getattr(choices, key) + beyond.get(key, 0.0)
        what = f"allowance of the {key}"
        found += [Asked(f"allowances.{key}", what, wanted, Allowance(piece, edge)) for piece, edge in on[key]]
    return found


def sitting_takes(body: Body) -> float:
    """What sitting takes along the seat seam, mm."""
    return body.crotch_length + sources.SITTING_SEAT * sources.scale(body.stature)
