"""Legs and seat give as much as sitting down needs: round the hip, and along the seam between the legs."""

from drafting import sources
from drafting.cloth import wearing
from drafting.contract.judging import Words
from drafting.contract.set_out import SetOut
from drafting.parts.judged import MORE_ACROSS, MORE_ALONG
from drafting.problems import Check

ID = "sits"
ORDER = 25
#: A seat that is so little short is not felt, mm: our choice, half a centimetre is within what a tape reads there.
NEARLY = 5.0


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns where half the stretch does not give 1.06 of the hip across, or the crotch length and 3 × scale along."""
    body, facts = draft.body, draft.facts
    across = facts["hip_finished"] * (1 + wearing(draft.cloth.across))
    around = (1 + sources.SITTING_HIP) * body.hip_girth
    along = facts["seat_seam"] * (1 + wearing(draft.cloth.along))
    through = body.crotch_length + sources.SITTING_SEAT * sources.scale(body.stature)
    if across < around - sources.EQUAL_WITHIN:
        says = f"Sitting down takes {words(around)} at the hip, and the cloth gives only as far as {words(across)}."
        return Check(ID, "warn", says, across, around)
    if along < through - NEARLY:
        says = (
            f"Sitting down takes {words(through)} between the legs, from waist to waist, and the seat seam gives only "
            f"as far as {words(along)}."
        )
        return Check(ID, "warn", says, along, through)
    says = f"Sitting down takes {words(through)} between the legs, and the seat seam gives as far as {words(along)}."
    return Check(ID, "pass", says, along, through)


WAYS = (MORE_ALONG, MORE_ACROSS)
