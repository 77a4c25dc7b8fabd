"""What a screen shows for a state, read from the parts it is made of, without a browser."""

import math
from pathlib import Path
from typing import Any

import pytest
from flet.components.component import Renderer

from app import actions as act
from app.actions import Action
from app.screens import ALL
from app.screens.scene import Kept, Scene
from app.state import Drafted, State
from app.typed import order_of
from app.update import start, update
from drafting.order import glance, prepare, read_order

ROOT = Path(__file__).resolve().parents[2]
DEMO = (ROOT / "assets" / "demo" / "order.json").read_text("utf-8")


def after(state: State, *actions: Action) -> State:
    for action in actions:
        state = update(state, action)[0]
    return state


def demo(*actions: Action) -> State:
    """The demo garment after some actions, with the glance that follows them."""
    state = after(start("/")[0], act.Loaded(None, {}, {}, "/"), act.AddDemo(DEMO), *actions)
    typed, problems = order_of(state.garment, state.person)
    order, found = (None, ()) if typed is None else read_order(typed)
    result = None if order is None else glance(order)
    return after(state, act.DraftCame(Drafted("g1", typed or {}, result, (*problems, *found))))


def shown(state: State, key: str, sent: list[Action] | None = None) -> Any:
    """One region of the screen the state is at: what its part is given."""
    scene = Scene(state, (sent if sent is not None else []).append, 390, 664, False, Kept())
    with Renderer().with_context():
        ALL[state.place.screen](scene)
        return scene.kept._now[key][1].content.kwargs


def chips(state: State, key: str) -> dict[str, str]:
    return {option.value: option.words for option in shown(state, key)["options"]}


# The usual sides and the usual overarm by kind: the rules of the garment (women shaped, men and children straight; the
# overarm of straight sides 10 degrees below level, of shaped ones 20). From memory, no source outside.
@pytest.mark.parametrize(("kind", "usual"), [("woman", "shaped"), ("man", "straight"), ("child", "straight")])
def test_the_sides_can_be_chosen_and_the_overarm_follows_them(kind: str, usual: str) -> None:
    more = {"neck_girth": "34", "hand_girth": "20"}  # a child needs these; they change nothing here
    typed = [act.TypeMeasure("p2", key, text) for key, text in more.items()]
    free = (*typed, act.TypeAge("p2", "16"), act.SetStyle("g1", "overarm_angle", ""), act.ChooseKind("p2", kind))
    state = demo(*free)
    assert shown(state, "waist")["chosen"] == "auto"
    assert chips(state, "waist") == {"auto": f"As usual: {usual}", "shaped": "Shaped", "straight": "Straight"}
    for waist in ("auto", "shaped", "straight"):
        sent: list[Action] = []
        shown(state, "waist", sent)["on_choose"](waist)
        assert sent == [act.SetStyle("g1", "waist", waist)]
        chosen = demo(*free, *sent)
        straight = waist == "straight" or (waist == "auto" and usual == "straight")
        assert shown(chosen, "overarm_angle")["value"] == (10 if straight else 20)
        order, _ = read_order(order_of(chosen.garment, chosen.person)[0])
        assert order is not None
        ready, _ = prepare(order)
        assert ready is not None
        assert ready.choices.straight is straight
        assert math.degrees(ready.choices.overarm) == pytest.approx(10 if straight else 20)
    own = demo(*free, act.SetStyle("g1", "waist", "straight"), act.SetStyle("g1", "overarm_angle", "25"))
    assert shown(own, "overarm_angle")["value"] == 25


def test_a_preset_leaves_a_man_the_level_overarm_of_straight_sides() -> None:
    for preset, shaped, straight in (("pullover", 20, 10), ("tunic", 20, 10), ("dress", 20, 10), ("wing", 15, 15)):
        state = demo(act.UsePreset("g1", preset))
        assert shown(state, "overarm_angle")["value"] == shaped
        assert (
            shown(demo(act.UsePreset("g1", preset), act.ChooseKind("p2", "man")), "overarm_angle")["value"] == straight
        )
