"""How a number is solved for, for all of setting-out: within a bracket, to a stated accuracy."""

from collections.abc import Callable

#: A bracket this many times halved is as narrow as a float can tell.
_MOST_STEPS = 200


def crossing_value(short_by: Callable[[float], float], low: float, high: float, accuracy: float) -> float:
    """The number in `low`…`high`, within `accuracy`, at which a rising or falling function changes its sign.

    `short_by(low)` and `short_by(high)` have different signs (or one is zero); otherwise the end at which the function
    is nearer to zero is returned, so ask first where that matters. Of the two ends of the last bracket the one is
    returned where the function has the sign that it has at `high`: what was enough at `high` is enough there.
    False position that halves the weight of an end that stays (Illinois), with a plain halving every fourth step.

    >>> round(crossing_value(lambda x: x * x - 2, 0.0, 2.0, 1e-9), 6)
    1.414214
    """
    below, above = short_by(low), short_by(high)
    if below == 0.0:
        return low
    if above == 0.0:
        return high
    if (below > 0) == (above > 0):
        return low if abs(below) < abs(above) else high
    stays = 0
    for step in range(_MOST_STEPS):
        if abs(high - low) <= accuracy:
            break
        share = 0.5 if step % 4 == 3 else below / (below - above)
        # Never nearer to an end than a part of the accuracy, so that the bracket closes from both sides.
        least = min(0.5, 0.4 * accuracy / abs(high - low))
        middle = low + (high - low) * min(max(share, least), 1 - least)
        value = short_by(middle)
        if value == 0.0:
            return middle
        if (value > 0) == (above > 0):
            high, above = middle, value
            below, stays = (below / 2 if stays > 0 else below), 1
        else:
            low, below = middle, value
            above, stays = (above / 2 if stays < 0 else above), -1
    return high


def least_enough(enough: Callable[[float], bool], low: float, high: float, accuracy: float) -> float:
    """The least number between `low` and `high`, within `accuracy`, from which on something is enough; by bisection.

    `high` is taken to be enough and `low` not. The number returned is one that is enough. `low` may be the larger
    of the two: then the greatest number is sought down to which it is enough.

    >>> round(least_enough(lambda x: x * x >= 2, 0.0, 2.0, 1e-9), 6)
    1.414214
    """
    while abs(high - low) > accuracy:
        middle = (low + high) / 2
        if enough(middle):
            high = middle
        else:
            low = middle
    return high
