"""The cloth in hand must be long enough for both pieces."""

from drafting.checks import Value, Way, Words, fixed, length_of, millimetres
from drafting.garments import SetOut
from drafting.problems import Check

ID = "cloth_long_enough"
ORDER = 61


def _needed(draft: SetOut) -> float:
    return sum(piece.height * piece.cut for piece in draft.pieces)


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns when the pieces, one under the other on the fold, are longer than the cloth. Without a length.

    Not judged.
    """
    if draft.cloth.length is None:
        return None
    value, limit = _needed(draft), draft.cloth.length
    if value <= limit + 1e-6:
        return Check(ID, "pass", f"The cloth is long enough: {words(value)} of {words(limit)}.", value, limit)
    return Check(ID, "warn", f"The cloth is {words(value - limit)} too short for both pieces.", value, limit)


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
    Way(
        "cloth.length",
        lambda draft: (millimetres(_needed(draft) + 1),),
        lambda value, words: f"Take {words(length_of(value))} of cloth.",
    ),
    fixed("style.length", "hip", "Make it hip length."),
)
