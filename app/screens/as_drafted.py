"""The numbers that stand where nothing was chosen: as the draft has them, else as the core begins with them."""

from collections.abc import Callable

from app.typed import ALLOWANCE
from drafting.order import Result
from drafting.sources import ALLOWANCES, NAPE_ABOVE_SIDE_NECK


def as_drafted(made: Result | None, key: str) -> float | None:
    """The length in mm that the draft has for a key of the style; None where it is not known."""
    if key.startswith(ALLOWANCE):
        edge = key.removeprefix(ALLOWANCE)
        edges = () if made is None else (each for piece in made.draft.pieces for each in piece.edges)
        return next((each.allowance for each in edges if each.name == edge), ALLOWANCES[edge])
    return None if made is None or not made.draft.pieces else _FOUND[key](made)


def _girth(at: str) -> Callable[[Result], float | None]:
    return lambda made: next((each.girth for each in made.draft.girths if each.at == at), None)


def _ease(at: str) -> Callable[[Result], float | None]:
    return lambda made: next((each.ease for each in made.draft.girths if each.at == at), None)


def _above_waist(made: Result) -> float | None:
    """How far a deep underarm lies above the waist, finished."""
    if not made.ready.choices.deep:
        return None
    return made.ready.body.back_neck_point_to_waist + NAPE_ABOVE_SIDE_NECK - made.draft.points["underarm"].y


_FOUND: dict[str, Callable[[Result], float | None]] = {
    "neck_half_width": lambda made: made.draft.facts["half_width"],
    "shoulder_drop": lambda made: made.draft.points["shoulder_point"].y,
    "narrowest_girth": _girth("narrowest"),
    "underarm_above_waist": _above_waist,
    "hem_girth": _girth("hem"),
    "ease_bust": _ease("bust"),
    "ease_waist": _ease("waist"),
    "ease_hip": _ease("hip"),
}
KEYS = (*_FOUND, *(f"{ALLOWANCE}{edge}" for edge in ALLOWANCES))
"""Every key whose number can be known."""
