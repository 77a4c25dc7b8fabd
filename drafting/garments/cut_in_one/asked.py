"""What a style of `cut_in_one` asks for, and how each of it is found on the finished outline."""

import math
from collections.abc import Sequence

from drafting.contract.asked import (
    Across,
    Allowance,
    Asked,
    BelowLevel,
    EdgeLength,
    FoldLength,
    FromCorner,
    LeansAtStart,
    LeastAcross,
    LeastFromEnd,
    Measure,
    NotBelowZero,
    NotchAboveEnd,
    NotchBelowLevel,
    RoundedCorner,
    StartAcross,
    Sum,
    TrimFalls,
    TurnsBy,
)
from drafting.contract.pieces import Piece
from drafting.garments.cut_in_one.lay_out import Parts
from drafting.garments.cut_in_one.neck import Neck
from drafting.garments.cut_in_one.wing import deep_above
from drafting.parts.flounce import flounce_asked
from drafting.parts.top_asked import with_band
from drafting.parts.widths import Widths
from drafting.sources import scale


def asked(parts: Parts, made: tuple[Piece, ...], front: Neck, wide: Widths) -> tuple[Asked, ...]:
    """Everything that the style asks for in lengths, girths and angles, mm and degrees."""
    # Where the back is cut like the front it has the same edges, which are measured once.
    bodies = [piece.name for piece in made if piece.name in {"front", "back"}]
    if made[0].cut_line is made[1].cut_line:
        bodies = ["front"]
    return (
        *_neck(parts, bodies, front),
        *_sleeve(parts, bodies),
        *_bands(parts),
        *_body(parts, bodies, wide),
        *_allowances(parts, made, bodies),
    )


def _ring(bodies: list[str], quarters: Sequence[Measure]) -> Measure:
    """Four quarters all round: twice that of each body piece, or four times where one stands for both."""
    return Sum(tuple((4.0 / len(bodies), quarter) for quarter in quarters))


def _neck(parts: Parts, bodies: list[str], front: Neck) -> list[Asked]:
    choices = parts.choices
    found: list[Asked] = []
    for name in bodies:
        rise = NotBelowZero(Sum(((-1.0, BelowLevel(name, "side_neck", "neck_top", "start")),)))
        found.append(Asked("neck_height", "height of the neck", choices.neck_height, rise))
        found.append(
            Asked("neck_half_width", "half width of the neck", choices.neck_half_width, LeastAcross(name, "shoulder"))
        )
        lean = None if front.scooped else LeansAtStart(name, "shoulder")
        found.append(Asked("neck_lean", "lean of the neck", math.degrees(choices.lean), lean, unit="deg"))
        fall = None if front.scooped else TrimFalls(name)
        found.append(Asked("neck_slant", "slant of the neck edge", math.degrees(choices.slant), fall, unit="deg"))
        if choices.drop is not None:
            drop = NotchBelowLevel(name, "side_neck", "shoulder_point")
            found.append(Asked("shoulder_drop", "drop of the shoulder point", choices.drop, drop))
    return found


def _sleeve(parts: Parts, bodies: list[str]) -> list[Asked]:
    choices, sleeve, joined = parts.choices, parts.sleeve, parts.joint is not None
    found: list[Asked] = []
    for name in bodies:
        upper: Measure = FromCorner(name, "shoulder", "shoulder_point")
        length = Sum(((1.0, upper), (1.0, FoldLength("lower_sleeve")))) if joined else upper
        wanted = choices.sleeve_length
        if parts.cuff is not None:
            # The choices of a sleeve with a cuff are those of the sleeve alone; asked was the length of both.
            length, wanted = Sum(((1.0, length), (0.5, FoldLength(parts.cuff.name)))), wanted + parts.cuff.height
        if parts.sleeve_flounce is not None:
            length, wanted = with_band(length, None, parts.sleeve_flounce), wanted + choices.below_sleeve
        found.append(Asked("sleeve_length", "length of the sleeve from the shoulder point", wanted, length))
    # Two layers go round the arm; a lower sleeve that is cut apart lies on the fold.
    each = 2.0 / len(bodies)
    end_piece = "lower_sleeve" if joined else bodies[0]
    if joined:
        end: Measure = Sum(((2.0, EdgeLength("lower_sleeve", "sleeve_end")),))
        narrowest: Measure = Sum(((2.0, LeastAcross("lower_sleeve", "under")),))
    else:
        end = Sum(tuple((each, EdgeLength(name, "sleeve_end")) for name in bodies))
        narrowest = Sum(tuple((each, LeastFromEnd(name, "shoulder", "side")) for name in bodies))
    found.append(
        Asked(
            "narrowest_girth",
            "narrowest girth of the sleeve",
            choices.narrowest_girth,
            end if sleeve.cap else narrowest,
        )
    )
    if choices.flare_girth is not None:
        found.append(Asked("flare", "girth at the sleeve end", choices.flare_girth, end))
    elif choices.flare > 0:
        angle = None if sleeve.cap else TurnsBy(end_piece, "sleeve_end")
        found.append(Asked("flare", "angle of the flare", math.degrees(choices.flare), angle, unit="deg"))
    if choices.deep:
        what, above = "underarm above the waist", deep_above(choices, scale(parts.body.stature))
        found.extend(Asked("underarm_above_waist", what, above, _corner(parts, name)) for name in bodies)
    return found


