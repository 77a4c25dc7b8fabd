"""`set_in`: top or dress in stretch cloth with a set-in sleeve.

Front and back each lie on the fold and differ at neck and armhole; the height of the sleeve's cap is solved from both
armholes and the upper arm. Necks are round, boat or V, turned or with a band; sleeves and hem end in a hem or a band.
"""

from drafting.garments import Garment
from drafting.garments.set_in.cases import CASES
from drafting.garments.set_in.checks import CHECKS
from drafting.garments.set_in.fields import FIELDS, PRESETS
from drafting.garments.set_in.set_out import NAME, set_out
from drafting.garments.set_in.style import FIRST, Style, read_style
from drafting.garments.set_in.ways import TO_FIT, TO_SAVE, WAYS

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
    "back_width",
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
    "Set-in sleeve",
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
    title="Garment with set-in sleeves",
    named="Set-in sleeve garment",
    cases=CASES,
)
