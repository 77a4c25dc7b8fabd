"""What `knit_skirt` asks, in the order of its screen, and its starting points. All of it is our choice."""

from collections.abc import Callable
from typing import Final

from drafting.contract.fields import Chosen, Field, Option, Preset
from drafting.contract.set_out import SetOut
from drafting.garments.knit_skirt.style import ALLOWANCES, TURNED
from drafting.parts.flounce_style import HEM_FLOUNCE, has_hem_flounce
from drafting.parts.pockets import SIDE_POCKETS_FIELD
from drafting.parts.rib import rib_fields

_EDGES: Final = {"waist": "Allowance, waist", "side": "Allowance, side", "hem": "Allowance, hem"}


def _options(**words: str) -> tuple[Option, ...]:
    return tuple(Option(value, said) for value, said in words.items())


def _allowance(edge: str) -> Callable[[SetOut], float | None]:
    return lambda draft: next((e.allowance for p in draft.pieces for e in p.edges if e.name == edge), None)


def _waist_allowance(draft: SetOut) -> float | None:
    """What lies beyond the stitching at the waist: of a casing that is turned in, without the casing itself."""
    found = _allowance("waist")(draft)
    return found if found is None or draft.choices.waistband != TURNED else draft.choices.waist


def _figure(at: str) -> Callable[[SetOut], float | None]:
    return lambda draft: next((figure.value for figure in draft.figures if figure.at == at), None)


def _girth(at: str) -> Callable[[SetOut], float | None]:
    return lambda draft: next((girth.girth for girth in draft.girths if girth.at == at), None)


def _may_hold_by_itself(chosen: Chosen) -> bool:
    return chosen("waistband", "auto") in {"auto", "jersey"}


_DRAFTED: Final = {"waist": _waist_allowance, "side": _allowance("side"), "hem": _allowance("hem")}

FIELDS: Final[tuple[Field, ...]] = (
    Field(
        "silhouette", "choice", "Cut", _options(straight="Straight", a_line="A-line", pegged="Pegged"),
        lambda chosen: "straight", explains="pegged",
    ),
    Field(
        "length", "choice_or_length", "Length, finished",
        _options(mid_thigh="Mid-thigh", knee="Knee", mid_calf="Mid-calf", ankle="Ankle"), lambda chosen: "knee",
        length_words="From the waist to the hem, finished",
    ),
    Field(
        "waistband", "choice", "Waist",
        _options(auto="As the cloth allows", jersey="Band that holds by itself", casing="Band with elastic",
                 turned="Casing turned in, with elastic"),
        lambda chosen: "auto",
    ),
    Field("fit", "choice", "Fit", _options(close="Close", regular="Regular", loose="Loose"), lambda chosen: "regular"),
    Field(
        "slit", "choice_or_length", "Side slits", _options(auto="Where a step needs them", none="None"),
        lambda chosen: "auto", length_words="Height of the slits, finished",
        shown=lambda chosen: not has_hem_flounce(chosen),
    ),
    SIDE_POCKETS_FIELD,
    Field(
        "hem_girth", "choice_or_length", "Hem girth", (Option("auto", "Worked out"),), lambda chosen: "auto",
        length_words="The whole way round, finished", drafted=_girth("hem"),
    ),
    Field(
        "hem_finish", "choice", "Hem", _options(turned="Turned up", flounce="Flounce"), lambda chosen: "turned",
    ),
    *HEM_FLOUNCE,
    Field(
        "waistband_height", "length", "Height of waistband or casing, finished", drafted=_figure("band_height"),
    ),
    *rib_fields(_may_hold_by_itself),
    *(
        Field(
            f"allowances.{edge}", "length", words, drafted=_DRAFTED[edge], begins=ALLOWANCES[edge],
            explained_by="allowance" if edge == "waist" else "",
        )
        for edge, words in _EDGES.items()
    ),
)  # fmt: skip

PRESETS: Final[tuple[Preset, ...]] = (
    Preset(
        "city", "City skirt", "Straight skirt", "Straight skirt, down to the knee",
        {"silhouette": "straight", "length": "knee", "waistband": "auto", "fit": "regular"},
    ),
    Preset(
        "garden", "Garden skirt", "A-line skirt", "A-line skirt, down to mid-calf",
        {"silhouette": "a_line", "length": "mid_calf", "waistband": "turned", "fit": "regular"},
    ),
    Preset(
        "tube", "Pegged skirt", "Pegged skirt", "Close pegged skirt with side slits, down to mid-calf",
        {"silhouette": "pegged", "length": "mid_calf", "waistband": "auto", "fit": "close"},
    ),
    Preset(
        "short", "Short skirt", "Short A-line skirt", "A-line skirt, down to mid-thigh",
        {"silhouette": "a_line", "length": "mid_thigh", "waistband": "auto", "fit": "regular"},
    ),
)  # fmt: skip
