"""Readings on the cloth: in the finest steps of the tape, whatever the marks are chalked in."""

import math

from drafting.units import Reading, Tape


def finest(tape: Tape) -> Tape:
    """The finest steps of a tape: pieces that follow one another on a fold touch, so half a coarse step is too much."""
    return tape.finest


def fold_reading(mm: float, tape: Tape) -> Reading:
    """How a fold is read, wherever it is told: in the finest steps of the tape, at or next above its place.

    `mm` is how far it lies from the cut end, or how much cloth is turned over: never too shallow for its piece.
    """
    fine = finest(tape)
    return Reading(math.ceil(mm / fine.size - 1e-6), fine)
