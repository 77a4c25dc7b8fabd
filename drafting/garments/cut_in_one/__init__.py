"""`cut_in_one`: pullover, tunic or dress in stretch cloth; neck grown on, sleeve cut in one with the body.

Front and back each lie on the fold. Order of solving: neck, waist, underarm ring, narrowest place, flare, underarm
curve, gap, allowances. What had to be moved on the way is recorded as adjusted; what cannot be set out is refused as
a check that stops, with its ways out.
"""

from drafting.garments import Garment
from drafting.garments.cut_in_one.cases import CASES
from drafting.garments.cut_in_one.checks import CHECKS
from drafting.garments.cut_in_one.fields import FIELDS, PRESETS
from drafting.garments.cut_in_one.set_out import NAME, set_out
from drafting.garments.cut_in_one.style import FIRST, Style, read_style
from drafting.garments.cut_in_one.ways import TO_FIT, TO_SAVE, WAYS

USES = (
    "stature",
    "bust_girth",
    "upper_chest_girth",
    "waist_girth",
    "hip_girth",
    "neck_girth",
    "neck_base_girth",
    "head_girth",
    "shoulder_width",
    "back_neck_point_to_waist",
    "side_neck_point_to_bust_point",
    "waist_to_hip",
    "scye_depth",
    "upper_arm_girth",
    "elbow_girth",
    "wrist_girth",
    "hand_girth",
    "arm_length",
    "waist_height",
    "knee_height",
)

GARMENT = Garment(
    NAME,
    "Sleeve cut in one with the body",
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
    title="Garment with the sleeve cut in one",
    named="Garment",
    cases=CASES,
)
