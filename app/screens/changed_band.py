"""What was changed after chalking began: a standing band on every screen where it matters."""

from collections.abc import Callable

import flet as ft

from app import actions as act
from app import parts
from app.changed import Changed, changed_of, moved_words
from app.screens.scene import Scene
from app.state import GarmentRecord
from app.text import words
from app.theme import CORNER, EDGE, GAP, SMALL, TOUCH, Look

BAND = "changed-band"
"""The place of the band on its page."""


def changed_since(scene: Scene, garment: GarmentRecord) -> Changed | None:
    """What was changed since the garment of this scene began to be chalked."""
    state = scene.state
    return changed_of(garment, state.book.wearer(garment), state.frozen.get(garment.id), state.drafted)


def changed_card(scene: Scene, look: Look, garment: GarmentRecord, *, opened: bool = False) -> list[ft.Control]:
    """The band with what was chalked, what it is now, which marks move, and the ways on; nothing where all stands."""
    changed = changed_since(scene, garment)
    if changed is None:
        return []
    person = scene.state.book.person(garment.person)
    unit = person.unit if person is not None else scene.state.book.settings.unit

    back = scene.state.book.person(garment.chalk_for or garment.person) is not None

    def build() -> ft.Control:
        keep = parts.quiet_button(
            look, words("changed.keep"), scene.doing(act.KeepChalked(garment.id, changed.print)),
            identifier="changed-keep", wide=True,
        )  # fmt: skip
        put_back = parts.quiet_button(
            look, words("changed.put_back"), scene.doing(act.PutBack(garment.id)), identifier="changed-put-back",
            icon="undo", wide=True,
        )  # fmt: skip
        again = parts.quiet_button(
            look, words("chalk.again"), scene.doing(act.DraftAgain(garment.id)), identifier="changed-again",
            icon="turn", wide=True,
        )  # fmt: skip
        told = [parts.say(look, each) for each in changed.says]
        ways = [keep, *([put_back] if back else []), again]
        lines: list[ft.Control] = [
            parts.say(look, words("changed.title"), strong=True),
            parts.say(look, moved_words(changed, unit)),
            parts.section_fold(
                look, identifier="changed-more", title=words("changed.more"), opened=opened,
                children=[ft.Container(parts.stack([*told, *ways], GAP), padding=ft.Padding.only(bottom=EDGE))],
            ),
        ]  # fmt: skip
        box = ft.Container(
            parts.stack(lines, GAP), padding=ft.Padding.only(left=EDGE, right=EDGE, top=EDGE, bottom=0),
            bgcolor=look.well, border_radius=CORNER, border=ft.Border.all(2, look.caution),
        )  # fmt: skip
        band = ft.Semantics(identifier="changed", live_region=True, container=True, content=box)
        return ft.Container(band, key=ft.ScrollKey(BAND))  # type: ignore[call-arg] # mypy does not see its base

    return [scene.region("changed", (look, changed, unit, garment.id, back), build)]


def changed_near(scene: Scene, look: Look, garment: GarmentRecord) -> list[ft.Control]:
    """For the foot of a page whose band may be out of sight: one line that says so; a tap moves the page to the band."""
    changed = changed_since(scene, garment)
    if changed is None:
        return []
    hand = scene.hand

    def build() -> ft.Control:
        return _line(look, "changed-near", lambda: hand.move_to(BAND) if hand is not None else None, TOUCH)

    return [scene.region("changed-near", (look, garment.id), build)]


def changed_line(scene: Scene, garment: GarmentRecord) -> ft.Control | None:
    """One line at the table that says so; a tap leads to the whole of it."""
    if changed_since(scene, garment) is None:
        return None
    return _line(scene.cloth, "changed-line", scene.go("chalk", 1))


def _line(look: Look, identifier: str, on_tap: Callable[[], None], height: float | None = None) -> ft.Control:
    face = ft.Row(
        [parts.result_sign("caution", look.caution, look.ground, 20),
         ft.Container(parts.say(look, words("changed.title"), size=SMALL, strong=True, one_line=True), expand=True)],
        spacing=GAP,
    )  # fmt: skip
    return parts.touchable(
        look, face, on_tap, identifier=identifier, height=height, padding=ft.Padding.symmetric(horizontal=EDGE)
    )  # fmt: skip
