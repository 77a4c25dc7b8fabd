"""`kaftan`: tunic or gown of woven cloth, with the sleeve cut in one, a slit in the neck and a facing round both.

Nothing of it stretches, so that every opening and all ease is judged at rest. Front and back lie on the fold.
"""

from drafting.garments import Garment
from drafting.garments.kaftan.cases import CASES
from drafting.garments.kaftan.checks import CHECKS
from drafting.garments.kaftan.fields import FIELDS, PRESETS
from drafting.garments.kaftan.set_out import NAME, set_out
from drafting.garments.kaftan.style import FIRST, Style, read_style
from drafting.garments.kaftan.ways import TO_FIT, TO_SAVE, WAYS

USES = (
    "stature",
    "bust_girth",
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
    "wrist_girth",
    "hand_girth",
    "arm_length",
    "waist_height",
    "knee_height",
)

GARMENT = Garment(
    NAME,
    "Kaftan",
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
    title="Kaftan",
    cloths=("woven",),
    cases=CASES,
)
