"""The shape on the person, the presets' pictures and the guided measuring, read from the parts without a browser."""

from dataclasses import replace
from typing import Any

import flet as ft
import flet.canvas as cv
import pytest
from flet.components.component import Component, Renderer

from app import actions as act
from app.asked import Asked
from app.lit import Lit
from app.parts.hand import Hand, Held
from app.parts.worn_view import crop, worn_shapes
from app.preset_outlines import PRESET_OUTLINES
from app.preset_pictures import drafted_for, preset_picture, worn_as
from app.preset_pictures import named as picture_name
from app.screens import ALL
from app.screens.scene import Kept, Scene
from app.state import Place, State
from app.text import words
from app.theme import look_for
from drafting.contract.fields import Preset
from drafting.contract.front_view import child_head, figure
from drafting.garments import garments
from drafting.order import make, read_order
from drafting.person.measures import MEASURES, asked_for
from tests.app.first_garment import GARMENT, PRESETS
from tests.app.test_shown import after, canvases, demo, part, parts_of, screen


def on_screen(state: State, width: float = 390, height: float = 664) -> Any:
    with Renderer().with_context():
        return ALL[state.place.screen](Scene(state, lambda _: None, width, height, False, Kept()))


def test_the_shape_is_shown_on_the_person_and_one_tap_shows_the_flat_pieces() -> None:
    state = demo(act.Go(Place("shape", "g1")))
    assert words("shape.flat") in screen(state)
    assert not [each for each in parts_of(on_screen(state)) if each.kwargs.get("identifier") == "outline"]
    flat = after(state, act.SetView("flat"))
    assert words("shape.flat") not in screen(flat)
    assert part(flat, "outline").kwargs["words"].startswith("Front, on the fold, as cut: ")
    assert tapped(flat, "Next: back") == [act.SetView("flat", 1)]
    second = after(flat, act.LightMark("front.hip"), act.SetView("flat", 1))
    assert part(second, "outline").kwargs["words"].startswith("Back, on the fold, as cut: ")
    assert part(second, "outline").kwargs["lit"] == Lit(("",), ways=True)
    order, _ = read_order(second.drafted.typed)
    made_of = make(order, with_ways_out=False)
    front, back = made_of.plan.pieces
    fewer = replace(made_of, plan=replace(made_of.plan, pieces=(front, replace(back, marks=back.marks[:3]))))
    planned = after(second, act.DraftCame(replace(second.drafted, result=fewer, laid=True)))
    marks = part(planned, "outline").kwargs["marks"]
    assert marks == {mark.id: (mark.point.x, mark.point.y) for mark in back.marks[:3]}
    assert tapped(second, words("shape.worn")) == [act.SetView("worn")]
    assert after(second, act.SetView("worn")).flat_piece == 0


def test_a_draft_of_fewer_pieces_shows_its_last_and_one_without_a_person_goes_round() -> None:
    many = after(demo(act.Go(Place("shape", "g1"))), act.SetView("flat", 7))
    assert part(many, "outline").kwargs["words"].startswith("Back, on the fold, as cut: ")
    drafted = many.drafted
    assert drafted is not None
    assert drafted.result is not None
    alone = replace(drafted.result, draft=replace(drafted.result.draft, worn=None))
    unworn = replace(many, drafted=replace(drafted, result=alone))
    assert tapped(unworn, "Next: front") == [act.SetView("flat", 0)]
    one = replace(alone, draft=replace(alone.draft, pieces=alone.draft.pieces[:1]))
    assert "other-view" not in [
        each.kwargs.get("identifier")
        for each in parts_of(on_screen(replace(many, drafted=replace(drafted, result=one))))
    ]


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


def buttons(state: State, width: float = 390, height: float = 664) -> dict[str, Any]:
    """What can be tapped on a screen, by name: every button of it."""
    found: dict[str, Any] = {}

    def into(control: Any) -> None:
        if isinstance(control, (list, tuple)):
            for each in control:
                into(each)
        elif isinstance(control, ft.Semantics) and control.identifier:
            found[control.identifier] = control
            into(control.content)
        elif isinstance(control, ft.Control):
            into([getattr(control, name, None) for name in ("content", "controls")])

    into(on_screen(state, width, height))
    return found


def measuring(step: int, *actions: act.Action) -> State:
    return demo(*actions, act.Go(Place("person", "g1", step=step)))


def fields_of(state: State) -> list[str]:
    named = [each.kwargs.get("identifier", "") for each in parts_of(on_screen(state))]
    return [name.removeprefix("measure-") for name in named if name and name.startswith("measure-")]


