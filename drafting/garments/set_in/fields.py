"""What `set_in` asks, in the order of its screen, and its starting points. All of it is our choice."""

from typing import Final

from drafting.contract.fields import Chosen, Field, Preset
from drafting.garments.set_in.style import ALLOWANCES
from drafting.parts.flounce_style import HEM_FLOUNCE, SLEEVE_FLOUNCE
from drafting.parts.pockets import POCKETS_FIELD
from drafting.parts.pouch import POUCH_FIELD
from drafting.parts.side import sides_are_straight
from drafting.parts.top_fields import (
    BAND_HEIGHT,
    BODY,
    CUFF_HEIGHT,
    EASE_BUST,
    EASE_HIP,
    EASE_WAIST,
    FIT,
    HEM_BAND_HEIGHT,
    HEM_FINISH,
    HEM_GIRTH,
    HOOD,
    LENGTH,
    NECK,
    NECK_DEPTH,
    NECK_FINISH,
    RIB,
    SHOULDER_SLOPE,
    SLEEVE_END_GIRTH,
    SLEEVE_FINISH,
    SLEEVE_LENGTH,
    SLIT,
    allowance_fields,
    options,
)


def _usual_sides(chosen: Chosen, value: str) -> str | None:
    if value != "auto":
        return None
    return "As usual: straight" if sides_are_straight("auto", chosen.kind) else "As usual: shaped"


FIELDS: Final[tuple[Field, ...]] = (
    LENGTH,
    NECK,
    NECK_FINISH,
    SLEEVE_LENGTH,
    SLEEVE_FINISH,
    FIT,
    BODY,
    *HOOD,
    POUCH_FIELD,
    POCKETS_FIELD,
    Field(
        "waist",
        "choice",
        "Sides at the waist",
        options(auto="As usual", shaped="Shaped", straight="Straight"),
        lambda chosen: "auto",
        option_words=_usual_sides,
    ),
    HEM_FINISH,
    *SLEEVE_FLOUNCE,
    *HEM_FLOUNCE,
    *RIB,
    NECK_DEPTH,
    BAND_HEIGHT,
    CUFF_HEIGHT,
    HEM_BAND_HEIGHT,
    SHOULDER_SLOPE,
    SLEEVE_END_GIRTH,
    HEM_GIRTH,
    SLIT,
    EASE_BUST,
    EASE_WAIST,
    EASE_HIP,
    *allowance_fields(ALLOWANCES),
)

PRESETS: Final[tuple[Preset, ...]] = (
    Preset(
        "tee", "T-shirt", "T-shirt",
        "T-shirt with a round neck band, down to the hip, short sleeves",
        {
            "length": "hip", "neck": "round", "neck_finish": "auto", "sleeve_length": "short", "sleeve_finish": "hem",
            "hem_finish": "turned", "fit": "regular", "body": "straight", "waist": "straight",
        },
    ),
    Preset(
        "fitted", "Fitted top", "Fitted top",
        "Close top with a round neck band, shaped at the waist, sleeves to the wrist",
        {
            "length": "hip", "neck": "round", "neck_finish": "auto", "sleeve_length": "wrist", "sleeve_finish": "hem",
            "hem_finish": "turned", "fit": "close", "body": "straight", "waist": "shaped",
        },
    ),
    Preset(
        "warm", "Sweatshirt", "Sweatshirt",
        "Loose top with a round neck band, cuffs and a hem band",
        {
            "length": "hip", "neck": "round", "neck_finish": "auto", "sleeve_length": "wrist", "sleeve_finish": "cuff",
            "hem_finish": "band", "fit": "loose", "body": "straight", "waist": "straight",
        },
    ),
    Preset(
        "flounced", "Flounced top", "Top with flounced sleeves",
        "Top with a round neck band, down to the hip, sleeves to the elbow that end in flounces",
        {
            "length": "hip", "neck": "round", "neck_finish": "auto", "sleeve_length": "elbow",
            "sleeve_finish": "flounce", "hem_finish": "turned", "fit": "regular", "body": "straight",
            "waist": "shaped",
        },
    ),
    Preset(
        "dress", "Fitted dress", "Dress with set-in sleeves",
        "Flared dress with a V neck, shaped at the waist, down to the knee, sleeves to the elbow",
        {
            "length": "knee", "neck": "v", "neck_finish": "auto", "sleeve_length": "elbow", "sleeve_finish": "hem",
            "hem_finish": "turned", "fit": "regular", "body": "flared", "waist": "shaped",
        },
    ),
)  # fmt: skip
