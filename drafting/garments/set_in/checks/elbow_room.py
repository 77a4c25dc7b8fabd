"""The elbow must have room in a sleeve that covers it."""

from drafting.contract.judging import Words, fixed
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "elbow_room"
ORDER = 25


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns where an end that was asked for leaves the elbow less than the fit asks for."""
    value, limit = draft.facts["elbow"], draft.facts["elbow_needed"]
    if value <= 0:
        return None
    if value >= limit - 0.5:
        return Check(ID, "pass", f"The sleeve is {words(value)} round at the elbow.", value, limit)
    says = f"At the elbow the sleeve is {words(limit - value)} tighter than a {draft.choices.fit} fit asks for."
    return Check(ID, "warn", says, value, limit)


WAYS = (
    fixed("style.sleeve_end_girth", "auto", "Let the sleeve end be worked out."),
    fixed("style.fit", "close", "Choose a closer fit."),
)
