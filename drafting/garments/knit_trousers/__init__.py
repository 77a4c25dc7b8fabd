"""`knit_trousers`: straight or wide trousers of stretch cloth, front and back, each about its crease.

Order of solving: hip, crotch, extensions, waist, leg; the crotch point of the back is lowered until the inner legs are
equal, and the side corners are shifted until the sides are.
"""

from drafting.garments import Garment
from drafting.garments.knit_trousers.cases import CASES
from drafting.garments.knit_trousers.fields import FIELDS, PRESETS
from drafting.garments.knit_trousers.set_out import NAME, set_out
from drafting.garments.knit_trousers.style import FIRST, Style, read_style
from drafting.garments.knit_trousers.ways import TO_FIT, TO_SAVE, WAYS
from drafting.parts.checks import hand_in_pocket_no_pouch
from drafting.parts.legs.checks import LEG_CHECKS
from drafting.parts.pockets import has_side_pockets

USES = (
    "stature",
    "waist_girth",
    "hip_girth",
    "waist_to_hip",
    "waist_height",
    "knee_height",
    "thigh_girth",
    "crotch_depth",
    "crotch_length",
    "knee_girth",
    "heel_girth",
)

GARMENT = Garment(
    NAME,
    "Knit trousers",
    Style,
    read_style,
    set_out,
    USES,
    FIELDS,
    FIRST,
    PRESETS,
    checks=(*LEG_CHECKS, hand_in_pocket_no_pouch),
    ways=WAYS,
    to_fit=TO_FIT,
    to_save=TO_SAVE,
    title="Knit trousers",
    required=("waist_girth", "hip_girth"),
    asked=("waist_to_hip", "waist_height", "knee_height", "thigh_girth", "crotch_depth"),
    may_use={"hand_girth": has_side_pockets},
    cases=CASES,
)
