"""Work that is counted: a search is bounded without a clock, so that the same order ends at the same step anywhere."""

import math

#: Units of work, each about a microsecond on the machine they were measured on. Our choice, from a trial computation:
#: setting a garment out and judging it, and planning its chalking.
DRAFT = 25_000
PLAN = 25_000


class Work:
    """Counts work and says when there has been enough of it."""

    __slots__ = ("done", "most")

    def __init__(self, most: float = math.inf) -> None:
        self.done = 0
        self.most = most

    def add(self, units: int) -> None:
        """Counts some more."""
        self.done += units

    def spent(self, ahead: int = 0) -> bool:
        """Whether no more may be done. Where `ahead` more would be too much, nothing more is done at all."""
        if self.done + ahead >= self.most:
            self.most = min(self.most, self.done)
            return True
        return False
