"""The choices of the shape: which stand up front, that none is lost, and what the fit changes."""

from typing import Any

from flet.components.component import Renderer

from app import actions as act
from app.actions import Action
from app.screens.scene import Kept, Scene
from app.screens.shape import Fields, shape
from app.state import GarmentRecord, State
from app.typed import order_of
from drafting.contract.fields import Chosen
from drafting.garments import garments
from drafting.garments.cut_in_one.style import Style
from drafting.order import glance, read_order
from tests.app.first_garment import GARMENT
from tests.app.test_shown import chips, demo, parts_of, shown

NOT_SHOWN = {"shoulder_slope", "narrowest_at"}  # another way to say shoulder_drop; what the flare decides


def standing(state: State) -> tuple[list[str], list[str]]:
    """The choices that are seen at once and those that are folded away, by their parts, in their order."""
    scene = Scene(state, lambda _: None, 390, 664, False, Kept())
    with Renderer().with_context():
        whole = shape(scene)
    seen: list[str] = []
    folded: list[str] = []
    for each in parts_of(whole):
        name = each.kwargs.get("identifier", "")
        if each.args[1:2] == ("more-shape",):
            folded = [one.kwargs["identifier"] for one in parts_of(each)[1:] if "identifier" in one.kwargs]
        elif name:
            seen.append(name)
    return [name for name in dict.fromkeys(seen) if name not in folded], folded


def test_up_front_stands_what_the_garment_says_and_the_rest_is_folded() -> None:
    first = garments()["cut_in_one"].first
    seen, folded = standing(demo())
    shown_first = [name for name in seen if name in Style.model_fields]
    assert shown_first == list(first) == ["length", "neck_height", "sleeve_length", "flare", "fit", "body"]
    assert len(first) <= 7, "no more than one looks over at once"
    assert not set(first) & set(folded)
    assert {"waist", "underarm", "ease_bust", "allowances-hem-length", "shoulder_drop-length"} <= set(folded)
    assert seen.index("preset") < seen.index("title") < seen.index("length"), "a name is asked before the choices"


def test_every_choice_of_the_garment_stands_somewhere() -> None:
    state = demo()
    assert state.garment is not None
    scene = Scene(state, lambda _: None, 390, 664, False, Kept())
    fields = Fields(scene, state.garment, ())
    with Renderer().with_context():
        asked = {field.key.partition(".")[0] for field in GARMENT.fields if fields.controls(field.key)}
    waiting = {field.key for field in GARMENT.fields if not field.shown(fields.chosen)}
    assert asked | waiting == set(Style.model_fields) - NOT_SHOWN
    assert set(garments()["cut_in_one"].first) <= set(asked)


def test_what_is_wrong_in_a_folded_choice_opens_the_fold() -> None:
    def opened(state: State) -> bool:
        scene = Scene(state, lambda _: None, 390, 664, False, Kept())
        with Renderer().with_context():
            (fold,) = [each for each in parts_of(shape(scene)) if each.args[1:2] == ("more-shape",)]
        return bool(fold.args[5])

    assert not opened(demo())
    assert opened(demo(act.SetStyle("g1", "hem_girth", "long")))
    assert not opened(demo(act.SetStyle("g1", "length", "long"))), "it is seen without"


def ease(state: State) -> float:
    """The ease that the draft gives the bust, mm."""
    assert state.garment is not None
    typed, _ = order_of(state.garment, state.person)
    order, _ = read_order(typed or {})
    assert order is not None
    return next(girth.ease for girth in glance(order).draft.girths if girth.at == "bust")


def test_the_fit_is_chosen_and_changes_the_ease() -> None:
    sent: list[Action] = []
    given: Any = shown(demo(act.SetStyle("g1", "fit", None)), "fit", sent)
    assert given["chosen"] == "regular", "where nothing was chosen"
    assert given["label"] == "Fit"
    assert chips(demo(), "fit") == {"close": "Close", "regular": "Regular", "loose": "Loose"}
    for fit in ("close", "regular", "loose"):
        given["on_choose"](fit)
        assert shown(demo(act.SetStyle("g1", "fit", fit)), "fit")["chosen"] == fit
    assert sent == [act.SetStyle("g1", "fit", fit) for fit in ("close", "regular", "loose")]
    close, regular, loose = (ease(demo(act.SetStyle("g1", "fit", fit))) for fit in ("close", "regular", "loose"))
    assert close < regular < loose


def test_a_folded_neck_may_be_higher_than_a_single_one() -> None:
    neck = GARMENT.field("neck_height")
    assert neck is not None
    assert neck.high(Chosen({})) == 180, "mm; our choice"
    assert neck.high(Chosen({"neck_layers": "folded"})) == 280, "mm; our choice"


def test_only_what_the_body_stretches_all_day_counts_for_the_wear_of_the_cloth() -> None:
    typed, _ = order_of(demo().garment or GarmentRecord(""), demo().person)
    order, _ = read_order(typed or {})
    assert order is not None
    worn = {girth.at for girth in glance(order).draft.girths if girth.worn_stretched}
    assert worn == {"bust", "bust_level", "waist", "hip", "hem", "sleeve_end"}
