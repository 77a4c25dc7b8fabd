"""The waistband holds the waist: the band of jersey, or the elastic in the casing, is shorter than the waist."""

from drafting.contract.judging import Way, Words, fixed
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "band_holds"
ORDER = 22


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns where what holds the garment is as long as the waist or longer, so that it slides down (CALC)."""
    limit, jersey = draft.body.waist_girth, draft.facts["band_is_jersey"] > 0
    value = draft.facts["band_chalked"] if jersey else draft.facts["elastic"]
    if value < limit:
        if jersey:
            says = f"The waistband is {words(limit - value)} shorter than the waist, so it holds."
        else:
            says = f"The elastic is {words(limit - value)} shorter than the waist, so it holds."
        return Check(ID, "pass", says, value, limit)
    return Check(ID, "warn", "The waistband is not shorter than the waist, so it slides down.", value, limit)


WAYS: tuple[Way, ...] = (fixed("style.waistband", "casing", "Make the waistband a casing with elastic."),)
