"""What `drop_shoulder` asks, in the order of its screen, and its starting points. All of it is our choice."""

from typing import Final

from drafting.contract.fields import Field, Preset
from drafting.garments.drop_shoulder.style import ALLOWANCES
from drafting.parts.flounce_style import HEM_FLOUNCE, SLEEVE_FLOUNCE
from drafting.parts.pockets import POCKETS_FIELD
from drafting.parts.pouch import POUCH_FIELD
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
    figure_of,
    left_to_draft,
    options,
)

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
        options(straight="Straight", shaped="Shaped"),
        lambda chosen: "straight",
    ),
    HEM_FINISH,
    *SLEEVE_FLOUNCE,
    *HEM_FLOUNCE,
    *RIB,
    NECK_DEPTH,
    BAND_HEIGHT,
    CUFF_HEIGHT,
    HEM_BAND_HEIGHT,
    left_to_draft(
        "extension", "Shoulder past the shoulder point", "From the shoulder point on, finished", figure_of("extension")
    ),
    SHOULDER_SLOPE,
    left_to_draft(
        "cap_height",
        "Height of the sleeve cap",
        "From the top of the cap to the underarm, finished",
        lambda draft: draft.choices.cap_height,
    ),
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
        "jumper", "Jumper", "Jumper",
        "Jumper with a round neck band, down to the hip, sleeves to the wrist",
        {
            "length": "hip", "neck": "round", "neck_finish": "auto", "sleeve_length": "wrist", "sleeve_finish": "hem",
            "hem_finish": "turned", "fit": "regular", "body": "straight",
        },
    ),
    Preset(
        "sailor", "Boat-neck top", "Boat-neck top",
        "Short top with a boat neck and sleeves to the elbow",
        {
            "length": "cropped", "neck": "boat", "neck_finish": "auto", "sleeve_length": "elbow",
            "sleeve_finish": "hem", "hem_finish": "turned", "fit": "regular", "body": "straight",
        },
    ),
    Preset(
        "cosy", "Roll-collar jumper", "Roll-collar jumper",
        "Loose jumper with a roll collar, cuffs and a hem band",
        {
            "length": "hip", "neck": "round", "neck_finish": "roll", "sleeve_length": "wrist", "sleeve_finish": "cuff",
            "hem_finish": "band", "fit": "loose", "body": "straight",
        },
    ),
    Preset(
        "hooded", "Hooded jumper", "Hooded jumper",
        "Loose jumper with a hood, cuffs and a hem band",
        {
            "length": "hip", "neck": "round", "neck_finish": "hood", "sleeve_length": "wrist", "sleeve_finish": "cuff",
            "hem_finish": "band", "fit": "loose", "body": "straight",
        },
    ),
    Preset(
        "shift", "Easy dress", "Dress with dropped shoulders",
        "Flared dress with a V neck, down to the knee, short sleeves",
        {
            "length": "knee", "neck": "v", "neck_finish": "auto", "sleeve_length": "short", "sleeve_finish": "hem",
            "hem_finish": "turned", "fit": "regular", "body": "flared",
        },
    ),
)  # fmt: skip
