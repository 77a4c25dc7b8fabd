"""What `poncho` asks, in the order of its screen. All of it is our choice."""

import math
from collections.abc import Callable
from typing import Final

from drafting.contract.fields import Field, Option, Preset
from drafting.contract.set_out import SetOut
from drafting.garments.poncho.style import ALLOWANCES, SLOPE, SLOPE_LIMITS


def _options(**words: str) -> tuple[Option, ...]:
    return tuple(Option(value, said) for value, said in words.items())


def _allowance(edge: str) -> Callable[[SetOut], float | None]:
    return lambda draft: next((e.allowance for p in draft.pieces for e in p.edges if e.name == edge), None)


_EDGES: Final = {
    "shoulder": ("Allowance, shoulder seam", "shoulder"),
    "hem": ("Allowance, hem", "hem"),
    "neck": ("Allowance, neck edge", "neck_edge"),
}

FIELDS: Final[tuple[Field, ...]] = (
    Field(
        "length", "choice_or_length", "Length, finished",
        _options(waist="Waist", hip="Hip", mid_thigh="Mid-thigh", knee="Knee"), lambda chosen: "hip",
        length_words="From the side-neck point to the hem in front, finished",
    ),
    Field("neck", "choice", "Neck", _options(round="Round", boat="Boat", v="V"), lambda chosen: "round"),
    Field(
        "shoulder_slope", "degrees", "Slope over shoulder and arm", ends=("level", "sloping"),
        low=math.degrees(SLOPE_LIMITS[0]), high=lambda chosen: math.degrees(SLOPE_LIMITS[1]),
        usual=lambda chosen: math.degrees(SLOPE),
    ),
    *(
        Field(
            f"allowances.{key}", "length", words, drafted=_allowance(edge), begins=ALLOWANCES[key],
            explained_by="allowance" if key == "shoulder" else "",
        )
        for key, (words, edge) in _EDGES.items()
    ),
)  # fmt: skip

PRESETS: Final = (
    Preset(
        "harbour", "Harbour poncho", "Poncho", "Poncho with a round neck, down to the hip",
        {"length": "hip", "neck": "round", "shoulder_slope": ""},
    ),
    Preset(
        "evening", "Evening poncho", "Poncho with a boat neck", "Poncho with a boat neck, down to the waist",
        {"length": "waist", "neck": "boat", "shoulder_slope": ""},
    ),
    Preset(
        "long", "Long poncho", "Long poncho", "Long poncho with a V neck, down to the knee",
        {"length": "knee", "neck": "v", "shoulder_slope": ""},
    ),
)  # fmt: skip
