"""The head must pass the narrowest ring of the neck, at 80 % of the stretch."""

from drafting.cloth import passing_factor
from drafting.contract.judging import Value, Way, Words, fixed, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.parts.judged import MORE_ACROSS, head_passes
from drafting.person.passing import head_needs
from drafting.problems import Check

ID = "head_passes_neck"
ORDER = 10


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when head + 1 cm does not pass what will be chalked; an opening counts with the ring it gives."""
    opened = " with the back open" if draft.facts["opening"] > 0 else ""
    return head_passes(ID, draft, draft.facts["head_ring"], words, opened)


def _half_widths(draft: SetOut) -> list[Value]:
    # A neck that just passes, and one that passes wherever a step of the tape puts its marks.
    needed = head_needs(draft.body) / passing_factor(draft.cloth.across) / 4 + 0.01
    allowance = draft.facts.get("shoulder_allowance", 0.0)
    whole = draft.chalked.open_enough(needed, allowance, draft.cloth.shrink_across)
    return [millimetres(whole + 0.01), millimetres(needed + draft.chalked.tape.size)]


WAYS = (
    fixed("style.neck_half_width", "auto", "Let the width of the neck be worked out."),
    Way(
        "style.neck_half_width",
        _half_widths,
        lambda value, words: f"Make half the neck {words(length_of(value))} wide.",
    ),
    fixed("style.neck_opening", "centre_back", "Open the neck at the centre back."),
    MORE_ACROSS,
)
