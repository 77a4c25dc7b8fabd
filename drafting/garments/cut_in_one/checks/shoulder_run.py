"""Enough shoulder must be left beside the neck."""

from drafting.contract.judging import Value, Way, Words, fixed
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "shoulder_run"
ORDER = 11


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when the neck, made wide enough for the head, leaves less shoulder than can be sewn."""
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
    fixed("style.neck_opening", "centre_back", "Open the neck at the centre back, and make it narrower."),
    Way("cloth.stretch_across", _stretches, lambda value, words: f"Take cloth that stretches {value:g} % across."),
    fixed("style.neck_half_width", "auto", "Let the width of the neck be worked out."),
    fixed("style.neck_height", 0, "Choose a scooped neck instead of a grown-on one."),
)
