"""The drawing of the garment in work, live: on the person, or one piece flat; what is in its way is said in words."""

from functools import lru_cache

import flet as ft

from app import actions as act
from app import parts
from app.canvas import worded
from app.lit import Lit
from app.parts.touchable import APART, RING
from app.screens.scene import Scene
from app.state import GarmentRecord
from app.text import words
from app.theme import COLUMN, EDGE, GAP, SMALL, TOUCH, Look
from app.typed import sentence
from drafting.drawing.piece import Drawing, piece_drawing
from drafting.contract.front_view import Worn, figure
from drafting.order import Result
from drafting.sentences import lower_first
from drafting.units import say_length

CAPTION = TOUCH
"""Height of what is said below the drawing, px, with letters of the usual size; larger ones take more lines too."""
BELOW = RING + APART
"""Room below the button under the drawing, px, in which the ring round it is seen whole."""
WORD_PX = 12.0, 13.0
"""Height of the drawing's words on a narrow and a wide screen, px: our choice, because more would cover the lines."""


def outline(scene: Scene, garment: GarmentRecord, *, height: float) -> ft.Control:
    """The garment as drafted; when nothing can be drafted, the first reason."""
    look, drafted = scene.cloth, scene.state.drafted
    if drafted is None or drafted.garment != garment.id:
        return _says(look, words("shape.waiting"), height)
    result = drafted.result or drafted.sketch
    if result is None or not result.draft.pieces:
        stops = [check.says for check in result.checks if check.result == "stop"] if result else []
        problem = next((each for each in drafted.problems if each.severity == "refuse"), None)
        return _says(look, stops[0] if stops else sentence(problem) if problem else words("shape.waiting"), height)
    sketched, view = drafted.result is None, scene.state.book.settings.view
    depends = (look, scene.paper, Same(result), sketched, scene.state.lit, round(height), scene.wide, round(scene.width), scene.text, view,
               scene.state.flat_piece, scene.calm)
    return scene.region("outline", depends, lambda: _shown(scene, result, height, sketched=sketched))


def _shown(scene: Scene, result: Result, height: float, *, sketched: bool) -> ft.Control:
    """The garment on the person, or flat; with the way to the other."""
    worn = result.draft.worn
    if worn is None or scene.state.book.settings.view == "flat":
        return _view(scene, result, height, sketched=sketched)
    return _on_person(scene, result, worn, height, sketched)


def _caption_height(scene: Scene) -> float:
    return CAPTION * max(1.5 * scene.text - 0.5, 1.0) + BELOW


def _at(scene: Scene, result: Result) -> int:
    """Which piece is shown flat; another draft may have fewer."""
    return min(scene.state.flat_piece, len(result.draft.pieces) - 1)


def _next_view(scene: Scene, result: Result) -> tuple[str, act.SetView]:
    """What one tap shows instead: the pieces one after the other, then the garment on the person again."""
    if result.draft.worn is not None and scene.state.book.settings.view != "flat":
        return words("shape.flat"), act.SetView("flat")
    following = _at(scene, result) + 1
    if following < len(result.draft.pieces):
        return words("shape.flat_next", piece=lower_first(result.draft.pieces[following].label)), act.SetView("flat", following)
    if result.draft.worn is not None:
        return words("shape.worn"), act.SetView("worn")
    return words("shape.flat_next", piece=lower_first(result.draft.pieces[0].label)), act.SetView("flat")


def _caption(scene: Scene, look: Look, read: ft.Control, result: Result) -> ft.Control:
    """Below the drawing what there is to say of it, and the way to what else can be shown."""
    said = ft.Semantics(identifier="lit-mark", live_region=True, content=read)
    parted: list[ft.Control] = [ft.Container(said, expand=True)]
    if result.draft.worn is not None or len(result.draft.pieces) > 1:
        name, shown = _next_view(scene, result)
        parted.append(parts.quiet_button(look, name, scene.doing(shown), identifier="other-view"))
    row = ft.Row(parted, spacing=GAP, vertical_alignment=ft.CrossAxisAlignment.CENTER)
    return ft.Container(row, padding=ft.Padding.only(left=EDGE, right=EDGE, bottom=BELOW), height=_caption_height(scene), bgcolor=look.ground)


