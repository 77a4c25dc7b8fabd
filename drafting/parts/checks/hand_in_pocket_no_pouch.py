"""The opening of a pocket must let the hand in; of garments that have no pouch."""

from typing import Final

from drafting.contract.judging import Way
from drafting.parts.checks import hand_in_pocket
from drafting.parts.checks.hand_in_pocket import NO_POCKETS

ID, ORDER, judge = hand_in_pocket.ID, hand_in_pocket.ORDER, hand_in_pocket.judge
WAYS: Final[tuple[Way, ...]] = (NO_POCKETS,)
