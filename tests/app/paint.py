"""What is painted, read from a picture of the screen: how clear its words are against their own ground."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PIL import Image
from scipy import ndimage

Pixels = NDArray[np.float64]
LETTER = 5.0
"""Nothing lower is a letter, px: the least of ours is 11 px high, with small letters half of that."""
HIGH = 90.0
"""No letter is higher, px."""
SLIM = 6.5
"""What is so many times higher than wide is a line, not a letter."""
EDGED = 0.9
"""What fills so much of its box once its holes are filled, and not itself, is the edge of a box."""
TINT, HIGH_TINT = 1.6, 18.0
"""A shape so faint and so high, px, is a tint: our words are lower."""
TICK = 7.0
"""The tick of a tape is lower and half as wide at most, px."""
BETWEEN = 4
"""Letters of one word are nearer to each other, px."""
FILLED = 0.55
"""What fills more of its box is a ground of its own, with words on it."""


@dataclass(frozen=True)
class Word:
    """Something written: how clear it is (WCAG 2.2, 1 to 21), and where it stands, px of the screen."""

    clear: float
    left: float
    top: float
    right: float
    bottom: float


def luminance(picture: Image.Image) -> Pixels:
    """The relative luminance of every pixel (WCAG 2.2)."""
    values = np.asarray(picture.convert("RGB"), dtype=np.float64) / 255
    linear = np.where(values <= 0.04045, values / 12.92, ((values + 0.055) / 1.055) ** 2.4)
    return linear @ np.array([0.2126, 0.7152, 0.0722])


def against(light: Pixels, ground: float) -> Pixels:
    """The contrast of every pixel with a ground."""
    return (np.maximum(light, ground) + 0.05) / (np.minimum(light, ground) + 0.05)


def words(light: Pixels, scale: float, at: tuple[float, float] = (0.0, 0.0)) -> Iterator[Word]:
    """The words in a part of a picture that begins at a place of the screen; `scale` is pixels a px.

    The ground is what there is most of. What is filled, as a chip on a card, is a ground of its own.
    What is below zero is not looked at.
    """
    if min(light.shape) < 2 or not (light >= 0).any():
        return
    levels, counts = np.unique(np.round(light[light >= 0], 3), return_counts=True)
    ground = float(levels[np.argmax(counts)])
    light = np.where(light < 0, ground, light)
    marked = against(light, ground) > 1.08
    joined = (
        ndimage.binary_closing(np.pad(marked, 1), np.ones((1, 2 * round(BETWEEN * scale) + 1)))[1:-1, 1:-1] | marked
    )
    labels, _ = ndimage.label(joined, np.ones((3, 3)))
    for number, where in enumerate(ndimage.find_objects(labels), start=1):
        rows, columns = where
        high, wide = (rows.stop - rows.start) / scale, (columns.stop - columns.start) / scale
        own = marked[where] & (labels[where] == number)
        left, top = at[0] + columns.start / scale, at[1] + rows.start / scale
        if high < LETTER or wide < 1.5 or high > SLIM * wide or not own.any():
            continue
        whole = high >= light.shape[0] / scale - 1 and wide >= light.shape[1] / scale - 1
        if own.mean() > FILLED and high > 2 * LETTER and not whole:
            yield from words(light[where], scale, (left, top))
        elif ndimage.binary_fill_holes(own).mean() > EDGED and min(high, wide) > 3 * LETTER:
            continue  # only the edge round a box: what stands in it is found by itself
        elif high <= HIGH:
            clear = float(against(light[where], ground)[own].max())
            tint = clear < TINT and high > HIGH_TINT
            tick = high < TICK and wide < TICK / 2
            if not (tint or tick):
                yield Word(clear, left, top, left + wide, top + high)
