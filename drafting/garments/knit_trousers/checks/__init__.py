"""The checks of `knit_trousers`: those of legs, and that of their pockets."""

from types import ModuleType
from typing import Final

from drafting.garments.knit_trousers.checks import hand_in_pocket
from drafting.parts.legs.checks import LEG_CHECKS

CHECKS: Final[tuple[ModuleType, ...]] = (*LEG_CHECKS, hand_in_pocket)
