"""The cloth in hand must be long enough for all pieces, laid as well as they can be."""

from drafting.contract.judging import Way, Words, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.layout import ONLY_PLAIN, Layout, fits_across, lay, say_laid, shortest
from drafting.problems import Check
from drafting.stepwise import finished

ID = "cloth_long_enough"
ORDER = 61
#: A length that keeps within the cloth to this, mm, keeps within it.
WITHIN = 1e-3


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns when no way of laying keeps within the cloth's length. Without a length, or too narrow: not judged."""
    if not to_judge(draft):
        return None
    found = lay(draft.pieces, draft.cloth) or finished(shortest(draft.pieces, draft.cloth))
    return verdict(draft, words, found)


def to_judge(draft: SetOut) -> bool:
    """Whether there is a length to keep within, and pieces that go on the width of the cloth."""
    return bool(draft.pieces) and draft.cloth.length is not None and bool(fits_across(draft.pieces, draft.cloth))


def verdict(draft: SetOut, words: Words, found: Layout | None) -> Check | None:
    """What a layout says of the cloth's length: the one that is taken, or else the shortest of all."""
    limit = draft.cloth.length
    if found is None or limit is None:
        return None
    long = say_laid(found.length, words.unit)
    if found.length <= limit + WITHIN:
        return Check(
            ID, "pass", f"The cloth is long enough: the pieces take {long} of {words(limit)}.", found.length, limit
        )
    says = f"The cloth is {words(found.length - limit)} too short for all the pieces."
    return Check(ID, "warn", says, found.length, limit)


def _needed(draft: SetOut) -> float:
    """The least length of cloth, mm: known of a draft that was laid, else worked out."""
    if draft.cloth_needed is not None:
        return draft.cloth_needed
    found = finished(shortest(draft.pieces, draft.cloth))
    assert found is not None
    return found.length


WAYS = (
    Way(
        "cloth.one_way",
        lambda draft: (False,),
        lambda value, words: f"Let pieces lie head to tail. {ONLY_PLAIN}",
        unsaid=True,
        rank=0,
    ),
    Way(
        "cloth.length",
        lambda draft: (millimetres(_needed(draft) + 1),),
        lambda value, words: f"Take {words(length_of(value))} of cloth.",
        rank=2,
    ),
)
