"""What a style of a top asks for, and how each of it is found on the finished outline."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from drafting.contract.asked import (
    Across,
    Allowance,
    Asked,
    BelowLevel,
    EdgeLength,
    FinishedOutline,
    FoldLength,
    Measure,
    NotchAboveEnd,
    Sum,
)
from drafting.parts.band import Band
from drafting.parts.flounce import Flounce, flounce_asked
from drafting.parts.top import TopParts

BODY = ("front", "back")
#: The edges of a body that an allowance lies outside of, or of its sleeve; by piece.
Edges = Mapping[str, tuple[tuple[str, str], ...]]


@dataclass(frozen=True, slots=True)
class PastShoulderPoint:
    """How far the end of the shoulder seam lies past the shoulder point, along the seam."""

    piece: str
    edge: str
    across: float

    def of(self, outline: FinishedOutline) -> float:
        """Mm; `across` is how far the shoulder point lies from the fold."""
        path = outline.path(self.piece, self.edge)
        away = path.segments[-1].tangent(1.0)
        return (path.end.x - outline.centre(self.piece) - self.across) / away.x


@dataclass(frozen=True, slots=True)
class FallsToTheSide:
    """The slope of a straight edge below level."""

    piece: str
    edge: str

    def of(self, outline: FinishedOutline) -> float:
        """Degrees."""
        away = outline.path(self.piece, self.edge).segments[-1].tangent(1.0)
        return math.degrees(math.atan2(away.y, away.x))


def with_band(long: Measure, band: Band | None, flounce: Flounce | None = None) -> Measure:
    """A length with its band, which is folded, or with its flounce."""
    if flounce is not None:
        return Sum(((1.0, long), (1.0, EdgeLength(flounce.name, flounce.side))))
    if band is None:
        return long
    return Sum(((1.0, long), (0.5, FoldLength(band.name))))


def neck_asked(parts: TopParts) -> Asked:
    """The depth of a V."""
    return Asked("neck_depth", "depth of the neck in front", parts.choices.neck_depth,
                 BelowLevel("front", "side_neck", "neck_edge", "start"))  # fmt: skip


def slope_asked(parts: TopParts) -> Asked:
    """The slope of the shoulder, degrees."""
    return Asked("shoulder_slope", "slope of the shoulder", math.degrees(parts.choices.slope),
                 FallsToTheSide("front", "shoulder"), unit="deg")  # fmt: skip


def bust_asked(parts: TopParts, across: list[Measure]) -> Asked:
    """The girth at the bust; `across` is where each of front and back is measured."""
    choices, body = parts.choices, parts.body
    bust = None if choices.ease_bust is None else body.bust_girth + choices.ease_bust
    return Asked("ease_bust", "bust, all round", bust, _quarters(across))


def _quarters(measures: list[Measure]) -> Measure:
    """Four quarters all round: twice that of each body piece."""
    return Sum(tuple((2.0, measure) for measure in measures))


def body_asked(parts: TopParts) -> list[Asked]:
    """Length, waist, hip, hem and slit."""
    body, choices, at, band = parts.body, parts.choices, parts.at, parts.bands.hem
    long: Measure = BelowLevel("back", "side_neck", "hem", "end")
    long = with_band(long, band, parts.hem_flounce)
    found = [Asked("length", "length from the side-neck level", choices.length, long)]
    girths = [("waist", body.waist_girth, choices.ease_waist)]
    girths += [("hip", body.hip_girth, choices.ease_hip)] if at.reaches_hip else []
    for name, girth, ease in girths:
        across: list[Measure] = [Across(piece, name) for piece in BODY]
        wanted = None if ease is None else girth + ease
        found.append(Asked(f"ease_{name}", f"{name}, all round", wanted, _quarters(across)))
    # Over a full bust the hem of the front is a little longer, so the back stands for both.
    hem = Sum(((4.0, EdgeLength("back", "hem")),))
    found.append(Asked("hem_girth", "hem, all round", choices.hem_girth, hem))
    if choices.slit is not None and not choices.hem_sewn:
        found.extend(Asked("slit", "slit", choices.slit, NotchAboveEnd(name, "side", "slit")) for name in BODY)
    return found


def bands_asked(parts: TopParts) -> list[Asked]:
    """The finished heights of the bands, half of what each is long, folded; and the depths of the flounces."""
    keys = {"neck_band": "band_height", "cuff": "cuff_height", "hem_band": "hem_band_height"}
    bands = [
        Asked(keys[band.name], f"height of the {band.label.lower()}",
              band.height if keys[band.name] in parts.choices.given else None,
              Sum(((0.5, FoldLength(band.name)),)))
        for band in parts.bands.all
    ]  # fmt: skip
    choices = parts.choices
    return [
        *bands,
        *flounce_asked(parts.sleeve_flounce, choices.sleeve_flounce),
        *flounce_asked(parts.hem_flounce, choices.hem_flounce),
    ]


def allowances_asked(parts: TopParts, edges: Edges) -> list[Asked]:
    """The allowances that were given, each on every edge it lies outside of."""
    choices = parts.choices
    wanted = {key: getattr(choices, "neck_allowance" if key == "neck" else key) for key in edges}
    return [
        Asked(f"allowances.{key}", f"allowance of the {key.replace('_', ' ')}", wanted[key], Allowance(piece, edge))
        for key in sorted(choices.allowances_given)
        for piece, edge in edges[key]
    ]
