"""The hand must pass the narrowest ring of the sleeve, through the stretch round it."""

from drafting.cloth import passing_factor
from drafting.contract.judging import Value, Way, Words, fixed, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.parts.judged import MORE_ALONG, hand_passes
from drafting.person.passing import hand_needs
from drafting.problems import Check

ID = "hand_passes_sleeve"
ORDER = 22


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when hand + 2 cm does not pass at 80 % of the stretch round the sleeve (mostly the lengthwise one)."""
    return hand_passes(ID, draft, draft.facts["sleeve_passing"], draft.facts["stretch_round_sleeve"], words)


def _girths(draft: SetOut) -> list[Value]:
    limit = hand_needs(draft.body)
    return [millimetres(limit / passing_factor(draft.facts["stretch_round_sleeve"]) + 1)]


WAYS = (
    fixed("style.narrowest_girth", "auto", "Let the narrowest girth be worked out."),
    Way(
        "style.narrowest_girth",
        _girths,
        lambda value, words: f"Make the narrowest place of the sleeve {words(length_of(value))} round.",
    ),
    MORE_ALONG,
)
