"""Enough shoulder must be left beside the neck."""

from dataclasses import replace

from drafting import sources
from drafting.contract.judging import Words, fixed
from drafting.contract.set_out import SetOut
from drafting.parts.judged import MUCH_MORE_ACROSS, shoulder_left
from drafting.problems import Check

ID = "shoulder_run"
ORDER = 11
#: A neck that leaves less shoulder than this × scale is called wide, mm. Our choice.
WIDE_UNDER = 50.0


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when the neck, made wide enough for the head, leaves less shoulder than can be sewn."""
    value = draft.facts["shoulder_run"]
    found = shoulder_left(ID, value, draft.facts["shoulder_run_least"], words)
    if found.result == "pass" and value < WIDE_UNDER * sources.scale(draft.body.stature):
        return replace(found, says=f"The neck is wide: {words(value)} of shoulder is left beside it.")
    return found


WAYS = (
    fixed("style.neck_finish", "turned", "Turn the neck edge in: without a band the neck is narrower."),
    fixed("style.band_cloth", "rib", "Cut the bands of a rib, which stretches more: the neck is then narrower."),
    MUCH_MORE_ACROSS,
    fixed("style.neck", "v", "Choose a V neck, which is deep instead of wide.", rank=2),
)
