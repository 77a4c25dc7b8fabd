"""What `circle_skirt` asks, in the order of its screen, and its starting points. All of it is our choice."""

from collections.abc import Callable
from typing import Final

from drafting.contract.fields import Field, Option, Preset
from drafting.contract.set_out import SetOut
from drafting.garments.circle_skirt.style import ALLOWANCES, MOST_PIECES
from drafting.parts.rib import rib_fields

_EDGES: Final = {
    "waist": "Allowance, waist and waistband",
    "side": "Allowance, seams of the skirt",
    "hem": "Allowance, hem",
}


def _options(**words: str) -> tuple[Option, ...]:
    return tuple(Option(value, said) for value, said in words.items())


def _allowance(edge: str) -> Callable[[SetOut], float | None]:
    return lambda draft: next((e.allowance for p in draft.pieces for e in p.edges if e.name == edge), None)


def _band_height(draft: SetOut) -> float | None:
    return next((figure.value for figure in draft.figures if figure.at == "band_height"), None)


FIELDS: Final[tuple[Field, ...]] = (
    Field(
        "circle", "choice", "How much of a circle",
        _options(quarter="A quarter", half="Half", three_quarter="Three quarters", full="A whole circle"),
        lambda chosen: "half",
    ),
    Field(
        "length", "choice_or_length", "Length, finished",
        _options(mid_thigh="Mid-thigh", knee="Knee", mid_calf="Mid-calf", ankle="Ankle"), lambda chosen: "knee",
        length_words="From the waist to the hem, finished",
    ),
    Field(
        "waistband", "choice", "Waistband",
        _options(auto="As the cloth allows", jersey="Holds by itself", casing="Casing with elastic"),
        lambda chosen: "auto",
    ),
    Field(
        "waistband_height", "length", "Height of the waistband, finished",
        drafted=_band_height,
    ),
    *rib_fields(lambda chosen: chosen("waistband", "auto") != "casing"),
    Field(
        "panels", "choice", "Panels",
        (Option("auto", "As few as go on the cloth"),
         *(Option(str(number), str(number)) for number in range(1, MOST_PIECES + 1))),
        lambda chosen: "auto",
    ),
    *(
        Field(
            f"allowances.{edge}", "length", words, drafted=_allowance(edge), begins=ALLOWANCES[edge],
            explained_by="allowance" if edge == "waist" else "",
        )
        for edge, words in _EDGES.items()
    ),
)  # fmt: skip

PRESETS: Final[tuple[Preset, ...]] = (
    Preset(
        "everyday", "Everyday skirt", "Half-circle skirt", "Everyday skirt, half a circle, down to the knee",
        {"circle": "half", "length": "knee", "waistband": "auto"},
    ),
    Preset(
        "dancing", "Dancing skirt", "Full-circle skirt", "Dancing skirt, a whole circle, down to the knee",
        {"circle": "full", "length": "knee", "waistband": "auto"},
    ),
    Preset(
        "walking", "Walking skirt", "Three-quarter-circle skirt",
        "Walking skirt, three quarters of a circle, down to mid-calf",
        {"circle": "three_quarter", "length": "mid_calf", "waistband": "auto"},
    ),
    Preset(
        "slender", "Slender skirt", "Quarter-circle skirt", "Slender skirt, a quarter of a circle, down to the ankle",
        {"circle": "quarter", "length": "ankle", "waistband": "auto"},
    ),
)  # fmt: skip
