"""The small picture of a garment that is not chalked yet: the outline it was last seen with, kept as text."""

from dataclasses import replace

from app.state import State
from drafting.contract.front_view import Worn
from drafting.geometry.polyline import simplified

NEAR = 8.0
"""How near the kept outline lies to the drafted one, mm: half a pixel in so small a picture."""

Outline = tuple[tuple[float, float], ...]


def picture_text(worn: Worn) -> str:
    """The outline in whole millimetres: "69,-90 69,-7"."""
    places = [(place.x, place.y) for place in worn.outline]
    return " ".join(f"{places[index][0]:.0f},{places[index][1]:.0f}" for index in simplified(places, NEAR))


def picture_of(text: str) -> Outline:
    """The outline of a text; empty where it is not one."""
    try:
        return tuple((float(x), float(y)) for x, _, y in (place.partition(",") for place in text.split()))
    except ValueError:
        return ()


def with_picture(state: State) -> State:
    """The state with the picture of the garment that is just left, as it was last drafted."""
    drafted, book = state.drafted, state.book
    made = None if drafted is None else drafted.result or drafted.sketch
    if drafted is None or made is None or made.draft.worn is None or book.garment(drafted.garment) is None:
        return state
    seen = picture_text(made.draft.worn)
    if book.pictures.get(drafted.garment) == seen:
        return state
    known = {each.id for each in book.garments} | ({book.gone.garment.id} if book.gone and book.gone.garment else set())
    pictures = {key: text for key, text in book.pictures.items() if key in known}
    return replace(state, book=replace(book, pictures=pictures | {drafted.garment: seen}))
