"""The shape on the person, the presets' pictures and the guided measuring, read from the parts without a browser."""

from typing import Any

import flet.canvas as cv
import pytest
from flet.components.component import Renderer

from app import actions as act
from app.parts.worn_view import crop, worn_shapes
from app.screens import ALL
from app.screens.scene import Kept, Scene
from app.state import Place, State
from app.text import words
from app.theme import look_for
from drafting.front_view import figure
from tests.app.test_shown import after, demo, part, parts_of, screen


def on_screen(state: State, width: float = 390, height: float = 664) -> Any:
    with Renderer().with_context():
        return ALL[state.place.screen](Scene(state, lambda _: None, width, height, False, Kept()))


def test_the_shape_is_shown_on_the_person_and_one_tap_shows_the_flat_piece() -> None:
    state = demo(act.Go(Place("shape", "g1")))
    assert words("shape.flat") in screen(state)
    assert not [each for each in parts_of(on_screen(state)) if each.kwargs.get("identifier") == "outline"]
    flat = after(state, act.SetView("flat"))
    assert words("shape.worn") in screen(flat)
    assert words("shape.flat") not in screen(flat)
    assert part(flat, "outline").kwargs["words"].startswith("The front on the fold")


def test_the_person_and_the_garment_on_it_are_drawn_to_one_scale() -> None:
    draft = demo(act.Go(Place("shape", "g1"))).drafted.result.draft
    body = figure(draft.body, draft.worn.shoulder, draft.worn.arm)
    for width, height in ((390.0, 240.0), (720.0, 700.0)):
        drawn = worn_shapes(look_for("paper", False), draft.worn, body, width, height)
        garment = next(each for each in drawn if isinstance(each, cv.Path) and not has_curves(each))
        across, down = [step.x for step in garment.elements[:-1]], [step.y for step in garment.elements[:-1]]
        wide = max(p.x for p in draft.worn.outline) - min(p.x for p in draft.worn.outline)
        high = max(p.y for p in draft.worn.outline) - min(p.y for p in draft.worn.outline)
        scale = (max(across) - min(across)) / wide
        assert (max(down) - min(down)) / high == pytest.approx(scale, rel=0.005)
        assert (max(across) + min(across)) / 2 == pytest.approx(width / 2, abs=0.1)
        assert min(across) >= 6
        assert max(across) <= width - 6
        assert max(down) < height - 6, "some of the legs shows below the hem"
        head = drawn[2]
        assert min(step.y for step in head.elements[:-1]) >= 5.9
        left, top, wide, high = crop(draft.worn, body)
        assert (left, top) == (-wide / 2, body.crown)
        assert scale == pytest.approx(min((width - 12) / wide, (height - 12) / high), rel=0.005)


def has_curves(shape: cv.Path) -> bool:
    return any(isinstance(step, cv.Path.CubicTo) for step in shape.elements)
