"""Enough shoulder must be left beside the neck, since the poncho hangs from it."""

from drafting.contract.judging import Value, Way, Words, fixed
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "shoulder_run"
ORDER = 11


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when the neck, made wide enough for the head, leaves less shoulder than holds it."""
    value, limit = draft.facts["shoulder_run"], draft.facts["shoulder_run_least"]
    if value >= limit - 1e-6:
        return Check(ID, "pass", f"{words(value)} of shoulder is left beside the neck.", value, limit)
    left = max(value, 0.0)
    says = (
        f"Only {words(left)} of shoulder would be left beside the neck; it needs {words.needed(limit, left)}. "
        "In cloth that gives so little, the neck has to be this wide for the head."
    )
    return Check(ID, "stop", says, value, limit)


def _stretches(draft: SetOut) -> list[Value]:
    start = int(draft.cloth.across * 100)
    return list(range(start - start % 5 + 5, 155, 10))


WAYS = (
    Way("cloth.stretch_across", _stretches, lambda value, words: f"Take cloth that stretches {value:g} % across."),
    fixed("style.neck", "round", "Choose a round neck, which is narrower than a boat.", rank=2),
    fixed("style.neck", "v", "Choose a V neck, which is deep instead of wide.", rank=2),
)
