"""The frozen draft as the screens read it: pieces, marks and the items of the chalking, one after the other.

Everything here comes from the saved text of draft.json, never from a new draft, so an update of the app cannot move a
mark while somebody is chalking.
"""

import json
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Literal

from app.lit import NOTHING, Lit
from app.state import FrozenDraft
from app.turn import AS_DRAFTED, Turn, laid_turn
from drafting.drawing.piece import Drawing, Stroke
from drafting.geometry.point import Point
from drafting.other_tape import tape_of
from drafting.record.packed import unpacked
from drafting.units import LengthProblem, Unit, read_length

#: What is done before the marks of its step; the other things follow them.
_BEFORE = frozenset({"zero", "place", "fold", "level", "swing", "allowance"})
#: Where the two ways to a place are lit with it.
_MEASURED = frozenset({"notch", "slit", "trim"})
_GLYPHS = {"1/8": "⅛", "1/4": "¼", "3/8": "⅜", "1/2": "½", "5/8": "⅝", "3/4": "¾", "7/8": "⅞"}


def pretty(reading: str) -> str:
    """A tape reading with its fraction as one sign: "8 1/8" becomes "8⅛"."""
    whole, _, part = reading.rpartition(" ")
    return f"{whole}{_GLYPHS[part]}" if part in _GLYPHS else reading


@dataclass(frozen=True, slots=True)
class Item:
    """One thing to do: chalk a mark, measure a proof length, do one other thing of a step, or read what it says.

    `number` is the mark's number as printed on the sheet; `pairs` are the readings with what they are ("across",
    "down", "straight", or what a reading counts from in draft.json); `ends` are the marks it concerns, `lit` is what
    the drawing lights: that of the piece, of the piece opened out, or of the cloth.
    """

    key: str
    kind: Literal["mark", "proof", "apart", "words"]
    piece: str
    title: str
    says: str = ""
    number: int = 0
    pairs: tuple[tuple[str, str], ...] = ()
    ends: tuple[str, ...] = ()
    lit: Lit = NOTHING
    picture: Literal["piece", "opened", "cloth"] = "piece"


@dataclass(frozen=True, slots=True)
class FrozenPiece:
    """A piece of a frozen draft: its cut line and marks in mm by id, and the drawing of its lines.

    `numbers` are those of the marks on the sheet. `zeros` says for marks that are not read from the first 0 how far
    down the fold theirs lies, mm; `noughts` how far down every 0 lies, the first at 0. `opened` is the drawing of
    both halves, `turn` says how the piece lies on the cloth, `on_fold` whether its straight line is a fold.
    """

    label: str
    outline: tuple[tuple[float, float], ...]
    marks: Mapping[str, tuple[float, float]]
    drawing: Drawing
    zeros: Mapping[str, float]
    numbers: Mapping[str, int]
    noughts: tuple[float, ...]
    opened: Drawing
    turn: Turn = AS_DRAFTED
    on_fold: bool = True


