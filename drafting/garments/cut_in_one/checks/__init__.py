"""The checks of `cut_in_one`, each as those in drafting.checks.

Those of its own, one a file, are found by discovery; those of hem and waist are shared with other garments.
"""

import pkgutil
from importlib import import_module
from types import ModuleType
from typing import Final

from drafting.parts.checks import (
    caution_long_hem,
    flounce_turns,
    hand_in_pocket,
    hem_passes,
    hood_face,
    stride,
    waist_passes,
)

CHECKS: Final[tuple[ModuleType, ...]] = (
    *(import_module(f"{__name__}.{module.name}") for module in pkgutil.iter_modules(__path__)),
    caution_long_hem,
    flounce_turns,
    hand_in_pocket,
    hem_passes,
    hood_face,
    stride,
    waist_passes,
)
