"""What hangs from the waist: how far down its hem may lie. Finished millimetres, from the waist seam down."""

from typing import Final

from drafting import sources
from drafting.contract.judging import Value, Words, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.parts.reading import Length, StyleReader
from drafting.person.measures import Body

LENGTH_WORDS: Final = ("knee", "mid_thigh", "mid_calf", "ankle")
#: Shorter skirts that are tried, as shares of the length. Our choice.
SHORTER: Final = (0.95, 0.9, 0.8, 0.7, 0.6)


def waist_to(body: Body, landmark: str) -> float:
    """Distance on the body from the waist down to a hem landmark, mm."""
    knee = body.waist_height - body.knee_height
    ankle = body.waist_height - sources.ANKLE_SHARE * body.stature
    return {
        "mid_thigh": knee - sources.MID_THIGH_SHARE * (knee - body.waist_to_hip),
        "knee": knee,
        "mid_calf": (knee + ankle) / 2,
        "ankle": ankle,
    }[landmark]


def shortest(body: Body) -> float:
    """The least length from the waist seam to the hem, mm."""
    return body.waist_to_hip + sources.SKIRT_BELOW_HIP * body.stature


def read_length(read: StyleReader, given: Length, body: Body) -> float:
    """The length from the waist seam to the hem, by a landmark or as it is given, mm."""
    least = shortest(body)
    if isinstance(given, str) and given in LENGTH_WORDS:
        found = waist_to(body, given)
        if found < least - 1e-6:
            wrong = "by these measures the hem would lie at the hip or above it"
            read.refuse("length", wrong, "measure waist height and knee height again, or give the length itself")
        return max(found, least)
    return read.length("length", given, least, waist_to(body, "ankle") + 0.03 * body.stature)


def shorter(draft: SetOut) -> list[Value]:
    """Shorter lengths, down to the least there may be."""
    least = shortest(draft.body)
    return [millimetres(length) for share in SHORTER if (length := draft.choices.length * share) >= least]


def say_shorter(value: Value, words: Words) -> str:
    """How a shorter length is offered."""
    return f"Make it {words(length_of(value))} long from the waist seam to the hem."
