"""A closed waist, as it will be chalked, must pass bust and shoulders when it is put on over the head."""

from drafting.cloth import passing_factor
from drafting.contract.judging import Words, fixed, more_stretch
from drafting.contract.set_out import SetOut
from drafting.person.passing import over_bust
from drafting.problems import Check

ID = "waist_passes"
ORDER = 30


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when it does not; a waist left to us is let out, so only one that was asked for can stop."""
    value = draft.facts["waist_chalked"] * passing_factor(draft.cloth.across)
    limit = over_bust(draft.body)
    if value >= limit - 0.05:
        says = f"The waist opens to {words(value)}; bust and shoulders need {words(limit)}."
        return Check(ID, "pass", says, value, limit)
    says = f"The waist is {words(limit - value)} too narrow to go on over bust and shoulders."
    return Check(ID, "stop", says, value, limit)


WAYS = (
    fixed("style.ease_waist", "auto", "Let the ease at the waist be worked out."),
    more_stretch(),
)