@dataclass(frozen=True, slots=True)
class FrozenCloth:
    """The cloth as it is laid: its drawing, and every 0 on it by the name of its piece, mm."""

    drawing: Drawing
    zeros: Mapping[str, tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Chalking:
    """A frozen draft read: `items` in their order, the unit of the readings, pieces by name, the cloth as laid."""

    items: tuple[Item, ...]
    unit: str
    pieces: Mapping[str, FrozenPiece]
    cloth: FrozenCloth | None = None

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
        layout = found.get("layout")
        items = _items(found["chalk"], pieces, unit, layout)
        if not items:
            return None
        cloth = None if layout is None else _cloth(_whole(layout), pieces)
        return Chalking(items, unit, {name: _piece(piece, unit) for name, piece in pieces.items()}, cloth)
    except (ValueError, KeyError, TypeError):
        return None


def _items(
    steps: list[dict[str, Any]], pieces: Mapping[str, dict[str, Any]], unit: Unit, layout: Mapping[str, Any] | None
) -> tuple[Item, ...]:
    """Each step's words, then its marks or proof lengths, each mark once, where it is first named.

    A step whose marks are all new mostly says nothing but their readings, which the marks then say themselves. What it
    says besides is an item too: how a piece begins before its first mark, any other sentence after its marks, and after
    the proof lengths the look that shows everything mirrored. What a step tells apart are items too, and then its words
    are only what is left.
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
        rest = step.get("rest")  # drafts frozen before things were told apart have none
        apart = [_apart(name, pieces, one, unit, layout) for one in step.get("apart", ())]
        before = [one for one, told in zip(apart, step.get("apart", ()), strict=True) if told["kind"] in _BEFORE]
        if rest is not None:
            items.extend(before)
            if rest:
                items.append(
                    Item(f"step.{kept}" if name in begun or not new else f"begin.{name}", "words", name, title, rest)
                )
            kept += 1
        elif not items or not new or len(new) < len(step["marks"]):
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
        items.extend(one for one in apart if one not in before)
        kept += len(new) + len(proofs)
        if besides:
            items.append(Item(f"besides.{name}.{new[-1]}", "words", name, title, besides))
    return tuple(items)


def _apart(
    name: str, pieces: Mapping[str, Mapping[str, Any]], told: Mapping[str, Any], unit: Unit,
    layout: Mapping[str, Any] | None,
) -> Item:  # fmt: skip
    """One thing that a step of the piece `name` tells apart, lit where it lies; a place may be another piece's."""
    piece, kind = pieces[name], told["kind"]
    key = f"apart.{name}.{told['id']}"
    pairs = tuple((each["counts"], pretty(each["reads"])) for each in told["reads"])
    if told["place"] is not None:
        place = None if layout is None else layout["places"][told["place"]]
        lit = NOTHING
        if layout is not None and place is not None:
            lit = _on_the_cloth(layout, place, pieces[place["piece"]], told)
        return Item(key, "apart", name, told["title"], told["says"], 0, pairs, (), lit, "cloth")
    spots = () if told["spot"] is None else ((float(told["spot"][0]), float(told["spot"][1])),)
    line = tuple((float(x), float(y)) for x, y in told["line"])
    counts = dict(pairs)
    further = {"down_second": 1, "down_third": 2}
    zeros = (0.0, *(place or 0.0 for place in _further(piece, unit)))
    zero = next((zeros[at] for count, at in further.items() if count in counts and at < len(zeros)), 0.0)
    marks = tuple(told["marks"])
    lit = Lit(marks, spots, (line,) if line else (), ways=kind in _MEASURED and bool(spots), zero=zero)
    picture: Literal["piece", "opened"] = "opened" if kind == "trim" else "piece"
    return Item(key, "apart", name, told["title"], told["says"], 0, pairs, marks, lit, picture)


def _on_the_cloth(
    layout: Mapping[str, Any], place: Mapping[str, Any], piece: Mapping[str, Any], told: Mapping[str, Any]
) -> Lit:
    """Where a piece begins, with the ways to it from its edge or fold and from the cut end; or a fold across."""
    wide = float(layout["laid_width"])
    if told["kind"] == "fold":
        return Lit(lines=(((0.0, float(place["y"])), (wide, float(place["y"]))),))
    x, y = _begins(piece, place)
    counts = {each["counts"] for each in told["reads"]}
    lines = [((x, 0.0), (x, y))] if "from_cut_end" in counts else []
    if counts - {"from_cut_end"}:
        lines.append(((wide if "from_right_fold" in counts else 0.0, y), (x, y)))
    return Lit(spots=((x, y),), lines=tuple(lines))


def _begins(piece: Mapping[str, Any], place: Mapping[str, Any]) -> tuple[float, float]:
    """Where a placed piece begins on the cloth: at its 0, or at its top where the 0 lies off the piece."""
    top = piece["cut_line"][0] if min(point[1] for point in piece["cut_line"]) > 0.0 else (0.0, 0.0)
    turn = laid_turn(int(place["turned"]), bool(place["mirrored"]))
    x, y = turn.at(float(top[0]), float(top[1]))
    return x + float(place["x"]), y + float(place["y"])


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
    lies = piece.get("lies")  # drafts frozen before pieces said how they lie are drawn as drafted
    turn = AS_DRAFTED if lies is None else laid_turn(int(lies["turned"]), bool(lies["mirrored"]))
    opened = _drawing(piece, opened=True)
    drawing = opened if piece.get("laid_whole", False) and lies is not None else _drawing(piece)
    return FrozenPiece(
        label, outline, marks, drawing, _zeros(piece, unit), numbers, noughts, opened, turn, bool(piece["on_fold"])
    )


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


def _drawing(piece: Mapping[str, Any], *, opened: bool = False) -> Drawing:
    """The piece's outlines in mm, drawn plainly: marks are added by the view. `opened` draws both its halves."""
    cut = tuple(Point(float(x), float(y)) for x, y in piece["cut_line"])
    stitch = tuple(Point(float(x), float(y)) for x, y in piece["stitch_line"])
    on_fold, both = piece["on_fold"], opened and piece["on_fold"]
    sides = (1.0, -1.0) if both else (1.0,)
    around = _around(cut) if both else cut
    strokes = [Stroke(around, "piece_fill", closed=True, filled=True)]
    for side in sides:
        strokes.append(Stroke(_mirrored(stitch, side), "stitch", closed=not on_fold))
        strokes.append(Stroke(_mirrored(cut, side), "cut", closed=not on_fold))
    if on_fold:
        centre = both or piece.get("laid_whole", False)  # drafts frozen before there were other ways lie on the fold
        strokes.append(Stroke((Point(0, cut[0].y), Point(0, cut[-1].y)), "centre" if centre else "fold"))
    for guide in piece.get("guides", ()):  # drafts frozen before a garment handed any over have none
        strokes.append(Stroke(tuple(Point(float(x), float(y)) for x, y in guide["line"]), "guide"))
    zero = Point(0.0, 0.0)  # on the outline or within, but where the tape is swung from off the piece
    return _boxed(strokes, [zero, *(point for side in sides for point in _mirrored(cut, side))], piece["name"])


def _around(cut: tuple[Point, ...]) -> tuple[Point, ...]:
    """Both halves of a piece on the fold as one outline: two would meet, and be filled, along the centre."""
    return (*cut, *reversed(_mirrored(cut, -1.0)))


def _mirrored(points: tuple[Point, ...], side: float) -> tuple[Point, ...]:
    return points if side > 0 else tuple(Point(-point.x, point.y) for point in points)


def _boxed(strokes: list[Stroke], points: Sequence[Point], name: str) -> Drawing:
    """A drawing with room round it for the ring round a mark at the edge, however small it is drawn."""
    low_x, low_y = min(p.x for p in points), min(p.y for p in points)
    wide, tall = max(p.x for p in points) - low_x, max(p.y for p in points) - low_y
    margin = max(40.0, 0.08 * tall)
    width, height = wide + 2 * margin, tall + 2 * margin
    scale = max(width / 95, height / 95)
    return Drawing(tuple(strokes), width, height, scale, low_x - margin, low_y - margin, name)


def _whole(layout: Mapping[str, Any]) -> Mapping[str, Any]:
    """The layout with what drafts of the first release left out: they knew no other way than folded in half."""
    if "laid_width" in layout or layout.get("fold") != "half":
        return layout
    laid = float(layout["cloth_width"]) / 2
    places = [{"opened": False, "layers": 2, **place} for place in layout["places"]]
    folds = [{"at": 0.0, "depth": laid, "across": False}]
    return {"laid_width": laid, "folds": folds, **layout, "places": places}


def _cloth(layout: Mapping[str, Any], pieces: Mapping[str, dict[str, Any]]) -> FrozenCloth:
    """The cloth as it is laid, with its folds and every piece in its place, and every 0 with the name of its piece."""
    wide, long = float(layout["laid_width"]), float(layout["length"])
    corners = (Point(0, 0), Point(wide, 0), Point(wide, long), Point(0, long))
    strokes = [Stroke(corners, "frame", closed=True)]
    many = Counter(place["piece"] for place in layout["places"])
    seen: Counter[str] = Counter()
    zeros: dict[str, tuple[float, float]] = {}
    for place in layout["places"]:
        piece, x, y = pieces[place["piece"]], float(place["x"]), float(place["y"])
        turn = laid_turn(int(place["turned"]), bool(place["mirrored"]))
        cut = tuple(Point(float(a), float(b)) for a, b in piece["cut_line"])
        both = place["opened"] and piece["on_fold"]
        around = _around(cut) if both else cut
        outline = tuple(Point(a + x, b + y) for a, b in (turn.at(point.x, point.y) for point in around))
        strokes.append(Stroke(outline, "piece_fill", closed=True, filled=True))
        strokes.append(Stroke(outline, "cut", closed=both or not piece["on_fold"]))
        seen[place["piece"]] += 1
        label = piece.get("label", piece["name"])
        zeros[f"{label} {seen[place['piece']]}" if many[place["piece"]] > 1 else label] = _begins(piece, place)
    for fold in layout["folds"]:
        at = float(fold["at"])
        ends = (Point(0, at), Point(wide, at)) if fold["across"] else (Point(at, 0), Point(at, long))
        strokes.append(Stroke(ends, "fold"))
    return FrozenCloth(_boxed(strokes, corners, "cloth"), zeros)
