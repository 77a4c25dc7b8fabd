"""The checks of `kaftan` beside those of every garment.

Those of its own, one a file, are found by discovery; that of the pockets is shared with other garments.
"""

import pkgutil
from importlib import import_module
from types import ModuleType
from typing import Final

from drafting.parts.checks import hand_in_pocket_no_pouch

CHECKS: Final[tuple[ModuleType, ...]] = (
    *(import_module(f"{__name__}.{module.name}") for module in pkgutil.iter_modules(__path__)),
    hand_in_pocket_no_pouch,
)
