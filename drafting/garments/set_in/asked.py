"""What a style of `set_in` asks for, and how each of it is found on the finished outline."""

from drafting.contract.asked import Across, Asked, BelowLevel, EdgeLength, Measure, StartAcross, Sum
from drafting.garments.set_in.parts import Parts
from drafting.parts.top_asked import (
    BODY,
    Edges,
    PastShoulderPoint,
    allowances_asked,
    bands_asked,
    body_asked,
    bust_asked,
    neck_asked,
    slope_asked,
    with_band,
)

#: The edges that each allowance of a style lies outside of, by piece.
_ALLOWANCES: Edges = {
    "shoulder": (("front", "shoulder"), ("back", "shoulder")),
    "armhole": (("front", "armhole"), ("back", "armhole"), ("sleeve", "cap")),
    "side": (("front", "side"), ("back", "side"), ("sleeve", "under_front"), ("sleeve", "under_back")),
    "hem": (("front", "hem"), ("back", "hem")),
    "sleeve_end": (("sleeve", "sleeve_end"),),
    "neck": (("front", "neck_edge"), ("back", "neck_edge")),
}


def asked(parts: Parts) -> tuple[Asked, ...]:
    """Everything that the style asks for in lengths, girths and angles, mm and degrees."""
    at_bust: list[Measure] = [StartAcross(name, "side") for name in BODY]
    if parts.bust is not None:
        at_bust = [Across(name, "bust") for name in BODY]
    return (
        neck_asked(parts),
        slope_asked(parts),
        bust_asked(parts, at_bust),
        *_sleeve(parts),
        *body_asked(parts),
        *bands_asked(parts),
        *allowances_asked(parts, _ALLOWANCES),
    )


def _sleeve(parts: Parts) -> list[Asked]:
    body, choices = parts.body, parts.choices
    along = Sum(
        (
            (1.0, BelowLevel("sleeve", "cap_top", "sleeve_end", "start")),
            (1.0, PastShoulderPoint("front", "shoulder", body.shoulder_width / 2)),
        )
    )
    return [
        Asked("sleeve_length", "length of the sleeve from the shoulder point", choices.sleeve_length,
              with_band(along, parts.bands.cuff, parts.sleeve_flounce)),
        Asked("sleeve_end_girth", "girth at the sleeve end", choices.sleeve_end_girth,
              EdgeLength("sleeve", "sleeve_end")),
    ]  # fmt: skip
