"""A piece must come out as large as it was drafted when its marks are chalked in the steps of the tape."""

from drafting.checks import AsChalked
from drafting.contract.judging import Value, Way, Words
from drafting.contract.set_out import SetOut
from drafting.problems import Check
from drafting.sentences import lower_first

ID = "chalked_area"
ORDER = 70
#: What is promised for a draft, %: within this the marks joined straight hold the area of the line they stand for.
MOST = 1.0
_FINER = {"0.5": "0.1", "1/4": "1/8"}


def judge_chalked(found: AsChalked, words: Words) -> Check | None:
    """Warns when the area inside the chalked marks of a piece misses that of its line by more than 1 %."""
    worst = max(found.areas, key=lambda area: abs(area.more))
    value = abs(worst.more) * 100
    if value <= MOST:
        return Check(ID, "pass", f"As chalked, every piece has its area within {MOST:g} %.", value, MOST, "%")
    size = "larger" if worst.more > 0 else "smaller"
    says = (
        f"In these steps of the tape the {lower_first(worst.label)} is chalked {value:.1f} % {size} than it is drafted."
    )
    return Check(ID, "warn", says, value, MOST, "%")


def _finer(draft: SetOut) -> list[Value]:
    step = draft.chalked.tape.step
    return [_FINER[step]] if step in _FINER else []


def _centimetres(draft: SetOut) -> list[Value]:
    return ["cm"] if draft.chalked.tape.unit == "in" else []


WAYS = (
    Way("tape.step", _finer, lambda value, words: "Read the tape in its finer steps."),
    Way(
        "tape.unit",
        _centimetres,
        lambda value, words: "Chalk with a metric tape, read in its smallest steps.",
        (("tape.step", "0.1"),),
    ),
)
