"""The crotch depth goes with the stature and with the level of the hip; else one of them was measured wrongly."""

from drafting import sources
from drafting.contract.judging import Way, Words
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "crotch_level"
ORDER = 27
WAYS: tuple[Way, ...] = ()  # nothing but a tape helps
#: A depth that is so little outside is not told, mm: an estimate lies on the limit itself.
NEARLY = 0.5


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns outside 0.145 to 0.20 of the stature, and less than 2 cm below the level of the hip (from memory)."""
    body = draft.body
    low, high = (share * body.stature for share in sources.CROTCH_DEPTH_USUAL)
    depth, least = body.crotch_depth, body.waist_to_hip + sources.CROTCH_BELOW_HIP
    if not low - NEARLY <= depth <= high + NEARLY:
        says = (
            f"The crotch lies {words(depth)} below the waist; {words(low)} to {words(high)} is usual for this stature. "
            "Measure the crotch depth and the waist height again."
        )
        return Check(ID, "warn", says, depth, low if depth < low else high)
    if depth < least - NEARLY:
        says = (
            f"The crotch lies {words(depth)} below the waist, and the hip {words(body.waist_to_hip)}. Measure both "
            f"again: the hip is higher than that."
        )
        return Check(ID, "warn", says, depth, least)
    return Check(ID, "pass", "Crotch depth, hip level and stature go together.", depth, low)
