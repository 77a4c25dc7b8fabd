"""The inner edge of a flounce must turn so gently that it can be cut and lies flat."""

from typing import Final

from drafting import sources
from drafting.contract.judging import Value, Way, Words, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.parts.flounce import RADIUS_LEAST, Flouncing, Role
from drafting.parts.flounce_style import FULLNESS
from drafting.problems import Check

ID = "flounce_turns"
ORDER = 26
#: The allowance that is offered, mm. Our choice: the least that can be sewn.
ALLOWANCE: Final = 6.0


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops where the finished radius or the one that is cut is too small; says nothing without a flounce."""
    if "flounce_radius" not in draft.facts:
        return None
    radius, cut = draft.facts["flounce_radius"], draft.facts["flounce_cut_radius"]
    least = sources.CUT_RADIUS["shears"]
    if radius < RADIUS_LEAST - 1e-6:
        says = (
            f"The upper edge of the flounce would turn with a radius of {words(radius)}; under "
            f"{words.needed(RADIUS_LEAST, radius)} it does not lie flat."
        )
        return Check(ID, "stop", says, radius, RADIUS_LEAST)
    if cut < least - 1e-6:
        says = (
            f"The upper edge of the flounce would be cut with a radius of {words(max(cut, 0.0))}; neither shears nor a "
            f"rotary blade follow less than {words(least)}."
        )
        return Check(ID, "stop", says, cut, least)
    return Check(ID, "pass", f"The upper edge of the flounce turns with a radius of {words(radius)}.", radius,
                 RADIUS_LEAST)  # fmt: skip


_SHARES: Final = {
    "quarter": "a quarter of a circle", "half": "half a circle", "three_quarter": "three quarters of a circle",
    "full": "a whole circle", "one_and_half": "one circle and a half",
}  # fmt: skip


def _ways(role: Role, where: str, edge: str) -> tuple[Way, ...]:
    """Ways out of a flounce of this role: a larger ring, less fullness, and a smaller allowance of its edge."""

    def asked(draft: SetOut) -> Flouncing | None:
        found: Flouncing | None = getattr(draft.choices, f"{role}_flounce", None)
        return found

    def larger(draft: SetOut) -> list[Value]:
        found = asked(draft)
        return [] if found is None or found.gathered else ["gathered"]

    def less(draft: SetOut) -> list[Value]:
        """Fullnesses below that of the draft, the fullest first."""
        found = asked(draft)
        if found is None:
            return []
        return [word for word in reversed(FULLNESS) if FULLNESS[word] < found.fullness - 1e-9]

    def allowance(draft: SetOut) -> list[Value]:
        return [] if asked(draft) is None else [millimetres(ALLOWANCE)]

    return (
        Way(f"style.{role}_flounce_seam", larger,
            lambda value, words: f"Cut a larger ring for the flounce at {where}, and gather it to its edge."),
        Way(f"style.{role}_flounce_fullness", less,
            lambda value, words: f"Cut the flounce at {where} as {_SHARES[str(value)]}."),
        Way(f"style.allowances.{edge}", allowance,
            lambda value, words: f"Take an allowance of {words(length_of(value))} at {where}."),
    )  # fmt: skip


AT_HEM: Final = _ways("hem", "the hem", "hem")
WAYS = (*_ways("sleeve", "the sleeve end", "sleeve_end"), *AT_HEM)
