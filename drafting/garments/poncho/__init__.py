"""`poncho`: front and back on the fold, joined over shoulder and arm in one seam each side; a neck turned in.

Each half is a sector of a circle: seam and fold are its radii, the hem is its arc. There is no side seam and no sleeve.
"""

from drafting.garments import Garment
from drafting.garments.poncho.cases import CASES
from drafting.garments.poncho.checks import CHECKS
from drafting.garments.poncho.fields import FIELDS, PRESETS
from drafting.garments.poncho.set_out import NAME, set_out
from drafting.garments.poncho.style import FIRST, Style, read_style
from drafting.garments.poncho.ways import TO_FIT, TO_SAVE, WAYS

USES = (
    "stature",
    "neck_girth",
    "neck_base_girth",
    "head_girth",
    "shoulder_width",
    "back_neck_point_to_waist",
    "side_neck_point_to_bust_point",
    "waist_to_hip",
    "arm_length",
    "waist_height",
    "knee_height",
)

GARMENT = Garment(
    NAME,
    "Poncho",
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
    title="Poncho",
    cases=CASES,
)
