"""Caution: long and wide hems."""

from drafting.contract.judging import Way, Words
from drafting.contract.set_out import SetOut
from drafting.parts.checks.caution_long_hem import NEAR_FLOOR_SHARE
from drafting.problems import Check

ID = "skirt_hem"
ORDER = 83
WAYS: tuple[Way, ...] = ()
#: A hem that is so many times the stature round catches in what turns and burns. Our choice.
WIDE_SHARE = 1.4


def judge(draft: SetOut, words: Words) -> Check | None:
    """Shown for hems near the floor and for wide ones (common practice, no source)."""
    near = draft.facts["hem_floor"] < NEAR_FLOOR_SHARE * draft.body.stature
    wide = draft.facts["hem_sweep"] > WIDE_SHARE * draft.body.stature
    if not near and not wide:
        return None
    trips = "A long hem can trip the wearer: take care on stairs, bicycles and escalators."
    flares = "Keep a wide hem from candles, open fires, cookers and turning machines."
    says = f"{trips} {flares}" if near and wide else trips if near else flares
    return Check(ID, "caution", says, unit="")
