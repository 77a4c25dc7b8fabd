"""How far raised arms lift the hem: said, since a sleeve cut in one in cloth that does not stretch always does."""

from drafting import sources
from drafting.contract.judging import Way, Words
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "arm_lift"
ORDER = 40
#: Nothing of the style changes it enough, so what helps is said in words.
WAYS: tuple[Way, ...] = ()


def judge(draft: SetOut, words: Words) -> Check | None:
    """Says the lift half-way up and overhead; passes where even overhead it is no more than goes unnoticed."""
    facts, (quiet, _) = draft.facts, sources.ARM_LIFT
    value = facts["lift_half_way"]
    if facts["lift_overhead"] <= quiet:
        return Check(ID, "pass", "The arms can be raised without lifting the hem.", value, quiet)
    level = facts["lift_level"]
    to_level = (
        "To the level of the shoulder the arms are free."
        if level <= quiet
        else (f"Raised level, the arms lift the hem by about {words(level)}.")
    )
    side = round(sources.GUSSET * sources.scale(draft.body.stature), -1)
    says = (
        f"{to_level} Half-way from there to overhead they lift the hem by about {words(value)}, overhead by "
        f"{words(facts['lift_overhead'])}. A gusset of {words(side)} square in each underarm helps, and so do side "
        "slits from the middle of the thigh."
    )
    return Check(ID, "shown", says, value, quiet)
