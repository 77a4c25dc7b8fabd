"""Setting out `poncho`: from a body, choices and cloth to its two pieces.

Order of solving: the neck that the head passes, then the seam and the arc of the hem, then the allowances.
"""

from dataclasses import replace
from typing import Final

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.cutting import EdgesDoNotMeetError
from drafting.contract.set_out import SetOut
from drafting.garments.poncho.findings import asked, figures, girths, points_of, record
from drafting.garments.poncho.lay_out import pieces, seams
from drafting.garments.poncho.outline import Parts, neck_of
from drafting.garments.poncho.sewing import after_cut
from drafting.garments.poncho.shaping import shapings
from drafting.garments.poncho.style import Choices
from drafting.garments.poncho.worn import worn
from drafting.parts.neck import Neckline, edge_allowance
from drafting.person.measures import Body
from drafting.problems import Adjustment

NAME: Final = "poncho"


def set_out(body: Body, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine) -> SetOut:
    """Sets out front and back, or says what stops it. Lengths in mm; pure and deterministic."""
    adjusted: list[Adjustment] = []
    base, neck = neck_of(body, choices, cloth)
    allowances = _allowances(choices, neck, adjusted)
    parts = Parts(body, choices, cloth, chalked, base, neck, allowances)
    facts, shaped = record(parts), shapings(choices)
    stopped = SetOut(NAME, body, choices, cloth, chalked, facts=facts, adjusted=tuple(adjusted), shapings=shaped)
    if facts["shoulder_run"] < facts["shoulder_run_least"] - 1e-6:
        return replace(stopped, refused=("shoulder_run",), shapings=())
    try:
        cut = pieces(parts)
    except EdgesDoNotMeetError as error:
        return replace(stopped, refused=("outline_simple",), crossed=error.edges)
    return replace(
        stopped,
        pieces=cut,
        seams=seams(parts),
        girths=girths(parts),
        figures=figures(parts),
        points=points_of(parts),
        after_cut=after_cut(parts, chalked.tape.unit),
        asked=asked(parts),
        worn=worn(parts),
        # The neck is a curve, whose length no step of a tape changes by itself.
        chalked_facts=lambda other: {"head_ring": neck.ring},
    )


def _allowances(choices: Choices, neck: Neckline, adjusted: list[Adjustment]) -> dict[str, float]:
    """Allowances, limited where a curve would not take them; only what was asked for is told."""
    found = {"shoulder": choices.shoulder, "hem": choices.hem, "neck": choices.neck_allowance}
    limits = {
        "hem": (sources.CURVED_HEM_MOST, "a curved hem does not turn up flat with more"),
        "neck": (edge_allowance(neck, choices.neck_allowance), "the curve of the neck is too tight for more"),
    }
    for key, (most, why) in limits.items():
        if found[key] > most + 1e-6:
            if key in choices.allowances_given:
                adjusted.append(Adjustment(f"allowances.{key}", f"{key} allowance", found[key], most, why))
            found[key] = most
    return found
