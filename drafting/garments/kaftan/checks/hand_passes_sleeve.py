"""The hand must pass the end of the sleeve, which does not stretch."""

from drafting.contract.judging import Value, Way, Words, fixed, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.parts.judged import hand_passes
from drafting.person.passing import hand_needs
from drafting.problems import Check

ID = "hand_passes_sleeve"
ORDER = 22


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when hand + 2 cm does not pass; only an end that was asked for can be too narrow."""
    return hand_passes(ID, draft, draft.facts["hand_ring"], 0.0, words)


def _girths(draft: SetOut) -> list[Value]:
    return [millimetres(hand_needs(draft.body) + spare) for spare in (1.0, 2 * draft.chalked.tape.size)]


WAYS = (
    fixed("style.sleeve_end_girth", "auto", "Let the sleeve end be worked out."),
    Way(
        "style.sleeve_end_girth",
        _girths,
        lambda value, words: f"Make the sleeve end {words(length_of(value))} round.",
    ),
)
