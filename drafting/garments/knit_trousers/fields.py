"""What `knit_trousers` ask, in the order of their screen, and their starting points. All of it is our choice."""

from typing import Final

from drafting.contract.fields import Field, Preset
from drafting.garments.knit_trousers.style import ALLOWANCES
from drafting.parts.legs.fields import WAIST_FIELD, further_fields, length_field, options
from drafting.parts.legs.style import TROUSERS_LENGTHS
from drafting.parts.pockets import SIDE_POCKETS_FIELD

FIELDS: Final[tuple[Field, ...]] = (
    Field("silhouette", "choice", "Cut", options(straight="Straight", wide="Wide"), lambda chosen: "straight"),
    length_field(TROUSERS_LENGTHS, "floor"),
    WAIST_FIELD,
    SIDE_POCKETS_FIELD,
    *further_fields("inner", ALLOWANCES),
)

PRESETS: Final[tuple[Preset, ...]] = (
    Preset("home", "Straight trousers", "Straight trousers", "Straight trousers, down to the floor",
           {"silhouette": "straight", "length": "floor", "waistband": "auto"}),
    Preset("summer", "Wide trousers", "Wide trousers", "Wide trousers, down to the floor",
           {"silhouette": "wide", "length": "floor", "waistband": "casing"}),
    Preset("culottes", "Wide short trousers", "Wide short trousers", "Wide trousers, down to mid-calf",
           {"silhouette": "wide", "length": "mid_calf", "waistband": "auto"}),
    Preset("shorts", "Long shorts", "Long shorts", "Straight trousers, down to the knee",
           {"silhouette": "straight", "length": "knee", "waistband": "turned"}),
)  # fmt: skip