def _corner(parts: Parts, name: str) -> Measure:
    """The underarm above the waist: of a cap the corner between its end and the side."""
    if parts.sleeve.cap:
        return Sum(((-1.0, BelowLevel(name, "waist", "side", "start")),))
    return RoundedCorner(name, "side", "waist", parts.corner.x, parts.corner.y)


def _bands(parts: Parts) -> list[Asked]:
    """Finished heights of cuff and neck band that were asked for, half of what each is long, and depths of flounces."""
    choices = parts.choices
    given = (
        (parts.cuff, "cuff_height", choices.cuff_given),
        (parts.neck_band, "neck_band_height", choices.neck_band_given),
    )
    bands = [
        Asked(key, f"height of the {band.label.lower()}", band.height, Sum(((0.5, FoldLength(band.name)),)))
        for band, key, asked_for in given
        if band is not None and asked_for
    ]
    return [
        *bands,
        *flounce_asked(parts.sleeve_flounce, choices.sleeve_flounce),
        *flounce_asked(parts.hem_flounce, choices.hem_flounce),
    ]


def _body(parts: Parts, bodies: list[str], wide: Widths) -> list[Asked]:
    body, choices, at = parts.body, parts.choices, parts.at
    found = [
        Asked("length", "length from the side-neck level", choices.length + choices.below_hem,
              with_band(BelowLevel(name, "side_neck", "hem", "end"), None, parts.hem_flounce))
        for name in bodies
    ]  # fmt: skip
    side_from = parts.underarm.side_level if parts.underarm else parts.corner.y
    girths = [("bust", body.bust_girth, choices.ease_bust)] if at.bust < at.hem else []
    girths += [("waist", body.waist_girth, choices.ease_waist)]
    girths += [("hip", body.hip_girth, choices.ease_hip)] if at.reaches_hip else []
    for name, girth, ease in girths:
        across: list[Measure] = [Across(piece, name) for piece in bodies]
        # Held where the side begins to be shaped: the batwing, or a side that runs out from there, makes it wider.
        runs_out = at.bust > wide.knot + 1e-6 and (wide.straight or wide.waist > wide.bust)
        wider = name == "bust" and (at.bust < side_from or runs_out)
        if name == "bust" and parts.sleeve.cap and at.bust < parts.corner.y:
            across = [StartAcross(piece, "side") for piece in bodies]  # beside the armhole there is no ring
        wanted = None if ease is None else girth + ease
        found.append(Asked(f"ease_{name}", f"{name}, all round", wanted, _ring(bodies, across), at_least=wider))
    hem = _ring(bodies, [EdgeLength(name, "hem") for name in bodies])
    found.append(Asked("hem_girth", "hem, all round", choices.hem_girth, hem))
    if choices.slit is not None and parts.hem_flounce is None:
        found.extend(Asked("slit", "slit", choices.slit, NotchAboveEnd(name, "side", "slit")) for name in bodies)
    return found


#: The edges that each allowance of a style lies outside of, by piece.
_ALLOWANCES = {
    "shoulder": (("front", "shoulder"), ("back", "shoulder")),
    "side": (("front", "side"), ("back", "side"), ("lower_sleeve", "under")),
    "hem": (("front", "hem"), ("back", "hem")),
    "sleeve_end": (("front", "sleeve_end"), ("back", "sleeve_end"), ("lower_sleeve", "sleeve_end")),
    "neck_top": (("front", "neck_top"), ("back", "neck_top")),
    "centre_back": (("back", "centre_back"),),
    "sleeve_joint": (("front", "sleeve_joint"), ("back", "sleeve_joint"), ("lower_sleeve", "joint")),
}


def _allowances(parts: Parts, made: tuple[Piece, ...], bodies: list[str]) -> list[Asked]:
    """Those that were given, each on every edge it lies outside of."""
    there = {
        (piece.name, edge.name)
        for piece in made
        if piece.name in bodies or piece.name not in {"front", "back"}
        for edge in piece.edges
    }
    return [
        Asked(
            f"allowances.{key}",
            f"allowance of the {key.replace('_', ' ')}",
            getattr(parts.choices, key),
            Allowance(piece, edge),
        )
        for key in sorted(parts.choices.allowances_given)
        for piece, edge in _ALLOWANCES[key]
        if (piece, edge) in there
    ]
