"""The arm must have room in the narrowest place of the sleeve, and in the ring of the underarm."""

from drafting import sources
from drafting.contract.judging import Words, fixed
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "arm_room"
ORDER = 21


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns when the narrowest place is tighter than the fit asks, or a cap than the upper arm needs."""
    facts = draft.facts
    if facts["cap"]:
        value, limit = facts["sleeve_end_girth"], draft.body.upper_arm_girth + sources.CAP_ROOM
        if value >= limit - 0.05:
            return Check(ID, "pass", f"The armhole of the cap is {words(value)} round.", value, limit)
        return Check(
            ID, "warn", f"The armhole of the cap is {words(limit - value)} too tight for the arm.", value, limit
        )
    value, limit = facts["narrowest_girth"], facts["sleeve_wanted"]
    if value >= limit - 0.05:
        return Check(ID, "pass", f"The sleeve has room for the arm ({words(value)} at its narrowest).", value, limit)
    says = f"At its narrowest the sleeve is {words(limit - value)} tighter than a {draft.choices.fit} fit asks for."
    return Check(ID, "warn", says, value, limit)


WAYS = (
    fixed("style.narrowest_girth", "auto", "Let the narrowest girth be worked out."),
    fixed("style.fit", "close", "Choose a closer fit."),
    fixed("style.underarm", "deep", "Choose the deep underarm."),
)
