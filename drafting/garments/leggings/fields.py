"""What `leggings` ask, in the order of their screen, and their starting points. All of it is our choice."""

from typing import Final

from drafting.contract.fields import Field, Preset
from drafting.garments.leggings.style import ALLOWANCES
from drafting.parts.legs.fields import WAIST_FIELD, further_fields, length_field
from drafting.parts.legs.style import LEGGINGS_LENGTHS

FIELDS: Final[tuple[Field, ...]] = (
    length_field(LEGGINGS_LENGTHS, "ankle"),
    WAIST_FIELD,
    *further_fields("back_inner", ALLOWANCES),
)

PRESETS: Final[tuple[Preset, ...]] = (
    Preset("long", "Leggings", "Leggings", "Leggings, down to the ankle", {"length": "ankle", "waistband": "auto"}),
    Preset("calf", "Short leggings", "Short leggings", "Leggings, down to mid-calf",
           {"length": "mid_calf", "waistband": "turned"}),
    Preset("riding", "Cycling shorts", "Cycling shorts", "Close shorts, down to mid-thigh",
           {"length": "mid_thigh", "waistband": "casing"}),
)  # fmt: skip
