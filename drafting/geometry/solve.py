"""How a number is solved for, for all of setting-out: within a bracket, to a stated accuracy."""

from collections.abc import Callable

from drafting.stepwise import Steps, finished

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
    return finished(seeking_least(enough, low, high, accuracy))


def seeking_least(enough: Callable[[float], bool], low: float, high: float, accuracy: float) -> Steps[float]:
    """As `least_enough`, a step for every number that is tried."""
    while abs(high - low) > accuracy:
        middle = (low + high) / 2
        if enough(middle):
            high = middle
        else:
            low = middle
        yield None
    return high


def most_whole(enough: Callable[[int], bool], least: int, most: int) -> int:
    """The greatest whole number between `least` and `most` up to which something is enough; by bisection.

    `least` is taken to be enough and is not asked.

    >>> most_whole(lambda n: n * n <= 90, 0, 90)
    9
    """
    return finished(seeking_most_whole(enough, least, most))


def seeking_most_whole(enough: Callable[[int], bool], least: int, most: int) -> Steps[int]:
    """As `most_whole`, a step for every number that is tried."""
    while least < most:
        middle = (least + most + 1) // 2
        if enough(middle):
            least = middle
        else:
            most = middle - 1
        yield None
    return least


def newton_crossing(
    rising: Callable[[float], tuple[float, float]], start: float, low: float, high: float, *, least_slope: float,
    value_within: float = 0.0, within: float = 0.0,
) -> float:  # fmt: skip
    """The number in the bracket `low`…`high` at which a rising function is zero; by Newton's steps from `start`.

    `rising` gives its value and its slope. A step that leaves the bracket, or is taken from a slope of `least_slope` or
    less, is replaced by a bisection. The number returned is one whose value is less than `value_within` from zero, or
    from which the next step would go less than `within`.

    >>> round(newton_crossing(lambda x: (x**3 - 2, 3 * x * x), 1.0, 0.0, 2.0, least_slope=1e-9, within=1e-9), 6)
    1.259921
    """
    at = start
    for _ in range(_MOST_STEPS):
        value, slope = rising(at)
        if abs(value) < value_within:
            break
        if value < 0:
            low = at
        else:
            high = at
        step = at - value / slope if slope > least_slope else low
        following = step if low < step < high else (low + high) / 2
        if abs(following - at) < within:
            break
        at = following
    return at
