"""`knit_skirt`: a straight, A-line or pegged skirt of stretch cloth, with a waistband or a casing with elastic.

Front and back are alike, each on the fold. Order of solving: hip, waist edge, side, hem, the slits that a step
needs, what holds it.
"""

from drafting.garments import Garment
from drafting.garments.knit_skirt.cases import CASES
from drafting.garments.knit_skirt.checks import CHECKS
from drafting.garments.knit_skirt.fields import FIELDS, PRESETS
from drafting.garments.knit_skirt.set_out import NAME, set_out
from drafting.garments.knit_skirt.style import FIRST, Style, read_style
from drafting.garments.knit_skirt.ways import TO_FIT, TO_SAVE, WAYS
from drafting.parts.pockets import has_side_pockets

USES = ("stature", "waist_girth", "hip_girth", "waist_to_hip", "waist_height", "knee_height")

GARMENT = Garment(
    NAME,
    "Knit skirt",
    Style,
    read_style,
    set_out,
    USES,
    FIELDS,
    FIRST,
    PRESETS,
    checks=CHECKS,
    ways=WAYS,
    to_fit=TO_FIT,
    to_save=TO_SAVE,
    title="Knit skirt",
    required=("waist_girth", "hip_girth"),
    asked=("waist_to_hip", "waist_height", "knee_height"),
    may_use={"hand_girth": has_side_pockets},
    cases=CASES,
)
