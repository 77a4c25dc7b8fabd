"""What the style asks for is what the finished outline has. Never missed: if it is, the draft is at fault.

Each length, girth and angle that the garment says was asked is measured on the finished outline. It is what was asked,
or what an adjustment of the same key says it became.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from drafting.contract.asked import MET_WITHIN, Asked, FinishedOutline
from drafting.contract.judging import Way, Words
from drafting.contract.set_out import SetOut
from drafting.problems import Adjustment, Check

ID = "as_asked"
ORDER = 69
WAYS: tuple[Way, ...] = ()
#: What is missing altogether is shown as so much off.
MOST_SHOWN = 9999.0


@dataclass(frozen=True, slots=True)
class _Missed:
    """What is off: what it is in words, what it should be and is, and by how many times what is allowed."""

    asked: Asked
    should: float
    found: float

    @property
    def off(self) -> float:
        """How far off, in the unit of what is asked."""
        short = self.should - self.found
        return max(0.0, short) if self.asked.at_least else abs(short)

    @property
    def share(self) -> float:
        """How far off, as a share of what is allowed."""
        return self.off / self.asked.within


def judge(draft: SetOut, words: Words) -> Check | None:
    """Names what is farthest from what was asked, or from what was said of it."""
    if not draft.asked:
        return None
    outline = FinishedOutline(draft.pieces, draft.cloth)
    found = [missed for asked in draft.asked for missed in _of(asked, draft.adjusted, outline)]
    worst = max(found, key=lambda missed: missed.share)
    limit = worst.asked.within
    if worst.share > 1:
        says = (
            f"The {worst.asked.what} should be {_said(worst.should, worst.asked, words)} and is "
            f"{_said(worst.found, worst.asked, words)}. The draft is at fault: please report it."
        )
        return Check(ID, "stop", says, min(worst.off, MOST_SHOWN), limit, worst.asked.unit)
    says = "Every length and girth that you asked for is on the outline, or is named among what the draft adjusted."
    lengths = [missed.off for missed in found if missed.asked.unit == "mm"]
    return Check(ID, "pass", says, max(lengths, default=0.0), MET_WITHIN)


def _of(asked: Asked, adjusted: Sequence[Adjustment], outline: FinishedOutline) -> list[_Missed]:
    """What was asked beside what was found, each step between them as the adjustments tell it."""
    notes = [note for note in adjusted if note.key == asked.key and note.unit == asked.unit]
    if asked.asked is None and not notes:
        return []
    steps = [_Missed(asked, one.after, other.before) for one, other in pairwise(notes)]
    if notes and asked.asked is not None:
        steps.append(_Missed(asked, asked.asked, notes[0].before))
    should = notes[-1].after if notes else asked.asked
    assert should is not None
    found = 0.0 if asked.measure is None else asked.measure.of(outline)
    return [*steps, _Missed(asked, should, found)]


def _said(value: float, asked: Asked, words: Words) -> str:
    if not math.isfinite(value):
        return "not to be found"
    return f"{value:.1f}°" if asked.unit == "deg" else words(value)
