"""Knitted or woven on the cloth's page: told by the garment, chosen there, and refused there in words."""

from typing import Any

import pytest
from flet.components.component import Renderer

from app import actions as act
from app.actions import Action
from app.presets import sketch_cloth
from app.screens import ALL
from app.screens.home import next_words
from app.screens.scene import Kept, Scene
from app.state import GarmentRecord, Place, State
from app.text import words
from app.typed import cloth_is_known, kind_of, needed_cloth, order_of
from drafting.garments import garments
from drafting.order import prepare, read_order
from tests.app.test_shown import after, demo, part, parts_of, screen

WOVEN = tuple(name for name, garment in garments().items() if garment.cloths == ("woven",))
KNIT = tuple(name for name, garment in garments().items() if garment.cloths == ("knit",))


def at_the_cloth(name: str, *actions: Action) -> State:
    return demo(act.ChooseGarment("g1", name), *actions, act.Go(Place("cloth", "g1")))


def asked(state: State, sent: list[Action] | None = None) -> Any:
    with Renderer().with_context():
        whole = ALL["cloth"](Scene(state, (sent if sent is not None else []).append, 390, 664, False, Kept()))
    return next(each.kwargs for each in parts_of(whole) if each.kwargs.get("identifier") == "cloth-kind")


def ready(state: State) -> Any:
    assert state.garment is not None
    typed, problems = order_of(state.garment, state.person)
    assert typed is not None, problems
    order, found = read_order(typed)
    return found if order is None else prepare(order)[0]


def without_stretch(name: str) -> State:
    return at_the_cloth(name, *(act.SetCloth("g1", key, None) for key in ("stretch_across", "stretch_along")))


def test_there_are_garments_of_both() -> None:
    assert WOVEN
    assert len(KNIT) > 3


@pytest.mark.parametrize("name", garments())
def test_the_page_of_the_cloth_says_what_the_garment_is_made_of(name: str) -> None:
    state = without_stretch(name)
    takes = garments()[name].cloths
    told = asked(state)
    assert told["chosen"] == takes[0]
    assert [option.value for option in told["options"]] == ["knit", "woven"]
    assert told["how"] == tuple(words(f"cloth.kind.says.{each}") for each in takes)
    heading = words("test.across") in screen(state)
    assert heading == (takes[0] == "knit")
    assert (words("cloth.recovery") in screen(state)) == heading


@pytest.mark.parametrize("name", WOVEN)
def test_woven_cloth_needs_no_stretch_and_none_that_was_typed_goes_into_the_order(name: str) -> None:
    state = without_stretch(name)
    assert needed_cloth(state.garment) == ("width",)
    assert ready(state).cloth.kind == "woven"
    assert next_words(state, state.garment) == words("garment.next.proof")
    again = after(at_the_cloth(name), act.SetCloth("g1", "kind", "woven"))
    typed, _ = order_of(again.garment, again.person)
    assert typed is not None
    assert again.garment.cloth["stretch_across"]
    assert typed["cloth"]["kind"] == "woven"
    assert not {"stretch_across", "stretch_along", "recovery"} & set(typed["cloth"])
    assert ready(again).cloth.across == 0


@pytest.mark.parametrize("name", WOVEN)
def test_a_knit_is_refused_at_the_kind_of_cloth_and_one_tap_mends_it(name: str) -> None:
    state = at_the_cloth(name)  # the cloth of the demo stretches
    assert kind_of(state.garment) == "knit"
    sent: list[Action] = []
    told = asked(state, sent)
    assert told["chosen"] == "knit"
    assert "woven cloth" in told["problem"]
    told["on_choose"]("woven")
    mended = after(state, *sent)
    assert ready(mended).cloth.kind == "woven"


@pytest.mark.parametrize("name", KNIT[:2])
def test_woven_cloth_is_refused_where_a_knit_is_needed(name: str) -> None:
    state = at_the_cloth(name, act.SetCloth("g1", "kind", "woven"))
    assert "knitted cloth" in asked(state)["problem"]
    assert asked(at_the_cloth(name))["problem"] == ""
    assert part(at_the_cloth(name), "recovery")


def test_a_record_of_before_has_no_kind_and_is_read_as_it_was() -> None:
    for name in KNIT:
        assert kind_of(GarmentRecord("g1", garment=name)) == "knit"
        assert needed_cloth(GarmentRecord("g1", garment=name)) == ("width", "stretch_across", "stretch_along")
    state = demo()
    typed, _ = order_of(state.garment, state.person)
    assert typed is not None
    assert "kind" not in typed["cloth"]
    assert ready(state).cloth.kind == "knit"


@pytest.mark.parametrize("name", garments())
def test_a_shape_is_sketched_on_cloth_that_the_garment_takes(name: str) -> None:
    assert ("stretch_across" in sketch_cloth(name)) == ("knit" in garments()[name].cloths)


def test_a_cloth_is_known_once_all_that_is_needed_of_its_kind_is_written_down() -> None:
    width = {"width": "150"}
    both = {"stretch_across": "40", "stretch_along": "20"}
    for cloth, known in (
        (width, False),
        (both, False),
        (width | {"stretch_across": "40"}, False),
        (width | both, True),
    ):
        assert cloth_is_known(GarmentRecord("g1", garment="set_in", cloth=cloth)) is known, cloth
    for cloth, known in (({}, False), ({"width": " "}, False), (width, True)):
        assert cloth_is_known(GarmentRecord("g1", garment="kaftan", cloth=cloth)) is known, cloth
