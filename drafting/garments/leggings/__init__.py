"""`leggings`: close leggings of cloth that stretches both ways, one piece a leg, without a side seam.

Order of solving: hip, crotch, extensions, waist, leg girths; the crotch point of the back is lowered until both sides
of the inner leg are equal; the centre back is raised, and then the crotch lowered, as far as sitting needs.
"""

from drafting.garments import Garment
from drafting.garments.leggings.cases import CASES
from drafting.garments.leggings.checks import CHECKS
from drafting.garments.leggings.fields import FIELDS, PRESETS
from drafting.garments.leggings.set_out import NAME, set_out
from drafting.garments.leggings.style import FIRST, Style, read_style
from drafting.garments.leggings.ways import TO_FIT, TO_SAVE, WAYS

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
    "calf_girth",
    "ankle_girth",
    "heel_girth",
)

GARMENT = Garment(
    NAME,
    "Leggings",
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
    title="Leggings",
    required=("waist_girth", "hip_girth"),
    asked=("waist_to_hip", "waist_height", "knee_height", "thigh_girth", "crotch_depth", "crotch_length"),
    cases=CASES,
)
