"""What the device asks for, followed on every screen: forced colours and less motion."""

from typing import Any

import flet as ft
import pytest
from flet.components.component import Component, Renderer
from test_drawn_words import made
from test_shown import parts_of

from app import actions as act
from app.parts.drawing_view import drawing_view
from app.screens import ALL
from app.screens.scene import Kept, Scene
from app.state import Place
from app.theme import CLOTH, PAPER, STARK, STARK_DARK
from app.update import update


@pytest.mark.parametrize("calm", [False, True])
@pytest.mark.parametrize(("screen", "name"), [("shape", "outline"), ("proof", "cloth-layout"), ("lay", "lay-cloth")])
def test_a_drawing_that_is_let_go_stops_where_less_motion_is_asked(screen: Any, name: str, calm: bool) -> None:
    state = update(made(), act.Go(Place(screen, "g1")))[0]
    with Renderer().with_context():
        whole = ALL[screen](Scene(state, lambda _: None, 390, 664, False, Kept(), calm=calm))
    view: Component = next(each for each in parts_of(whole) if each.kwargs.get("identifier") == name)
    assert view.kwargs["calm"] is calm
    body = Renderer(view).render(view.fn, *view.args, **view.kwargs)
    viewer = viewer_in(body)
    assert viewer.interaction_end_friction_coefficient == pytest.approx(1e-300 if calm else 0.0000135)


def viewer_in(control: Any) -> ft.InteractiveViewer:
    """The control in a drawing that is pinched."""
    found = [control]
    while found:
        one = found.pop()
        if isinstance(one, ft.InteractiveViewer):
            return one
        if isinstance(one, ft.Control):
            found += [each for key in ("content", "controls") for each in as_list(getattr(one, key, None))]
    raise AssertionError("no viewer")


def as_list(held: Any) -> list[Any]:
    return list(held) if isinstance(held, (list, tuple)) else [] if held is None else [held]


def test_both_surfaces_are_stark_where_colours_are_forced() -> None:
    state = made()
    for dark, look in ((False, STARK), (True, STARK_DARK)):
        scene = Scene(state, lambda _: None, 390, 664, dark, Kept(), stark=True)
        assert scene.paper is scene.cloth is look
    plain = Scene(state, lambda _: None, 390, 664, False, Kept())
    assert (plain.paper, plain.cloth) == (PAPER, CLOTH)


@pytest.mark.parametrize("over", ["numbers", "zeros", ""])
def test_what_stands_over_a_drawing_keeps_its_size_while_it_is_pinched(over: str) -> None:
    given: dict[str, Any] = {"numbers": {"a": 1}, "zeros": {"0": (0.0, 0.0)}}
    view: Any
    with Renderer().with_context():
        view = drawing_view(
            CLOTH, None, identifier="d", words="", height=100, width=100, **({over: given[over]} if over else {})
        )
    viewer = viewer_in(Renderer(view).render(view.fn, *view.args, **view.kwargs))
    assert (viewer.on_interaction_end is not None) is bool(over)
