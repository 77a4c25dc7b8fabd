"""`circle_skirt`: a full, three-quarter, half or quarter circle of stretch cloth, with a waistband.

Equal panels, each on the fold, chalked by swinging the tape. Order of solving: the waist that goes on over the hip, its
radius as it will be chalked, the fewest panels that go on the cloth, the waistband.
"""

from drafting.garments import Garment
from drafting.garments.circle_skirt.cases import CASES
from drafting.garments.circle_skirt.checks import CHECKS
from drafting.garments.circle_skirt.fields import FIELDS, PRESETS
from drafting.garments.circle_skirt.set_out import NAME, set_out
from drafting.garments.circle_skirt.style import FIRST, Style, read_style
from drafting.garments.circle_skirt.ways import TO_FIT, TO_SAVE, WAYS

USES = ("stature", "waist_girth", "hip_girth", "waist_to_hip", "waist_height", "knee_height")

GARMENT = Garment(
    NAME,
    "Circle skirt",
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
    title="Circle skirt",
    required=("waist_girth", "hip_girth"),
    asked=("waist_to_hip", "waist_height", "knee_height"),
    cases=CASES,
)