def _on_person(scene: Scene, result: Result, worn: Worn, height: float, sketched: bool) -> ft.Control:
    look, body = scene.paper, result.ready.body
    unit = result.order.person.unit
    figures = ". ".join(f"{each.label.capitalize()}: {say_length(each.value, unit)}" for each in result.draft.figures)
    says = words("shape.on_person", figures=figures)
    view = parts.worn_view(
        look, worn, figure(body, worn.shoulder, worn.arm), identifier="outline", words=says,
        width=_width(scene), height=height - _caption_height(scene),
    )  # fmt: skip
    read = parts.say(look, words("shape.sketch") if sketched else words("shape.worn_says"), size=SMALL, soft=True)
    return parts.stack([view, _caption(scene, look, read, result)], 0)


def _width(scene: Scene) -> float:
    return scene.beside[0] if scene.wide else min(scene.width, COLUMN)


def _view(scene: Scene, result: Result, height: float, *, sketched: bool) -> ft.Control:
    look = scene.cloth
    width, at = _width(scene), _at(scene, result)
    drawing = _drawing(Same(result), at, round(width), round(height - _caption_height(scene)), scene.wide and not scene.lying)
    planned = () if result.plan is None else result.plan.pieces
    placed = next((each.marks for each in planned if each.piece == result.draft.pieces[at].name), ())
    view = parts.drawing_view(
        look, drawing, identifier="outline", words=_words(result, at), height=height - _caption_height(scene), width=width,
        marks={mark.id: (mark.point.x, mark.point.y) for mark in placed}, lit=Lit((scene.state.lit,), ways=True),
        on_mark=lambda mark: scene.send(act.LightMark(mark or "")), fit_words=words("drawing.fit"), calm=scene.calm,
    )  # fmt: skip
    lit = next((mark for mark in placed if mark.id == scene.state.lit), None)
    unit = result.ready.tape.unit
    says = words("shape.sketch") if sketched else words("drawing.tap") if placed else ""
    if lit is not None:
        says = words("drawing.mark", label=lit.label, across=lit.across.pretty, down=lit.down.pretty, unit=unit)
    read = parts.say(look, says, size=SMALL, soft=lit is None)
    return parts.stack([view, _caption(scene, look, read, result)], 0)


def _says(look: Look, text: str, height: float) -> ft.Control:
    """In place of a drawing, why there is none."""
    held = ft.Container(
        parts.say(look, text, align=ft.TextAlign.CENTER), alignment=ft.Alignment.CENTER, padding=2 * EDGE,
        height=height,        bgcolor=look.ground,
    )  # fmt: skip
    return ft.Semantics(identifier="outline", content=held)


class Same:
    """A result as a key: the same result is the same drawing."""

    def __init__(self, result: Result) -> None:
        self.result = result

    def __hash__(self) -> int:
        return id(self.result)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Same) and other.result is self.result


@lru_cache(maxsize=4)
def _drawing(same: Same, at: int, width: int, height: int, wide: bool) -> Drawing:
    piece = same.result.draft.pieces[at]
    tape = same.result.ready.tape
    return worded(
        lambda scale: piece_drawing(piece, None, tape, scale=scale, show_signs=wide),
        piece.width, piece.long, width, height, WORD_PX[wide],
    )  # fmt: skip


def _words(result: Result, at: int) -> str:
    piece = result.draft.pieces[at]
    across, down = result.ready.tape.reading(piece.width), result.ready.tape.reading(piece.long)
    return words(
        "drawing.on_fold" if piece.on_fold else "drawing.whole",
        piece=piece.label, across=across.pretty, down=down.pretty, unit=result.ready.tape.unit,
    )  # fmt: skip
