"""The half piece must fit the cloth folded in half lengthwise."""

import math

from drafting.checks import Value, Way, Words, length_of, millimetres
from drafting.garments import SetOut
from drafting.problems import Check

ID = "fits_cloth_folded"
ORDER = 60


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns when the widest place of the cut line is wider than half the cloth less its selvages."""
    value = max(piece.width for piece in draft.pieces)
    limit = draft.cloth.usable_width / 2
    if value <= limit + 1e-6:
        says = f"Folded in half, the cloth is wide enough: {words(value)} of {words(limit)}."
        return Check(ID, "pass", says, value, limit)
    says = f"The sleeve is {words(value - limit)} too long across for this cloth folded in half."
    return Check(ID, "warn", says, value, limit)


def _angles(draft: SetOut) -> list[Value]:
    now = math.degrees(draft.choices.overarm)
    return [angle for angle in (5, 10, 15, 20, 25, 30) if angle > now]


def _sleeves(draft: SetOut) -> list[Value]:
    over = max(piece.width for piece in draft.pieces) - draft.cloth.usable_width / 2
    shorter = draft.choices.sleeve_length - over / math.cos(draft.choices.overarm)
    return [millimetres(value) for value in (shorter - 1, shorter - 15, shorter - 40) if value > 50]


def _widths(draft: SetOut) -> list[Value]:
    needed = 2 * max(piece.width for piece in draft.pieces) + draft.cloth.width - draft.cloth.usable_width
    sold = (900.0, 1150.0, 1400.0, 1500.0, 1600.0, 1800.0, 2000.0, 2400.0)
    return [millimetres(min(wide))] if (wide := [width for width in sold if width >= needed]) else []


WAYS = (
    Way("style.overarm_angle", _angles, lambda value, words: f"Let the sleeve fall by {value:g} degrees."),
    Way("style.sleeve_length", _sleeves, lambda value, words: f"Make the sleeve {words(length_of(value))} long."),
    Way("cloth.width", _widths, lambda value, words: f"Take cloth {words(length_of(value))} wide."),
)
