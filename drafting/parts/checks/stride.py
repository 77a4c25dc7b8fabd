"""The hem must let a person walk, or be slit."""

from drafting.contract.judging import Value, Way, Words, fixed, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "stride"
ORDER = 32


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns when the hem is narrower than a step needs and the side slits are shorter than that asks for."""
    facts = draft.facts
    value, limit, slit = facts["hem_girth"], facts["walking_girth"], facts["slit"]
    if facts["slit_needed"] <= 0:
        return Check(ID, "pass", f"The hem is {words(value)} round: wide enough to walk in.", value, limit)
    if slit >= facts["slit_needed"] - 0.5:
        says = f"The hem is {words(value)} round; a step needs {words(limit)}, so each side is slit {words(slit)} high."
        return Check(ID, "pass", says, value, limit)
    says = (
        f"The hem is {words(limit - value)} too narrow for a step and can trip the wearer. "
        f"It needs slits {words(facts['slit_needed'])} high."
    )
    return Check(ID, "warn", says, value, limit)


def _hems(draft: SetOut) -> list[Value]:
    return [millimetres(draft.facts["walking_girth"] + 2)]


WAYS = (
    fixed("style.slit", "auto", "Slit both sides as high as a step needs."),
    fixed("style.body", "flared", "Flare the skirt."),
    Way("style.hem_girth", _hems, lambda value, words: f"Make the hem {words(length_of(value))} round."),
)
