"""What the page shows when it is opened again, before the engine is there: the mark being chalked, or what is in work.

The page keeps it from one start to the next (web/glimpse.js). It names the records it was made of with their revisions,
and is shown only while these are the ones that are kept, so no number on it is ever an old one.
"""

import json
from collections.abc import Mapping
from typing import Any

from app.names import garment_name
from app.saved import FROZEN, GARMENT, PERSON
from app.spoken import named
from app.state import GarmentRecord, State
from app.text import words
from app.theme import Look
from app.update_garment import END, chalking_of, item_at

MOST = 5
"""So many garments in work are named; our choice, they fit on the smallest phone."""


def glimpse_of(state: State, revisions: Mapping[str, int], cloth: Look, paper: Look) -> str:
    """The glimpse of where a person is, as a text; "" where there is nothing that a start could show.

    `revisions` are those of the records that are saved. A glimpse is of saved records alone.
    """
    garment = state.garment
    if not state.loaded or state.locked or state.trouble is not None:
        return ""
    if state.place.screen == "chalk" and state.place.step == 0 and garment is not None:
        return _text(_mark(state, garment), (GARMENT + garment.id, FROZEN + garment.id), state, revisions, cloth)
    if state.place.screen == "home":
        begun = [each for each in state.book.garments if each.chalking][:MOST]
        lines = [garment_name(state.book, each) for each in begun]
        shown = {"title": words("glimpse.begun"), "lines": lines} if begun else None
        people = tuple(PERSON + each.person for each in begun if each.person)
        return _text(shown, (*(GARMENT + each.id for each in begun), *people), state, revisions, paper)
    return ""


def _mark(state: State, garment: GarmentRecord) -> dict[str, Any] | None:
    chalking = chalking_of(state, garment)
    if chalking is None or (key := item_at(garment, chalking)) == END:
        return None
    at = chalking.index(key)
    item = chalking.items[at]
    if not item.pairs:
        return None
    piece = chalking.pieces[item.piece].label.capitalize()
    title = words("chalk.where", piece=piece, at=at + 1, all=len(chalking.items))
    readings = [[words(f"chalk.{label}"), value] for label, value in item.pairs]
    return {"title": title, "lines": [named(item)], "readings": readings, "unit": chalking.unit}


def _text(
    shown: dict[str, Any] | None, keys: tuple[str, ...], state: State, revisions: Mapping[str, int], look: Look
) -> str:
    of = {key: revisions.get(key, 0) for key in keys}
    if shown is None or not all(of.values()):
        return ""
    colours = {"ground": look.ground, "ink": look.ink, "soft": look.soft, "accent": look.accent}
    return json.dumps({**shown, "route": state.place.route, "of": of, **colours})
