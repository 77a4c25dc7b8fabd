"""Everything that tops of stretch cloth have alike once they are set out: what pieces, findings and sewing read."""

from dataclasses import dataclass

from drafting import sources
from drafting.cloth import ClothFacts, Fit, passing_factor
from drafting.contract.chalked_line import ChalkedLine
from drafting.parts import neck as necks
from drafting.parts.flounce import Flounce, flounce_of
from drafting.parts.hem import Hem
from drafting.parts.hood import Hood, hood_of
from drafting.parts.neck import NeckBase, Neckline
from drafting.parts.pockets import NO_POCKETS, Pockets
from drafting.parts.pouch import Pouch
from drafting.parts.rib import band_stretch
from drafting.parts.side import Side
from drafting.parts.top_bands import Bands, neck_ratio
from drafting.parts.top_style import TopChoices
from drafting.parts.walking import slit_height
from drafting.parts.widths import Levels
from drafting.person.measures import Body
from drafting.person.passing import hand_needs, head_needs
from drafting.problems import Adjustment


@dataclass(frozen=True, slots=True)
class BodyAsked:
    """What the body of the garment is asked to be, as drafting.parts.widths reads it, mm."""

    straight: bool
    body: str
    length: float
    hem_girth: float | None
    ease_bust: float | None
    ease_waist: float | None
    ease_hip: float | None
    fit: Fit = "regular"


@dataclass(frozen=True, slots=True, kw_only=True)
class TopParts:
    """The finished parts, in body axes. `slit` is its height, mm."""

    body: Body
    choices: TopChoices
    cloth: ClothFacts
    chalked: ChalkedLine
    base: NeckBase
    neck: Neckline
    at: Levels
    side: Side
    hem: Hem
    bands: Bands
    allowances: dict[str, float]
    slit: float
    sleeve_flounce: Flounce | None = None
    hem_flounce: Flounce | None = None
    hood: Hood | None = None
    pouch: Pouch | None = None
    pockets: Pockets = NO_POCKETS

    @property
    def flounces(self) -> tuple[Flounce, ...]:
        """Those that there are."""
        return tuple(one for one in (self.sleeve_flounce, self.hem_flounce) if one is not None)


def neck_of(body: Body, choices: TopChoices, cloth: ClothFacts, base: NeckBase, adjusted: list[Adjustment]) -> Neckline:
    """The smallest neck that the head passes, through its seam and through its band."""
    head = head_needs(body)
    ring = head / passing_factor(cloth.across)
    if choices.banded:
        ring = max(ring, head / passing_factor(band_stretch(choices.rib, cloth)) / neck_ratio(choices))
    found = necks.solved(choices.neck, base, ring, body.shoulder_width / 2 - 1.0)
    depth = found.front.start.y
    if choices.neck_depth is not None and abs(depth - choices.neck_depth) > 1e-6:
        why = "the head must pass"
        adjusted.append(Adjustment("neck_depth", "depth of the neck in front", choices.neck_depth, depth, why))
    return found


def hood_on(body: Body, choices: TopChoices, neck: Neckline, allowances: dict[str, float]) -> Hood | None:
    """The hood of a neck, where one was asked for."""
    if choices.finish != "hood":
        return None
    return hood_of(
        body,
        neck.ring,
        neck.back.length(),
        allowances["neck"],
        corded=choices.corded,
        strip=choices.hood_strip,
        lined=choices.hood_lined,
    )


def flounces_of(
    body: Body, choices: TopChoices, cloth: ClothFacts, chalked: ChalkedLine, rings: tuple[float, float],
    passing: float, allowances: dict[str, float],
) -> dict[str, Flounce | None]:  # fmt: skip
    """The flounces of sleeves and hem, which are so long round (`rings`), by the fields of `TopParts`.

    `passing` is the girth that goes through the hem, mm.
    """
    sleeve_end, sweep = rings
    sleeve, hem = choices.sleeve_flounce, choices.hem_flounce
    return {
        "sleeve_flounce": None if sleeve is None else flounce_of(
            "sleeve", sleeve, sleeve_end, hand_needs(body), 2, allowances["sleeve_end"], cloth, chalked
        ),
        "hem_flounce": None if hem is None else flounce_of(
            "hem", hem, sweep, passing, 1, allowances["hem"], cloth, chalked
        ),
    }  # fmt: skip


def slit_of(
    body: Body,
    choices: TopChoices,
    cloth: ClothFacts,
    at: Levels,
    side: Side,
    hem: Hem,
    facts: dict[str, float],
    adjusted: list[Adjustment],
) -> float:
    """The height of the slits; a hem that a band or a flounce closes has none, whatever a step needs."""
    found = slit_height(body, choices, cloth, at, side, hem, facts, adjusted)
    if choices.hem_sewn:
        facts["slit"] = found = 0.0
    return found


def allowances_of(
    choices: TopChoices, neck: Neckline, armhole_most: float, hem_slope: float, adjusted: list[Adjustment]
) -> dict[str, float]:
    """Allowances, limited where a curve or a slanting hem would not take them; only what was asked is told.

    `armhole_most` is the most that the curve of the armhole takes, mm; `hem_slope` is dx/dy of the side at the hem.
    """
    found = {
        "shoulder": choices.shoulder,
        "armhole": choices.armhole,
        "side": choices.side,
        "hem": choices.hem,
        "sleeve_end": choices.sleeve_end,
        "neck": choices.neck_allowance,
    }

    def limit(key: str, most: float, why: str) -> None:
        if found[key] > most + 1e-6:
            if key in choices.allowances_given:
                what = f"{key.replace('_', ' ')} allowance"
                adjusted.append(Adjustment(f"allowances.{key}", what, found[key], most, why))
            found[key] = most

    limit("neck", necks.edge_allowance(neck, found["neck"]), "the curve of the neck is too tight for more")
    limit("armhole", armhole_most, "the curve of the armhole is too tight for more")
    if abs(hem_slope) > 1e-6 and not choices.hem_sewn:
        most = max(sources.CURVED_HEM_MOST, sources.SLANTING_HEM_EASED / abs(hem_slope))
        limit("hem", most, "on a slanting side a hem does not turn up flat with more")
    return found
