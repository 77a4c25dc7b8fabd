"""The checks of `set_in`, each as those in drafting.checks.

Those of its own, one a file, are found by discovery; the others are shared with other garments.
"""

import pkgutil
from importlib import import_module
from types import ModuleType
from typing import Final

from drafting.parts.checks import (
    caution_long_hem,
    cuff_gathered,
    cut_radius,
    flounce_turns,
    hand_in_pocket,
    hand_passes_sleeve,
    head_passes_neck,
    hem_passes,
    hood_face,
    roll_stands,
    shoulder_run,
    stride,
    waist_passes,
)

CHECKS: Final[tuple[ModuleType, ...]] = (
    *(import_module(f"{__name__}.{module.name}") for module in pkgutil.iter_modules(__path__)),
    caution_long_hem,
    cuff_gathered,
    cut_radius,
    flounce_turns,
    hand_in_pocket,
    hand_passes_sleeve,
    head_passes_neck,
    hem_passes,
    hood_face,
    roll_stands,
    shoulder_run,
    stride,
    waist_passes,
)
