"""The head must pass the neck at 80 % of the stretch."""

from drafting.cloth import passing_factor
from drafting.contract.judging import Value, Way, Words
from drafting.contract.set_out import SetOut
from drafting.person.passing import head_needs
from drafting.problems import Check

ID = "head_passes_neck"
ORDER = 10


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when the head, with what it needs beside its girth, does not pass the neck."""
    value = draft.facts["head_ring"] * passing_factor(draft.cloth.across)
    limit = head_needs(draft.body)
    if value >= limit - 0.05:
        return Check(ID, "pass", f"The neck opens to {words(value)}; the head needs {words(limit)}.", value, limit)
    says = f"The neck is {words(limit - value)} too narrow for the head."
    return Check(ID, "stop", says, value, limit)


def _stretches(draft: SetOut) -> list[Value]:
    start = int(draft.cloth.across * 100)
    return list(range(start - start % 5 + 5, 105, 5))


WAYS = (Way("cloth.stretch_across", _stretches, lambda value, words: f"Take cloth that stretches {value:g} % across."),)
