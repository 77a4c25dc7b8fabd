"""The hand must pass the end of the sleeve, or its cuff."""

from drafting.cloth import passing_factor
from drafting.contract.judging import Value, Way, Words, fixed, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.parts.judged import MORE_ACROSS, hand_passes
from drafting.person.passing import hand_needs
from drafting.problems import Check

ID = "hand_passes_sleeve"
ORDER = 22


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when hand + 2 cm does not pass as it will be chalked; only an end that was asked for can be too narrow."""
    return hand_passes(ID, draft, draft.facts["hand_ring"], draft.cloth.across, words)


def _girths(draft: SetOut) -> list[Value]:
    needed = hand_needs(draft.body) / passing_factor(draft.cloth.across)
    return [millimetres(needed + 1), millimetres(needed + 2 * draft.chalked.tape.size)]


WAYS = (
    fixed("style.sleeve_end_girth", "auto", "Let the sleeve end be worked out."),
    Way(
        "style.sleeve_end_girth",
        _girths,
        lambda value, words: f"Make the sleeve end {words(length_of(value))} round.",
    ),
    MORE_ACROSS,
)
