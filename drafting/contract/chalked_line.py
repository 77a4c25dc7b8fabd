"""What will be chalked: the tape in hand and the line it marks, which setting-out must know before a width is final.

A width is chalked at the tape's nearest step, up to half a step beside where it should be. A ring that something must
pass (the neck the head, the sleeve the hand) is therefore set at a width whose reading is a whole step.
"""

import math
from dataclasses import dataclass
from typing import Literal

from drafting.units import Tape

Line = Literal["cut", "stitch", "both"]

#: A reading this near above a whole step is that step, mm: far below what any tape shows, above a float's last bits.
_HAIR = 1e-6


PLAIN_TAPE = Tape("cm", "0.5")
"""What is in hand where nothing was said."""


@dataclass(frozen=True, slots=True)
class ChalkedLine:
    """The tape, and which line is chalked with it: the cutting line, the stitching line, or both."""

    tape: Tape = PLAIN_TAPE
    line: Line = "cut"

    def open_enough(self, finished: float, allowance: float, shrink: float) -> float:
        """The least finished width, not under `finished`, whose nearest reading keeps a ring as wide as `finished`, mm.

        The width is measured from the fold. `allowance` is added to it at its one side on the cutting line, `shrink`
        is the share lost in the wash in its direction. Where both lines are chalked the reading of each keeps the
        ring open. The result is less than a step above `finished`.

        >>> ChalkedLine().open_enough(103.2, 10.0, 0.0), ChalkedLine(line="stitch").open_enough(103.2, 10.0, 0.0)
        (105.0, 105.0)
        """
        return max(self._whole(finished, outside, shrink) for outside in self._outsides(allowance))

    def chalked(self, finished: float, allowance: float, shrink: float) -> float:
        """The finished width that comes of the nearest reading; of two chalked lines the smaller width, mm."""
        cloth = finished / (1 - shrink)
        return min(
            (self.tape.reading(cloth + outside).mm - outside) * (1 - shrink) for outside in self._outsides(allowance)
        )

    def _outsides(self, allowance: float) -> tuple[float, ...]:
        return {"cut": (allowance,), "stitch": (0.0,), "both": (allowance, 0.0)}[self.line]

    def _whole(self, finished: float, outside: float, shrink: float) -> float:
        steps = math.ceil((finished / (1 - shrink) + outside - _HAIR) / self.tape.size)
        return max(finished, (steps * self.tape.size - outside) * (1 - shrink))
