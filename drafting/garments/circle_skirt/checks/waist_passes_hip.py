"""The waist seam, as it will be chalked, must pass over the hip by the smaller stretch of its cloth."""

from drafting.cloth import passing_factor
from drafting.contract.judging import Value, Way, Words
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "waist_passes_hip"
ORDER = 20


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when it does not; the draft sets the waist by this, so only another tape can stop it."""
    value = draft.facts["waist_seam_chalked"] * passing_factor(draft.facts["waist_stretch"])
    limit = draft.facts["hip_needs"]
    if value >= limit - 0.5:
        return Check(ID, "pass", f"The waist seam opens to {words(value)}; the hip needs {words(limit)}.", value, limit)
    says = f"The waist seam is {words(limit - value)} too narrow to go on over the hip."
    return Check(ID, "stop", says, value, limit)


def _stretches(draft: SetOut) -> list[Value]:
    start = int(draft.cloth.along * 100)
    return list(range(start - start % 5 + 5, 105, 5))


WAYS = (
    Way("cloth.stretch_along", _stretches, lambda value, words: f"Take cloth that stretches {value:g} % along too."),
)
