"""The cap of the sleeve must be neither so flat that it hangs in folds nor so high that it pulls."""

from drafting.contract.judging import Words, fixed
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "cap_height"
ORDER = 24
#: A cap may miss its limits by this share of the armholes: half a millimetre. Our choice.
NEARLY = 0.001


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns where an armhole as deep as the body allows, or a sleeve as wide as it needs, leaves it out of limits."""
    facts = draft.facts
    value, least, most = (100 * facts[name] for name in ("cap_share", "cap_least", "cap_most"))
    if value < least - 100 * NEARLY:
        says = f"The cap of the sleeve is only {value:.0f} % of the armholes high, so folds hang under the arm."
        return Check(ID, "warn", says, value, least, "%")
    if value > most + 100 * NEARLY:
        says = f"The cap of the sleeve is {value:.0f} % of the armholes high, so it pulls when the arm is raised."
        return Check(ID, "warn", says, value, most, "%")
    return Check(ID, "pass", f"The cap of the sleeve is {value:.0f} % of the armholes high.", value, most, "%")


WAYS = (
    fixed("style.fit", "regular", "Choose the regular fit."),
    fixed("style.fit", "loose", "Choose the loose fit."),
    fixed("style.fit", "close", "Choose the close fit."),
    fixed("style.ease_bust", "auto", "Let the ease at the bust be worked out."),
)
