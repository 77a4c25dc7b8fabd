"""The hem of a leg, as it will be chalked, must pass over heel and instep by the stretch round it."""

from drafting.cloth import passing_factor
from drafting.contract.judging import Value, Way, Words, fixed, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.parts.judged import MORE_ACROSS, NEARLY
from drafting.person.passing import foot_needs
from drafting.problems import Check

ID = "foot_passes"
ORDER = 31


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when heel + 1 cm does not pass; a hem left to us is made wide enough, so one that was asked for stops."""
    value, limit = draft.facts["leg_end_chalked"] * passing_factor(draft.cloth.across), foot_needs(draft.body)
    if value >= limit - NEARLY:
        return Check(ID, "pass", f"The hem opens to {words(value)}; the foot needs {words(limit)}.", value, limit)
    return Check(ID, "stop", f"The hem is {words(limit - value)} too narrow for the foot.", value, limit)


def _girths(draft: SetOut) -> list[Value]:
    needed = foot_needs(draft.body) / passing_factor(draft.cloth.across)
    return [millimetres(needed + 2 * draft.chalked.tape.finest.size)]


WAYS = (
    fixed("style.hem_girth", "auto", "Let the hem be worked out."),
    Way("style.hem_girth", _girths, lambda value, words: f"Make each hem {words(length_of(value))} round."),
    MORE_ACROSS,
)
