"""Where the sleeve turns out into its flare, the curve must not be too tight."""

from drafting import sources
from drafting.contract.judging import Words, fixed
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "sleeve_turn"
ORDER = 43


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns below 4 cm radius; stops below the side allowance and 1 cm. Only for sleeves with an under line."""
    if draft.facts["cap"]:
        return None
    value = draft.facts["turn_radius"]
    least = draft.facts["side_allowance"] + sources.SLEEVE_TURN_SPARE
    shown = min(value, 9999.0)
    if value < least - 0.05:
        return Check(ID, "stop", f"The sleeve turns too sharply into its flare ({words(value)} radius).", shown, least)
    if value < sources.SLEEVE_TURN_WARN:
        says = f"The sleeve turns sharply into its flare ({words(value)} radius): clip it well."
        return Check(ID, "warn", says, shown, sources.SLEEVE_TURN_WARN)
    return Check(ID, "pass", "The under edge of the sleeve runs in easy curves.", shown, sources.SLEEVE_TURN_WARN)


WAYS = (
    fixed("style.flare", "bell", "Choose the bell flare."),
    fixed("style.flare", "slight", "Choose the slight flare."),
    fixed("style.flare", "none", "Choose a sleeve without flare."),
    fixed("style.narrowest_at", 0.5, "Put the narrowest place at the middle of the sleeve."),
)
