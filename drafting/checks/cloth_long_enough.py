"""The cloth in hand must be long enough for all pieces, laid as well as they can be."""

from dataclasses import replace

from drafting.checks import Value, Way, Words, fixed, length_of, millimetres
from drafting.garments import SetOut
from drafting.layout import fits_across, goes_within, lay
from drafting.problems import Check

ID = "cloth_long_enough"
ORDER = 61


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns when no way of laying keeps within the cloth's length. Without a length, or too narrow: not judged."""
    if draft.cloth.length is None or not fits_across(draft.pieces, draft.cloth):
        return None
    limit = draft.cloth.length
    within = goes_within(draft.pieces, draft.cloth)
    if within is not None:
        says = f"The cloth is long enough: {words(within.length)} of {words(limit)}."
        return Check(ID, "pass", says, within.length, limit)
    value = _needed(draft)
    return Check(ID, "warn", f"The cloth is {words(value - limit)} too short for all pieces.", value, limit)


def _needed(draft: SetOut) -> float:
    best = lay(draft.pieces, replace(draft.cloth, length=None))
    assert best is not None
    return best.length


def _shorter(draft: SetOut) -> list[Value]:
    assert draft.cloth.length is not None
    over = (_needed(draft) - draft.cloth.length) / 2
    return [millimetres(draft.choices.length - over - spare) for spare in (2, 15, 40)]


WAYS = (
    Way(
        "style.length",
        _shorter,
        lambda value, words: f"Make it {words(length_of(value))} long from the side-neck point.",
    ),
    fixed("style.centre_back", "seam", "Divide the back by a seam at its centre."),
    fixed("style.lower_sleeve", "joined", "Cut the lower sleeve apart and join it by a seam."),
    Way(
        "cloth.length",
        lambda draft: (millimetres(_needed(draft) + 1),),
        lambda value, words: f"Take {words(length_of(value))} of cloth.",
    ),
    fixed("style.length", "hip", "Make it hip length."),
)
