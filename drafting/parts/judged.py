"""What several garments judge alike: a head, a hand and the shoulder beside a neck; and a cloth that stretches more.

The checks themselves stand with their garments, since their facts and their ways out differ. Lengths in mm.
"""

from typing import Final

from drafting import sources
from drafting.cloth import passing_factor
from drafting.contract.judging import Value, Way, Words
from drafting.contract.set_out import SetOut
from drafting.person.passing import hand_needs, head_needs
from drafting.problems import Check

#: A ring passes where it is short of what it needs by less than this, mm: no tape shows it.
NEARLY: Final = 0.05
#: A bend of a neck is so short that it is cut in two snips, so shears follow half the radius that a long curve needs.
#: Our choice.
NECK_BEND: Final = sources.CUT_RADIUS["shears"] / 2
#: The stretch of cloth that is offered, %: in steps of so many, up to what a neck or a sleeve can be cut of, and up to
#: what only the stretchiest cloth has. Our choice.
STRETCH_STEP, STRETCHIEST = 5, 100
RARE_STEP, RAREST = 10, 150


def head_passes(check: str, draft: SetOut, ring: float, words: Words, opened: str = "") -> Check:
    """Stops when the head, with what it needs beside its girth, does not pass a ring at 80 % of the stretch across."""
    value, limit = ring * passing_factor(draft.cloth.across), head_needs(draft.body)
    if value >= limit - NEARLY:
        says = f"The neck opens to {words(value)}{opened}; the head needs {words(limit)}."
        return Check(check, "pass", says, value, limit)
    says = f"The neck is {words(limit - value)} too narrow for the head{opened}."
    return Check(check, "stop", says, value, limit)


def hand_passes(check: str, draft: SetOut, ring: float, stretch: float, words: Words) -> Check:
    """Stops when hand + 2 cm does not pass a ring at 80 % of the stretch round it."""
    value, limit = ring * passing_factor(stretch), hand_needs(draft.body)
    if value >= limit - NEARLY:
        return Check(check, "pass", f"The sleeve opens to {words(value)}; the hand needs {words(limit)}.", value, limit)
    return Check(check, "stop", f"The sleeve is {words(limit - value)} too narrow for the hand.", value, limit)


def shoulder_left(check: str, value: float, limit: float, words: Words) -> Check:
    """Stops when a neck, made wide enough for the head, leaves less shoulder than can be sewn."""
    if value >= limit - 1e-6:
        return Check(check, "pass", f"{words(value)} of shoulder is left beside the neck.", value, limit)
    left = max(value, 0.0)
    says = (
        f"Only {words(left)} of shoulder would be left beside the neck; it needs {words.needed(limit, left)}. "
        "In cloth that gives so little, the neck has to be this wide for the head."
    )
    return Check(check, "stop", says, value, limit)


def snips(check: str, value: float, limit: float, words: Words) -> Check:
    """Warns of a curve that neither shears nor a small blade follow."""
    says = f"The tightest curve to cut has a radius of {words(value)}: cut it in small snips with the points."
    return Check(check, "warn", says, value, limit)


def large_blade_fails(check: str, value: float, limit: float, words: Words) -> Check:
    """Says that a curve can be cut, but not with a large blade."""
    says = (
        f"The tightest curve to cut has a radius of {words(value)}: shears or a small rotary blade follow it, "
        "a large one does not."
    )
    return Check(check, "pass", says, value, limit)


def _steps(stretch: float, step: int, most: int) -> list[Value]:
    start = int(stretch * 100)
    return list(range(start - start % STRETCH_STEP + STRETCH_STEP, most + 1, step))


MORE_ACROSS: Final = Way(
    "cloth.stretch_across",
    lambda draft: _steps(draft.cloth.across, STRETCH_STEP, STRETCHIEST),
    lambda value, words: f"Take cloth that stretches {value:g} % across.",
)
MUCH_MORE_ACROSS: Final = Way(
    "cloth.stretch_across",
    lambda draft: _steps(draft.cloth.across, RARE_STEP, RAREST),
    lambda value, words: f"Take cloth that stretches {value:g} % across.",
)
MORE_ALONG: Final = Way(
    "cloth.stretch_along",
    lambda draft: _steps(draft.cloth.along, STRETCH_STEP, STRETCHIEST),
    lambda value, words: f"Take cloth that stretches {value:g} % lengthwise.",
)
