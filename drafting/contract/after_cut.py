"""What a garment hands over beyond its outlines: sewing, trying on, and what to buy besides the cloth.

Plain records that any sheet or screen can show; no part of what shows them knows a garment. Words are whole sentences
for a person, with lengths in the unit of the tape in hand.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class SewStep:
    """One step of sewing up: `title` names it, `says` tells how.

    `key` stays the same whatever the words are, so that a step that is done can be kept. `tries_on` says that the
    garment is tried on in it.
    """

    key: str
    title: str
    says: str
    tries_on: bool = False


@dataclass(frozen=True, slots=True)
class TryOn:
    """A row of the try-on table: what is `seen` on the body, and what to `change`."""

    seen: str
    change: str


@dataclass(frozen=True, slots=True)
class ToBuy:
    """Something to buy besides the cloth: what it is, and its `length` in mm where it is sold by length."""

    what: str
    length: float | None = None


@dataclass(frozen=True, slots=True)
class AfterCut:
    """All that follows the cut: needle, thread and stitch, the order of sewing, the try-on and the shopping list.

    `before_cut` is what a person may want to change before cutting, such as room to grow.
    """

    needle: str
    thread: str
    stitch: str
    order: tuple[SewStep, ...]
    try_on: tuple[TryOn, ...]
    buy: tuple[ToBuy, ...]
    before_cut: tuple[str, ...] = ()
