"""The face edges of a hood must go round the face."""

from drafting.contract.judging import Way, Words, fixed
from drafting.contract.set_out import SetOut
from drafting.parts.hood import FACE_ROOM
from drafting.problems import Check

ID = "hood_face"
ORDER = 21
WAYS: tuple[Way, ...] = (fixed("style.neck_finish", "turned", "Turn the neck edge in, and leave the hood out."),)


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns where both together are less than the head and 10 cm; says nothing without a hood."""
    if "hood_face" not in draft.facts:
        return None
    value, limit = draft.facts["hood_face"], draft.body.head_girth + FACE_ROOM
    if value >= limit - 1e-6:
        return Check(ID, "pass", f"The hood is {words(value)} round the face; it needs {words(limit)}.", value, limit)
    says = f"The hood is {words(limit - value)} too narrow round the face, and would pull at the neck."
    return Check(ID, "warn", says, value, limit)
