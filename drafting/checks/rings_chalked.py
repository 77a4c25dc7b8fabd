"""A ring that something must pass lets it through when its marks are chalked in the steps of the tape.

A straight ring is set out so that its nearest reading is wide enough. A curved one, as a round neck, is chalked by
points that are each read on their own, so how long it comes out is known only with its marks.
"""

from drafting.checks import AsChalked
from drafting.checks.chalked_area import WAYS as FINER
from drafting.contract.judging import Words
from drafting.problems import Check

ID = "rings_chalked"
ORDER = 71
#: A ring opens as far as it must but for this, mm: two ways to measure it along its marks agree no nearer.
WITHIN = 1.0
WAYS = FINER


def judge_chalked(found: AsChalked, words: Words) -> Check | None:
    """Warns of the ring that comes out shortest of what passes it; says nothing where all let through what must pass.

    A ring that is too narrow as it is drafted is a matter of the check that stops it.
    """
    short = [ring for ring in found.rings if ring.drafted >= ring.needs - WITHIN]
    worst = min(short, key=lambda ring: ring.opens - ring.needs, default=None)
    if worst is None or worst.opens >= worst.needs - WITHIN:
        return None
    says = (
        f"In these steps of the tape the {worst.label} opens to {words(worst.opens)}, and the {worst.what} needs "
        f"{words(worst.needs)}."
    )
    return Check(ID, "warn", says, worst.opens, worst.needs)
