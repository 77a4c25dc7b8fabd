"""The checks that leggings and trousers have alike."""

from types import ModuleType
from typing import Final

from drafting.parts.checks import (
    band_holds,
    band_passes_hip,
    caution_child_waist,
    caution_opaque,
    caution_trailing_hem,
    crotch_level,
    foot_passes,
    gather,
    gathers_in,
    leg_sits,
    leg_waist_passes_hip,
    thigh_room,
)

LEG_CHECKS: Final[tuple[ModuleType, ...]] = (
    leg_waist_passes_hip,
    band_passes_hip,
    band_holds,
    gathers_in,
    gather,
    leg_sits,
    thigh_room,
    crotch_level,
    foot_passes,
    caution_child_waist,
    caution_trailing_hem,
    caution_opaque,
)
