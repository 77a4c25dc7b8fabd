"""What the chalk screen asks of the device while one stands at the table: a voice, and a screen that stays awake."""

from app.asks import Ask, Speak, StayAwake
from app.spoken import aloud
from app.state import State
from app.text import words
from app.update_garment import END, chalking_of, item_at


def table_asks(before: State, after: State) -> tuple[Ask, ...]:
    """What follows when one comes to the table, goes to another mark or only looks at one, or leaves."""
    found: list[Ask] = []
    if at_table(before) != at_table(after):
        found.append(StayAwake(at_table(after)))
    heard, hears = _heard(before), _heard(after)
    if hears and heard != hears:
        found.append(Speak(said(after)))
    elif heard and not hears:
        found.append(Speak(""))
    return tuple(found)


def at_table(state: State) -> bool:
    """Whether marks are being chalked on the screen, or their list is."""
    garment = state.garment
    chalk = state.loaded and state.place.screen == "chalk" and state.trouble is None
    return chalk and garment is not None and garment.id in state.frozen and garment.chalking


def _heard(state: State) -> tuple[str, str] | None:
    """What is to be read aloud, by garment and item; None for nothing."""
    garment = state.garment
    if not state.book.settings.aloud or garment is None or state.place.step or not at_table(state):
        return None
    return garment.id, state.lit or garment.chalk_at


def said(state: State) -> str:
    """The words for what the chalk screen shows; empty where nothing is chalked."""
    garment = state.garment
    chalking = chalking_of(state, garment) if garment else None
    if garment is None or chalking is None:
        return ""
    key = state.lit or item_at(garment, chalking)
    return words("chalk.end") if key == END else aloud(chalking.items[chalking.index(key)])
