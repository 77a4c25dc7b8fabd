"""Caution: cloth that is seen through when it is stretched."""

from drafting import sources
from drafting.contract.judging import Way, Words
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "opaque"
ORDER = 84
WAYS: tuple[Way, ...] = ()
#: Told where the cloth lies stretched by this share at the hip when its wearer sits down. Our choice.
STRETCHED_FROM = 0.10


def judge(draft: SetOut, words: Words) -> Check | None:
    """Shown where sitting stretches the cloth at the hip by a tenth or more (common practice, no source)."""
    body = draft.body.hip_girth
    stretched = (1 + sources.SITTING_HIP) * body / draft.facts["hip_finished"] - 1
    if stretched < STRETCHED_FROM - 1e-9:
        return None
    says = (
        f"Sitting down stretches the cloth by {100 * stretched:.0f} % at the seat. Pull it as far over your hand, in "
        f"good light: what is seen of the hand is seen of the wearer."
    )
    return Check(ID, "caution", says, unit="")
