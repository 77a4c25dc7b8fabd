"""In wear, cloth should give no more than half its stretch."""

from drafting.cloth import wearing
from drafting.contract.judging import Words, more_stretch
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "ease_within_stretch"
ORDER = 50


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns where a finished girth is so much smaller than the body that more than half the stretch is used."""
    worst, at, limit = 0.0, "", 100 * wearing(draft.cloth.across)
    for girth in draft.girths:
        if girth.body <= 0 or not girth.worn_stretched:
            continue
        used = 100 * (girth.body / girth.girth - 1)
        if used > worst:
            worst, at = used, girth.label
    if worst <= limit + 1e-6:
        says = "In wear the cloth gives less than half its stretch."
        if draft.cloth.kind == "woven":
            says = "The cloth has to stretch nowhere."
        return Check(ID, "pass", says, worst, limit, "%")
    says = f"At the {at} the cloth is stretched by {worst:.0f} % all the time. More than {limit:.0f} % wears it out."
    return Check(ID, "warn", says, worst, limit, "%")


WAYS = (more_stretch(rank=2),)