@pytest.mark.parametrize("kind", ["woman", "man", "child"])
def test_every_measure_has_a_screen_of_its_own_with_its_number_and_its_place(kind: str) -> None:
    asked, rest = GARMENT.asked_of(kind), GARMENT.others_of(kind)
    assert asked == asked_for(kind)
    page_of = Asked(asked, rest, ()).page_of
    for step, name in enumerate(asked, start=1):
        state = measuring(step, act.ChooseKind("p2", kind))
        assert fields_of(state) == [name]
        assert words("person.measures", name="Ilse", page=step, pages=len(asked)) in screen(state)
        label = words("person.figure", measure=MEASURES[name].label_for(kind))
        assert buttons(state)["figure"].label == label
        assert page_of(name) == step
    last = measuring(len(asked) + 1, act.ChooseKind("p2", kind))
    assert fields_of(last) == list(rest)
    assert all(page_of(name) == len(asked) + 1 for name in rest)
    assert fields_of(measuring(99, act.ChooseKind("p2", kind))) == list(rest)


def test_all_measures_stand_in_a_list_for_those_who_like_it_so() -> None:
    state = measuring(4, act.SetMeasuring("list", 1))
    assert fields_of(state) == [*GARMENT.asked_of("woman"), *GARMENT.others_of("woman")]
    assert words("person.one") in screen(state)
    assert words("person.list") in screen(measuring(4))
    assert words("person.to_shape") in screen(state)


def test_what_is_not_taken_can_be_skipped_or_its_estimate_taken() -> None:
    asked = asked_for("woman")
    step = asked.index("hand_girth") + 1
    assert words("person.take_estimate") in screen(measuring(step, act.TypeMeasure("p2", "hand_girth", "")))
    without = measuring(step, act.TypeMeasure("p2", "hand_girth", ""), act.TypeMeasure("p2", "stature", ""))
    assert words("person.skip") in screen(without), "nothing can be estimated without a stature"
    assert words("person.take_estimate") not in screen(without)
    typed = screen(measuring(step, act.TypeMeasure("p2", "hand_girth", "19")))
    assert words("person.skip") not in typed
    assert words("person.take_estimate") not in typed


def test_the_figure_is_large_and_a_child_is_drawn_for_its_age() -> None:
    def height(state: State, wide: float, high: float) -> float:
        return buttons(state, wide, high)["figure"].content.height

    assert height(measuring(2), 390, 664) == pytest.approx(0.35 * 664)
    assert height(measuring(2), 390, 844) == pytest.approx(0.35 * 844)
    assert height(measuring(2), 1280, 800) > 700
    assert height(measuring(2, act.SetMeasuring("list", 1)), 390, 664) == pytest.approx(0.22 * 664)

    def crown_to_chin(age: str) -> float:
        state = measuring(1, act.ChooseKind("p2", "child"), act.TypeAge("p2", age))
        head = buttons(state)["figure"].content.content.shapes[2]
        ends = [step.y for step in head.elements[:-1]]
        return max(ends) - min(ends)

    scale = 0.35 * 664 / 105
    assert crown_to_chin("3") == pytest.approx(20 * scale, rel=0.02)
    assert crown_to_chin("10") == pytest.approx(100 / 6 * scale, rel=0.02)
    assert crown_to_chin("") == pytest.approx(100 * child_head(7) * scale, rel=0.02)


def test_a_figure_stays_beside_the_field_while_the_keypad_is_open() -> None:
    def figures(height: float, *, typing: bool) -> list[float]:
        hand = Hand(lambda: None)
        if typing:
            hand.now = Held("measure-head_girth", "cm", False, str, lambda _: None, lambda: None, None)
        with Renderer().with_context():
            whole = ALL["person"](Scene(measuring(2), lambda _: None, 390, height, False, Kept(), hand=hand))
        return [each.height for each in named(whole, "figure")]

    assert figures(664, typing=False) == [pytest.approx(0.35 * 664)]
    assert figures(664, typing=True) == [110.0]
    assert figures(630, typing=True) == []
    assert figures(844, typing=True) == [pytest.approx(0.35 * 844)]


def named(control: Any, identifier: str) -> list[Any]:
    """What is inside every control of this name."""
    if isinstance(control, (list, tuple)):
        return [found for each in control for found in named(each, identifier)]
    if isinstance(control, ft.Semantics) and control.identifier == identifier:
        return [control.content]
    if isinstance(control, Component):
        return named([*control.args, *control.kwargs.values()], identifier)
    if isinstance(control, ft.Control):
        return named([getattr(control, name, None) for name in ("content", "controls")], identifier)
    return []


