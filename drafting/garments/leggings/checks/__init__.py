"""The checks of `leggings`, each as those in drafting.checks.

Those of its own, one a file, are found by discovery; those of waist and legs are shared with other garments.
"""

import pkgutil
from importlib import import_module
from types import ModuleType
from typing import Final

from drafting.parts.legs.checks import LEG_CHECKS

CHECKS: Final[tuple[ModuleType, ...]] = (
    *(import_module(f"{__name__}.{module.name}") for module in pkgutil.iter_modules(__path__)),
    *LEG_CHECKS,
)
