"""Cloth that does not stretch needs ease at the bust, to breathe and to reach out."""

from drafting import sources
from drafting.contract.judging import Way, Words, fixed, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "bust_ease"
ORDER = 30


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns below 12 cm; only an ease that was asked for can be less."""
    value, limit = draft.facts["bust_ease"], sources.WOVEN_BUST_EASE
    if value >= limit - 0.05:
        return Check(ID, "pass", f"It is {words(value)} wider than the bust.", value, limit)
    says = (
        f"It is {words(value)} wider than the bust. Cloth that does not stretch binds with less than "
        f"{words.needed(limit, value)}."
    )
    return Check(ID, "warn", says, value, limit)


WAYS = (
    fixed("style.ease_bust", "auto", "Let the ease at the bust be worked out."),
    Way(
        "style.ease_bust",
        lambda draft: (millimetres(sources.WOVEN_BUST_EASE + 1.0),),
        lambda value, words: f"Take {words(length_of(value))} of ease at the bust.",
    ),
)