def test_what_is_missing_stands_where_the_measures_end() -> None:
    state = measuring(len(asked_for("woman")) + 1, act.TypeMeasure("p2", "stature", ""))
    assert words("missing.missing") in screen(state)
    assert words("missing.missing") in screen(after(state, act.SetMeasuring("list", 1)))
    assert words("missing.missing") not in screen(measuring(3, act.TypeMeasure("p2", "stature", "")))


def test_presets_are_pictures_of_their_own_drafts() -> None:
    every = {(one.name, preset.key): preset for one in garments().values() for preset in one.presets}
    bare = {(one.name, ""): Preset("", "", "", "", {}) for one in garments().values() if not one.presets}
    every |= bare  # seen where garments are chosen from
    assert PRESET_OUTLINES.keys() <= {picture_name(*key) for key in every}
    for (garment, key), preset in every.items():
        kept = drafted_for(garment, preset)
        assert PRESET_OUTLINES.get(picture_name(garment, key), kept) == kept, "draft them anew and keep what comes"
        worn = worn_as(kept)
        assert {(round(p.x), round(p.y)) for p in worn.outline} == {(-round(p.x), round(p.y)) for p in worn.outline}
    drawn = {key: PRESET_OUTLINES[picture_name(GARMENT.name, key)] for key in PRESETS}
    hems = {name: max(place[1] for place in kept[0]) for name, kept in drawn.items()}
    assert hems["pullover"] < hems["tunic"] < hems["dress"]
    necks = {name: min(place[1] for place in kept[0]) for name, kept in drawn.items()}
    assert necks == {"pullover": -90, "tunic": -50, "dress": -140, "wing": -50}


def test_each_preset_is_chosen_by_its_picture() -> None:
    state = demo(act.Go(Place("shape", "g1")))
    options = part(state, "preset").kwargs["options"]
    assert [option.value for option in options] == list(PRESETS)
    for option in options:
        assert option.picture is preset_picture(GARMENT.name, option.value)
        canvas = option.picture(look_for("paper", True)).content
        assert (canvas.width, canvas.height) == (68, 68)
        garment = next(each for each in canvas.shapes if not has_curves(each))
        across = [step.x for step in garment.elements[:-1]]
        assert 0 < min(across) < max(across) < 68
    with Renderer().with_context():
        assert (
            len({canvases(option.picture(look_for("paper", False)))[0].shapes[4].elements[5].x for option in options})
            > 1
        )


def tapped(state: State, text: str) -> list[act.Action]:
    """What a button with these words sends."""
    sent: list[act.Action] = []
    with Renderer().with_context():
        whole = ALL[state.place.screen](Scene(state, sent.append, 390, 664, False, Kept()))
    button_with(whole, text).on_click(None)
    return sent


def button_with(control: Any, text: str) -> Any:
    """The innermost control with these words that can be tapped."""
    found: list[Any] = []

    def into(each: Any, over: Any) -> None:
        if isinstance(each, (list, tuple)):
            for one in each:
                into(one, over)
        elif isinstance(each, ft.Text):
            if each.value == text and over is not None:
                found.append(over)
        elif isinstance(each, Component):
            into([*each.args, *each.kwargs.values()], over)
        elif isinstance(each, ft.Control):
            over = each if getattr(each, "on_click", None) is not None else over
            into([getattr(each, name, None) for name in ("content", "controls")], over)

    into(control, None)
    return found[0]


def test_the_buttons_lead_where_their_words_say() -> None:
    shape = demo(act.Go(Place("shape", "g1")))
    assert tapped(shape, words("shape.flat")) == [act.SetView("flat")]
    assert tapped(after(shape, act.SetView("flat", 1)), words("shape.worn")) == [act.SetView("worn")]
    assert tapped(measuring(4), words("person.list")) == [act.SetMeasuring("list", 1)]
    listed = after(measuring(4, act.SetMeasuring("list", 1)), act.FocusMeasure("neck_girth"))
    assert tapped(listed, words("person.one")) == [act.SetMeasuring("one", 3)]
    assert tapped(listed, words("person.to_shape")) == [act.Go(Place("shape", "g1"))]
    assert tapped(measuring(4), words("next")) == [act.Go(Place("person", "g1", step=5))]
    empty = measuring(4, act.TypeMeasure("p2", "shoulder_width", ""))
    assert tapped(empty, words("person.take_estimate")) == [act.Go(Place("person", "g1", step=5))]
