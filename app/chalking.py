"""The frozen draft as the screens read it: pieces, marks and the items of the chalking, one after the other.

Everything here comes from the saved text of draft.json, never from a new draft, so an update of the app cannot move a
mark while somebody is chalking.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Literal

from app.lit import NOTHING, Lit
from app.packed import unpacked
from app.state import FrozenDraft
from drafting.drawing import Drawing, Stroke
from drafting.geometry.point import Point
from drafting.other_tape import tape_of
from drafting.units import LengthProblem, Unit, read_length

_GLYPHS = {"1/8": "⅛", "1/4": "¼", "3/8": "⅜", "1/2": "½", "5/8": "⅝", "3/4": "¾", "7/8": "⅞"}


def pretty(reading: str) -> str:
    """A tape reading with its fraction as one sign: "8 1/8" becomes "8⅛"."""
    whole, _, part = reading.rpartition(" ")
    return f"{whole}{_GLYPHS[part]}" if part in _GLYPHS else reading


@dataclass(frozen=True, slots=True)
class Item:
    """One thing to do: chalk a mark, measure a proof length, or read what a step says.

    `number` is the mark's number as printed on the sheet; `pairs` are the readings with what they are ("across",
    "down", "straight"); `ends` are the marks it concerns, `lit` is what the drawing lights.
    """

    key: str
    kind: Literal["mark", "proof", "words"]
    piece: str
    title: str
    says: str = ""
    number: int = 0
    pairs: tuple[tuple[str, str], ...] = ()
    ends: tuple[str, ...] = ()
    lit: Lit = NOTHING


@dataclass(frozen=True, slots=True)
class FrozenPiece:
    """A piece of a frozen draft: its cut line and marks in mm by id, and the drawing of its lines.

    `numbers` are those of the marks on the sheet. `zeros` says for marks that are not read from the first 0 how far
    down the fold theirs lies, mm; `noughts` how far down every 0 lies, the first at 0.
    """

    label: str
    outline: tuple[tuple[float, float], ...]
    marks: Mapping[str, tuple[float, float]]
    drawing: Drawing
    zeros: Mapping[str, float]
    numbers: Mapping[str, int]
    noughts: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Chalking:
    """A frozen draft read: `items` in their order, the unit of the readings, pieces by name."""

    items: tuple[Item, ...]
    unit: str
    pieces: Mapping[str, FrozenPiece]

    def index(self, key: str) -> int:
        """Where an item stands; 0 for one that is not there."""
        return next((k for k, item in enumerate(self.items) if item.key == key), 0)


@lru_cache(maxsize=4)
def frozen_step(order: str) -> str | None:
    """The smallest step of the tape that a draft was frozen for; None where the order does not say it."""
    try:
        return str(json.loads(order)["tape"]["step"])
    except (ValueError, KeyError, TypeError):
        return None


def read_on_tape(frozen: FrozenDraft, step: str) -> Chalking | None:
    """The frozen draft as the tape with this smallest step reads it.

    It is read as it was frozen where `step` is empty, its own, or one that was not kept.
    """
    other = frozen.others.get(step)
    text = unpacked(other.draft) if other is not None and other.draft else None
    read = None if text is None else read_chalking(text, frozen.order, tape_of(step).unit)
    return read or read_chalking(frozen.draft, frozen.order)


@lru_cache(maxsize=4)
def read_chalking(draft: str, order: str, read_in: Unit | None = None) -> Chalking | None:
    """Read the two frozen texts; None where they are not a draft with chalk marks.

    `read_in` is the unit of its readings, where it is not that of the order's tape.
    """
    try:
        found, ordered = json.loads(draft), json.loads(order)
        pieces = {piece["name"]: piece for piece in found["pieces"]}
        unit = read_in or ordered["tape"]["unit"]
        items = _items(found["chalk"], pieces, unit)
        if not items:
            return None
        return Chalking(items, unit, {name: _piece(piece, unit) for name, piece in pieces.items()})
    except (ValueError, KeyError, TypeError):
        return None


def _items(steps: list[dict[str, Any]], pieces: Mapping[str, dict[str, Any]], unit: Unit) -> tuple[Item, ...]:
    """Each step's words, then its marks or proof lengths, each mark once, where it is first named.

    A step whose marks are all new mostly says nothing but their readings, which the marks then say themselves. What it
    says besides is an item too: how a piece begins before its first mark, any other sentence after its marks, and after
    the proof lengths the look that shows everything mirrored.
    """
    items: list[Item] = []
    zeros = {name: _zeros(piece, unit) for name, piece in pieces.items()}
    seen: set[str] = set()
    begun: set[str] = set()
    kept = 0  # counts the items that an earlier app had too, since somebody's chalking is kept under their keys
    for step in steps:
        piece = pieces[step["piece"]]
        name, title, says = piece["name"], step["title"], step["says"]
        marks = {mark["id"]: mark for mark in piece["marks"]}
        new = sorted((key for key in step["marks"] if f"{name}.{key}" not in seen), key=lambda key: marks[key]["order"])
        proofs = piece["proofs"] if not new and set(step["marks"]) == _ends(piece) else []
        look = piece.get("look") if proofs else None  # drafts frozen before there was a look have none
        if look is not None:  # it comes after the lengths, with its mark lit
            says = says.replace(look["says"], "").strip()
        besides = ""
        if not items or not new or len(new) < len(step["marks"]):
            items.append(Item(f"step.{kept}", "words", name, title, says))
            kept += 1
        elif name not in begun:
            items.append(Item(f"begin.{name}", "words", name, title, says))
        else:
            besides = says.partition(". ")[2]  # behind the sentence of the readings
        if new:
            begun.add(name)
        items.extend(_mark(name, title, marks[key], zeros[name].get(key, 0.0)) for key in new)
        seen.update(f"{name}.{key}" for key in new)
        items.extend(_proof(name, title, proof, marks) for proof in proofs)
        if look is not None:
            lit = Lit((look["mark"],), ways=True, zero=zeros[name].get(look["mark"], 0.0))
            items.append(Item(f"look.{name}", "words", name, title, look["says"], ends=(look["mark"],), lit=lit))
        kept += len(new) + len(proofs)
        if besides:
            items.append(Item(f"besides.{name}.{new[-1]}", "words", name, title, besides))
    return tuple(items)


def _ends(piece: Mapping[str, Any]) -> set[str]:
    return {end for proof in piece["proofs"] for end in (proof["from"], proof["to"])} or {""}


def _mark(piece: str, title: str, mark: Mapping[str, Any], zero: float) -> Item:
    # Drafts frozen before tapes had an end have one 0 and no reading of their own from it.
    down = "down" if mark.get("zero", 1) == 1 else "down_second"
    pairs = (("across", pretty(mark["across"])), (down, pretty(mark.get("reads", mark["down"]))))
    key, lit = mark["id"], Lit((mark["id"],), ways=True, zero=zero)
    return Item(f"{piece}.{key}", "mark", piece, title, mark["label"], mark["order"], pairs, (key,), lit)


def _proof(piece: str, title: str, proof: Mapping[str, Any], marks: Mapping[str, Any]) -> Item:
    start, end = marks[proof["from"]], marks[proof["to"]]
    says = f"({start['order']}) {start['label']} → ({end['order']}) {end['label']}"
    pairs = (("straight", pretty(proof["reads"])),)
    ends = start["id"], end["id"]
    lit = Lit(ends, lines=(((float(start["x"]), float(start["y"])), (float(end["x"]), float(end["y"]))),))
    return Item(f"{piece}.{start['id']}-{end['id']}", "proof", piece, title, says, 0, pairs, ends, lit)


def _piece(piece: Mapping[str, Any], unit: Unit) -> FrozenPiece:
    outline = tuple((float(x), float(y)) for x, y in piece["cut_line"])
    marks = {mark["id"]: (float(mark["x"]), float(mark["y"])) for mark in piece["marks"]}
    numbers = {mark["id"]: int(mark["order"]) for mark in piece["marks"]}
    label = piece.get("label", piece["name"])
    noughts = (0.0, *(place for place in _further(piece, unit) if place is not None))
    return FrozenPiece(label, outline, marks, _drawing(piece), _zeros(piece, unit), numbers, noughts)


def _further(piece: Mapping[str, Any], unit: Unit) -> list[float | None]:
    """How far down every 0 after the first is chalked, mm."""
    places = [read_length(each, unit) for each in piece.get("zeros", ())]
    return [None if isinstance(place, LengthProblem) else place for place in places]


def _zeros(piece: Mapping[str, Any], unit: Unit) -> dict[str, float]:
    """For marks that are read from a further 0, how far down that lies, mm."""
    places = _further(piece, unit)
    return {
        mark["id"]: place
        for mark in piece["marks"]
        if 1 < mark.get("zero", 1) <= len(places) + 1 and (place := places[mark["zero"] - 2]) is not None
    }


def _drawing(piece: Mapping[str, Any]) -> Drawing:
    """The piece's outlines in mm, drawn plainly: marks are added by the view."""
    cut = tuple(Point(float(x), float(y)) for x, y in piece["cut_line"])
    stitch = tuple(Point(float(x), float(y)) for x, y in piece["stitch_line"])
    strokes = [
        Stroke(cut, "piece_fill", closed=True, filled=True),
        Stroke(stitch, "stitch", closed=not piece["on_fold"]),
        Stroke(cut, "cut", closed=not piece["on_fold"]),
    ]
    if piece["on_fold"]:
        centre = piece.get("laid_whole", False)  # drafts frozen before there were other ways lie on the fold
        strokes.append(Stroke((Point(0, cut[0].y), Point(0, cut[-1].y)), "centre" if centre else "fold"))
    for guide in piece.get("guides", ()):  # drafts frozen before a garment handed any over have none
        strokes.append(Stroke(tuple(Point(float(x), float(y)) for x, y in guide["line"]), "guide"))
    tall = max(p.y for p in cut) - min(p.y for p in cut)
    margin = max(40.0, 0.08 * tall)  # mm: room for the ring round a mark at the edge, however small it is drawn
    left, top = min(p.x for p in cut) - margin, min(p.y for p in cut) - margin
    width, height = max(p.x for p in cut) + margin - left, max(p.y for p in cut) + margin - top
    return Drawing(tuple(strokes), width, height, max(width / 95, height / 95), left, top, piece["name"])
