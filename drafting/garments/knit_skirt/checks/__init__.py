"""The checks of `knit_skirt`, each as those in drafting.checks.

Those of its own, one a file, are found by discovery; those of the waistband, the hem and the pockets are shared with
other garments.
"""

import pkgutil
from importlib import import_module
from types import ModuleType
from typing import Final

from drafting.parts.checks import (
    band_holds,
    band_passes_hip,
    caution_child_waist,
    caution_long_hem,
    hand_in_pocket_no_pouch,
)

CHECKS: Final[tuple[ModuleType, ...]] = (
    *(import_module(f"{__name__}.{module.name}") for module in pkgutil.iter_modules(__path__)),
    band_holds,
    band_passes_hip,
    caution_child_waist,
    caution_long_hem,
    hand_in_pocket_no_pouch,
)
