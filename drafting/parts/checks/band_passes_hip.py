"""A waistband of jersey or rib, as it will be chalked, must pass over the hip; a casing is as the seam."""

from drafting.cloth import passing_factor
from drafting.contract.judging import Words, fixed, more_stretch
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "band_passes_hip"
ORDER = 21


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops a band that does not; nothing without a band. It runs across its cloth, so the stretch across counts."""
    if "band_length" not in draft.facts:
        return None
    limit = draft.facts["hip_needs"]
    value = min(draft.facts["band_length"], draft.facts["band_chalked"]) * passing_factor(draft.facts["band_stretch"])
    if value >= limit - 0.5:
        return Check(ID, "pass", f"The waistband opens to {words(value)}; the hip needs {words(limit)}.", value, limit)
    says = f"The waistband is {words(limit - value)} too narrow to go on over the hip."
    return Check(ID, "stop", says, value, limit)


WAYS = (
    fixed("style.waistband", "casing", "Make the waistband a casing with elastic."),
    fixed("style.band_cloth", "rib", "Cut the waistband of a rib, which stretches more."),
    more_stretch(most=150),
)
