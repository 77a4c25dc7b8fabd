"""The leg has room for the thigh."""

from drafting.contract.judging import Words
from drafting.contract.set_out import SetOut
from drafting.parts.judged import MORE_ACROSS, NEARLY
from drafting.problems import Check

ID = "thigh_room"
ORDER = 26
WAYS = (MORE_ACROSS,)


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns where the leg at the crotch, as far as it gives in wear, is less than the thigh with its room."""
    value, limit = draft.facts["thigh_opens"], draft.facts["thigh_needs"]
    if value >= limit - NEARLY:
        return Check(ID, "pass", f"The leg gives {words(value)} at the thigh; it needs {words(limit)}.", value, limit)
    says = f"The leg gives only {words(value)} at the thigh, and it needs {words(limit)}."
    return Check(ID, "warn", says, value, limit)
