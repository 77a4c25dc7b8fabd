"""The head must pass the neck edge with the slit open, which adds twice its length."""

from drafting.contract.judging import Value, Way, Words, fixed, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.parts.judged import NEARLY
from drafting.problems import Check

ID = "slit_passes"
ORDER = 10


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when the head, with what it needs beside its girth in cloth that does not stretch, does not pass."""
    value, limit = draft.facts["slit_ring"], draft.facts["head_needed"]
    if value >= limit - NEARLY:
        says = f"With the slit open the neck is {words(value)} round; the head needs {words(limit)}."
        return Check(ID, "pass", says, value, limit)
    return Check(
        ID, "stop", f"With the slit open the neck is {words(limit - value)} too narrow for the head.", value, limit
    )


def _slits(draft: SetOut) -> list[Value]:
    """A slit that just passes the head, and one that passes it wherever the tape puts its stop."""
    wanted = draft.facts["slit_length"] + (draft.facts["head_needed"] - draft.facts["slit_ring"]) / 2
    return [millimetres(wanted + spare) for spare in (1.0, draft.chalked.tape.size)]


WAYS = (
    fixed("style.neck_slit", "auto", "Let the slit be as long as the head needs."),
    Way("style.neck_slit", _slits, lambda value, words: f"Make the slit {words(length_of(value))} long."),
)
