"""Enough shoulder must be left beside the neck, since the kaftan hangs from it."""

from drafting.contract.judging import Way, Words
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "shoulder_run"
ORDER = 11
#: The neck follows from the body alone, so a measure was taken wrongly where it leaves no shoulder.
WAYS: tuple[Way, ...] = ()


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when the neck leaves less shoulder than holds the garment."""
    value, limit = draft.facts["shoulder_run"], draft.facts["shoulder_run_least"]
    if value >= limit - 1e-6:
        return Check(ID, "pass", f"{words(value)} of shoulder is left beside the neck.", value, limit)
    left = max(value, 0.0)
    says = (
        f"Only {words(left)} of shoulder would be left beside the neck; it needs {words.needed(limit, left)}. Measure "
        "head, neck base, shoulders and the way down to the bust point again."
    )
    return Check(ID, "stop", says, value, limit)
