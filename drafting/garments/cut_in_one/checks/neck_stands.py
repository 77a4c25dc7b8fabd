"""Whether a grown-on neck stands or falls softly."""

from drafting import sources
from drafting.contract.judging import Words, fixed, more_stretch
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "neck_stands"
ORDER = 12


def judge(draft: SetOut, words: Words) -> Check | None:
    """A note when the ring is wider than the neck by more than stands."""
    if "column_radius" in draft.facts and draft.facts["column_radius"] == float("inf"):
        return None
    value, limit = draft.facts["neck_ring"], draft.body.neck_girth + sources.NECK_SOFT_EASE
    if value <= limit + 1e-6:
        return Check(ID, "pass", "The neck stands.", value, limit)
    if value - draft.facts["neck_spread"] <= limit:
        says = (
            f"The neck is {words(value)} round because the head was only estimated. Measure the head: the neck may "
            "become narrower then."
        )
        return Check(ID, "shown", says, value, limit)
    return Check(ID, "warn", f"The neck is {words(value)} round, so it falls softly and does not stand.", value, limit)


WAYS = (
    fixed("style.neck_half_width", "auto", "Let the width of the neck be worked out."),
    fixed("style.neck_opening", "centre_back", "Open the neck at the centre back, and make it narrower."),
    more_stretch(),
    fixed("style.neck_height", 0, "Choose a scooped neck."),
)
