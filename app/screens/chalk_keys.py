"""What a key does on the chalk screen, besides the button that has the focus."""

from app import actions as act
from app.actions import Action
from app.state import State
from app.update_garment import chalking_of, item_at

BACK = ("Arrow Left", "Backspace")
ON = "Arrow Right"
LEAVE = "Escape"


def chalk_key(state: State, key: str) -> Action | None:
    """The action of a key, by the client's name for it; None where it has none. A mark that is only looked at is left."""
    garment = state.garment
    if state.place.screen != "chalk" or state.place.step or garment is None or state.trouble is not None:
        return None
    chalking = chalking_of(state, garment)
    if chalking is None or key not in (*BACK, ON, LEAVE):
        return None
    if state.lit:
        return act.LightMark("")
    at = item_at(garment, chalking)
    if key in BACK:
        return act.ChalkBack(garment.id, at)
    return act.ChalkOn(garment.id, at) if key == ON else None
