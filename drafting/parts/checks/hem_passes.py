"""The hem, as it will be chalked, must pass what goes through it when the garment is put on over the head."""

from drafting import sources
from drafting.cloth import passing_factor
from drafting.contract.judging import Way, Words, fixed, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "hem_passes"
ORDER = 31


def _limit(draft: SetOut) -> float:
    return draft.facts["through_hem"] + sources.PASSING_EASE * sources.scale(draft.body.stature)


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when it does not; a hem left to us is let out, so only one that was asked for can stop."""
    value, limit = draft.facts["hem_chalked"] * passing_factor(draft.cloth.across), _limit(draft)
    if value >= limit - 0.05:
        return Check(ID, "pass", f"The hem opens to {words(value)}; {words(limit)} must pass.", value, limit)
    return Check(ID, "stop", f"The hem is {words(limit - value)} too narrow to go on over the body.", value, limit)


WAYS = (
    fixed("style.hem_girth", "auto", "Let the hem be worked out."),
    Way(
        "style.hem_girth",
        lambda draft: (millimetres(_limit(draft) / passing_factor(draft.cloth.across) + 4 * draft.chalked.tape.size),),
        lambda value, words: f"Make the hem {words(length_of(value))} round.",
    ),
    Way(
        "cloth.stretch_across",
        lambda draft: list(range(int(draft.cloth.across * 100) + 5, 105, 5)),
        lambda value, words: f"Take cloth that stretches {value:g} % across.",
    ),
)
