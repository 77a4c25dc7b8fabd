"""Enough shoulder must be left beside the neck."""

from drafting.contract.judging import Words, fixed
from drafting.contract.set_out import SetOut
from drafting.parts.judged import MUCH_MORE_ACROSS, shoulder_left
from drafting.problems import Check

ID = "shoulder_run"
ORDER = 11


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when the neck, made wide enough for the head, leaves less shoulder than can be sewn."""
    return shoulder_left(ID, draft.facts["shoulder_run"], draft.facts["shoulder_run_least"], words)


WAYS = (
    fixed("style.neck_opening", "centre_back", "Open the neck at the centre back, and make it narrower."),
    MUCH_MORE_ACROSS,
    fixed("style.band_cloth", "rib", "Cut the bands of a rib, which stretches more: the neck is then narrower."),
    fixed("style.neck_half_width", "auto", "Let the width of the neck be worked out."),
    fixed("style.neck_height", 0, "Choose a scooped neck instead of a grown-on one."),
)
