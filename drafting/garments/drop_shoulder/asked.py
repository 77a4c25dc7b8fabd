"""What a style of `drop_shoulder` asks for, and how each of it is found on the finished outline."""

import math
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
    StartAcross,
    Sum,
)
from drafting.garments.drop_shoulder.parts import Parts
from drafting.parts.band import Band

BODY = ("front", "back")


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


def _with_band(long: Measure, band: Band | None) -> Measure:
    """A length with its band, which is folded."""
    if band is None:
        return long
    return Sum(((1.0, long), (0.5, FoldLength(band.name))))


def asked(parts: Parts) -> tuple[Asked, ...]:
    """Everything that the style asks for in lengths, girths and angles, mm and degrees."""
    return (*_upper(parts), *_sleeve(parts), *_body(parts), *_bands(parts), *_allowances(parts))


def _quarters(measures: list[Measure]) -> Measure:
    """Four quarters all round: twice that of each body piece."""
    return Sum(tuple((2.0, measure) for measure in measures))


def _upper(parts: Parts) -> list[Asked]:
    body, choices = parts.body, parts.choices
    past = PastShoulderPoint("front", "shoulder", body.shoulder_width / 2)
    found = [
        Asked("neck_depth", "depth of the neck in front", choices.neck_depth,
              BelowLevel("front", "side_neck", "neck_edge", "start")),
        Asked("extension", "shoulder past the shoulder point", choices.extension, past),
        Asked("shoulder_slope", "slope of the shoulder", math.degrees(choices.slope),
              FallsToTheSide("front", "shoulder"), unit="deg"),
    ]  # fmt: skip
    bust = None if choices.ease_bust is None else body.bust_girth + choices.ease_bust
    found.append(Asked("ease_bust", "bust, all round", bust, _quarters([StartAcross(name, "side") for name in BODY])))
    return found


def _sleeve(parts: Parts) -> list[Asked]:
    body, choices = parts.body, parts.choices
    along = Sum(((1.0, FoldLength("sleeve")), (1.0, PastShoulderPoint("front", "shoulder", body.shoulder_width / 2))))
    long = _with_band(along, parts.bands.cuff)
    return [
        Asked("sleeve_length", "length of the sleeve from the shoulder point", choices.sleeve_length, long),
        Asked("cap_height", "height of the cap", choices.cap_height if "cap_height" in choices.given else None,
              BelowLevel("sleeve", "cap_top", "cap", "end")),
        Asked("sleeve_end_girth", "girth at the sleeve end", choices.sleeve_end_girth,
              Sum(((2.0, EdgeLength("sleeve", "sleeve_end")),))),
    ]  # fmt: skip


def _body(parts: Parts) -> list[Asked]:
    body, choices, at, band = parts.body, parts.choices, parts.at, parts.bands.hem
    long: Measure = BelowLevel("back", "side_neck", "hem", "end")
    long = _with_band(long, band)
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
    if choices.slit is not None and band is None:
        found.extend(Asked("slit", "slit", choices.slit, NotchAboveEnd(name, "side", "slit")) for name in BODY)
    return found


def _bands(parts: Parts) -> list[Asked]:
    """The finished heights of the bands: half of what each is long, folded."""
    keys = {"neck_band": "band_height", "cuff": "cuff_height", "hem_band": "hem_band_height"}
    return [
        Asked(keys[band.name], f"height of the {band.label.lower()}",
              band.height if keys[band.name] in parts.choices.given else None,
              Sum(((0.5, FoldLength(band.name)),)))
        for band in parts.bands.all
    ]  # fmt: skip


#: The edges that each allowance of a style lies outside of, by piece.
_ALLOWANCES = {
    "shoulder": (("front", "shoulder"), ("back", "shoulder")),
    "armhole": (("front", "armhole"), ("back", "armhole"), ("sleeve", "cap")),
    "side": (("front", "side"), ("back", "side"), ("sleeve", "under")),
    "hem": (("front", "hem"), ("back", "hem")),
    "sleeve_end": (("sleeve", "sleeve_end"),),
    "neck": (("front", "neck_edge"), ("back", "neck_edge")),
}


def _allowances(parts: Parts) -> list[Asked]:
    """Those that were given, each on every edge it lies outside of."""
    choices = parts.choices
    wanted = {key: getattr(choices, "neck_allowance" if key == "neck" else key) for key in _ALLOWANCES}
    return [
        Asked(f"allowances.{key}", f"allowance of the {key.replace('_', ' ')}", wanted[key], Allowance(piece, edge))
        for key in sorted(choices.allowances_given)
        for piece, edge in _ALLOWANCES[key]
    ]
