"""What a style of `drop_shoulder` asks for, and how each of it is found on the finished outline."""

from drafting.contract.asked import Asked, BelowLevel, EdgeLength, FoldLength, StartAcross, Sum
from drafting.garments.drop_shoulder.parts import Parts
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


def asked(parts: Parts) -> tuple[Asked, ...]:
    """Everything that the style asks for in lengths, girths and angles, mm and degrees."""
    return (
        *_upper(parts),
        *_sleeve(parts),
        *body_asked(parts),
        *bands_asked(parts),
        *allowances_asked(parts, _ALLOWANCES),
    )


def _upper(parts: Parts) -> list[Asked]:
    past = PastShoulderPoint("front", "shoulder", parts.body.shoulder_width / 2)
    return [
        neck_asked(parts),
        Asked("extension", "shoulder past the shoulder point", parts.choices.extension, past),
        slope_asked(parts),
        bust_asked(parts, [StartAcross(name, "side") for name in BODY]),
    ]


def _sleeve(parts: Parts) -> list[Asked]:
    body, choices = parts.body, parts.choices
    along = Sum(((1.0, FoldLength("sleeve")), (1.0, PastShoulderPoint("front", "shoulder", body.shoulder_width / 2))))
    long = with_band(along, parts.bands.cuff, parts.sleeve_flounce)
    return [
        Asked("sleeve_length", "length of the sleeve from the shoulder point", choices.sleeve_length, long),
        Asked("cap_height", "height of the cap", choices.cap_height if "cap_height" in choices.given else None,
              BelowLevel("sleeve", "cap_top", "cap", "end")),
        Asked("sleeve_end_girth", "girth at the sleeve end", choices.sleeve_end_girth,
              Sum(((2.0, EdgeLength("sleeve", "sleeve_end")),))),
    ]  # fmt: skip


#: The edges that each allowance of a style lies outside of, by piece.
_ALLOWANCES: Edges = {
    "shoulder": (("front", "shoulder"), ("back", "shoulder")),
    "armhole": (("front", "armhole"), ("back", "armhole"), ("sleeve", "cap")),
    "side": (("front", "side"), ("back", "side"), ("sleeve", "under")),
    "hem": (("front", "hem"), ("back", "hem")),
    "sleeve_end": (("sleeve", "sleeve_end"),),
    "neck": (("front", "neck_edge"), ("back", "neck_edge")),
}
