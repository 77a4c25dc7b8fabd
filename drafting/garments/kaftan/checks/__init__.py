"""The checks of `kaftan` beside those of every garment, one a file, found by discovery."""

import pkgutil
from importlib import import_module
from types import ModuleType
from typing import Final

CHECKS: Final[tuple[ModuleType, ...]] = tuple(
    import_module(f"{__name__}.{module.name}") for module in pkgutil.iter_modules(__path__)
)
