"""Setting out `knit_trousers`: from a body, choices and cloth to its pieces."""

from dataclasses import replace
from functools import partial
from typing import Final

from drafting.cloth import ClothFacts
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.cutting import EdgesDoNotMeetError
from drafting.contract.set_out import SetOut
from drafting.garments.knit_trousers.findings import EDGES, asked, chalked_rings, figures, girths, points_of, record
from drafting.garments.knit_trousers.lay_out import BACK, FRONT, pieces, seams
from drafting.garments.knit_trousers.outline import outline_of
from drafting.garments.knit_trousers.parts import Parts
from drafting.garments.knit_trousers.sewing import CALLED, after_cut
from drafting.garments.knit_trousers.style import Choices, lowest_of_bags
from drafting.garments.knit_trousers.worn import worn
from drafting.parts.in_seam import lowest
from drafting.parts.legs.edges import seam_allowance
from drafting.parts.legs.held import held
from drafting.parts.legs.shaping import leg_shapings
from drafting.parts.pockets import pockets_of_legs
from drafting.person.measures import Body
from drafting.problems import Adjustment

NAME: Final = "knit_trousers"


def set_out(body: Body, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine) -> SetOut:
    """Sets out front, back and what holds it. Lengths in mm; pure and deterministic."""
    adjusted: list[Adjustment] = []
    made = outline_of(body, choices, cloth, chalked, adjusted)
    holds = held(body, choices, cloth, chalked, made.ring, made.back.waist.length(), CALLED)
    allowed = seam_allowance(choices, (made.front.seat, made.back.seat), cloth, adjusted)
    sides = made.front.side, made.back.side
    low = min(lowest(made.at.hem, 0.0), lowest_of_bags(body))
    turned_in = holds.along_edge if holds.band is None else 0.0
    pockets = pockets_of_legs(choices.pockets, body, sides, made.at.hip, low, allowed, turned_in)
    parts = Parts(body, choices, cloth, chalked, made, holds, allowed, pockets)
    shaped = leg_shapings(choices, {key: frozenset(edge for _, edge in on) for key, on in EDGES.items()})
    drafted = SetOut(NAME, body, choices, cloth, chalked, facts=record(parts), adjusted=tuple(adjusted),
                     shapings=shaped, from_shoulders=False)  # fmt: skip
    try:
        cut = pieces(parts)
    except EdgesDoNotMeetError as error:
        return replace(drafted, refused=("outline_simple",), crossed=error.edges)
    return replace(
        drafted,
        pieces=cut,
        seams=seams(parts),
        girths=girths(parts),
        figures=figures(parts),
        points=points_of(parts),
        after_cut=after_cut(parts, chalked.tape.unit),
        asked=asked(parts, {each.key for each in adjusted}),
        worn=worn(parts),
        let_in=pockets.let_in((FRONT, BACK), "side"),
        chalked_facts=partial(chalked_rings, parts),
    )
