"""Knows a drawing that failed from one that waits for work: patience runs only while the loop is free."""

import asyncio
from collections.abc import Callable

BEAT = 0.1
"""Seconds between two looks at the loop: our choice, a few in the time of the shortest failure worth telling."""
LATE = 0.1
"""Seconds by which a beat may be late while the loop still counts as free: our choice, five times what long work takes
between two pauses (`effects.STEP`)."""


class Watch:
    """Looks after something that the loop is to do in its own time, such as drawing the screen.

    The loop beats while it is waited for. A beat that comes in time shows that the loop was free to do it; one that is
    late shows that work, or a sleeping page, held it up, and is not counted. Once as many beats came in time as fill
    the patience, `failed` is called. Work that holds the loop up for ever is not noticed, for then nothing is.
    """

    def __init__(self, patience: float, failed: Callable[[], None]) -> None:
        """Wait for nothing yet; `patience` is in seconds."""
        self._beats, self._failed = max(1, round(patience / BEAT)), failed
        self._left = 0
        self._due = 0.0
        self._timer: asyncio.TimerHandle | None = None

    def begin(self) -> None:
        """It is waited for from now on, if it was not already."""
        if self._timer is None:
            self._left = self._beats
            self._wait()

    def end(self) -> None:
        """It was done, or need not be any more."""
        if self._timer is not None:
            self._timer.cancel()
            self._timer = None

    def _wait(self) -> None:
        loop = asyncio.get_running_loop()
        self._due = loop.time() + BEAT
        self._timer = loop.call_later(BEAT, self._beat)

    def _beat(self) -> None:
        self._timer = None
        if asyncio.get_running_loop().time() - self._due <= LATE:
            self._left -= 1
        if self._left > 0:
            self._wait()
        else:
            self._failed()
