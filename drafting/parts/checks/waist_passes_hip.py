"""The waist seam, as it will be chalked, must pass over the hip by the stretch of its cloth round the waist."""

from drafting.cloth import passing_factor
from drafting.contract.judging import Way, Words
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "waist_passes_hip"
ORDER = 20
WAYS: tuple[Way, ...] = ()  # which stretch counts depends on the garment


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when it does not; a draft sets the waist by this, so only another tape can stop it."""
    value = draft.facts["waist_seam_chalked"] * passing_factor(draft.facts["waist_stretch"])
    limit = draft.facts["hip_needs"]
    if value >= limit - 0.5:
        return Check(ID, "pass", f"The waist seam opens to {words(value)}; the hip needs {words(limit)}.", value, limit)
    says = f"The waist seam is {words(limit - value)} too narrow to go on over the hip."
    return Check(ID, "stop", says, value, limit)
