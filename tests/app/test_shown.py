"""What a screen shows for a state, read from the parts it is made of, without a browser."""

import json
import math
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import Any

import flet as ft
import flet.canvas as cv
import pytest
from flet.components.component import Component, Renderer

from app import actions as act
from app.actions import Action
from app.laying import answering
from app.lit import Lit
from app.screens import ALL
from app.screens.scene import Kept, Scene
from app.screens.shape import Fields
from app.state import Drafted, FrozenDraft, LaidOut, LayQuestion, OtherTape, Place, State
from app.text import words
from app.theme import COLUMN, EDGE
from app.turn import laid_turn, seen_turn
from app.typed import order_of, order_text
from app.update import start, update
from drafting.layout import at_table, offers, say_laid, way_name
from drafting.order import glance, make, prepare, read_order
from drafting.record.documents import draft_json
from drafting.units import say_length
from tests.app.first_garment import GARMENT, TOLD
from tests.app.records import loaded

ROOT = Path(__file__).resolve().parents[2]
DEMO = (ROOT / "assets" / "demo" / "order.json").read_text("utf-8")


def after(state: State, *actions: Action) -> State:
    for action in actions:
        state = update(state, action)[0]
    return state


def demo(*actions: Action) -> State:
    """The demo garment after some actions, with the glance that follows them."""
    state = after(start("/")[0], loaded(), act.AddDemo(DEMO), *actions)
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


def said(control: Any) -> list[str]:
    """Every word in a control and in all that it is made of, each text once for each time that it is shown."""
    if isinstance(control, str):
        return [control]
    if isinstance(control, (list, tuple)):
        return [text for each in control for text in said(each)]
    if isinstance(control, ft.Text):
        return [(control.value or "").replace("\u00a0", " ")]
    if isinstance(control, Component):
        return said([*control.args, *control.kwargs.values()])
    if isinstance(control, ft.Control):
        return said([getattr(control, name, None) for name in ("content", "controls")])
    return []


def parts_of(control: Any) -> list[Component]:
    """Every part in a control and in all that it is made of."""
    if isinstance(control, (list, tuple)):
        return [part for each in control for part in parts_of(each)]
    if isinstance(control, Component):
        return [control, *parts_of([*control.args, *control.kwargs.values()])]
    if isinstance(control, ft.Control):
        return parts_of([getattr(control, name, None) for name in ("content", "controls")])
    return []


def part(state: State, identifier: str, width: float = 390, height: float = 664) -> Component:
    """One part of the screen the state is at."""
    with Renderer().with_context():
        whole = ALL[state.place.screen](Scene(state, lambda _: None, width, height, False, Kept()))
    return next(each for each in parts_of(whole) if each.kwargs.get("identifier") == identifier)


def drawn(state: State) -> dict[str, Any]:
    """What the drawing of the chalk screen is given."""
    return part(state, "chalk-drawing").kwargs


def canvases(control: Any) -> list[cv.Canvas]:
    """Every canvas in a control."""
    if isinstance(control, (list, tuple)):
        return [found for each in control for found in canvases(each)]
    if isinstance(control, cv.Canvas):
        return [control]
    return [] if control is None else canvases([getattr(control, name, None) for name in ("content", "controls")])


def screen(state: State) -> list[str]:
    """Every word on the screen the state is at."""
    with Renderer().with_context():
        return said(ALL[state.place.screen](Scene(state, lambda _: None, 390, 664, False, Kept())))


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


# Finished lengths typed, in cm: what the draft made of each must be said as it was typed.
OWN = {
    "neck_half_width": "8 cm", "shoulder_drop": "4 cm", "narrowest_girth": "34 cm", "underarm_above_waist": "12 cm",
    "hem_girth": "110 cm", "ease_bust": "12 cm", "ease_waist": "30 cm", "ease_hip": "15 cm",
    "allowances.shoulder": "0.9 cm", "allowances.side": "1.2 cm", "allowances.hem": "1.4 cm",
    "allowances.sleeve_end": "1.7 cm", "allowances.neck_top": "0.8 cm", "allowances.centre_back": "1.1 cm",
    "allowances.sleeve_joint": "0.7 cm",
}  # fmt: skip
CUT_APART = {"underarm": "deep", "length": "knee", "centre_back": "seam", "lower_sleeve": "joined"}
OWN_BANDS = {"neck_band_height": "2.2 cm", "cuff_height": "7 cm"}
BANDS = {"neck_height": "1", "neck_finish": "band", "sleeve_finish": "cuff"}
OWN_FLOUNCES = {"sleeve_flounce_depth": "10 cm", "hem_flounce_depth": "14 cm"}
FLOUNCES = {"sleeve_finish": "flounce", "hem_finish": "flounce"}


def typing(*styles: dict[str, str]) -> list[Action]:
    return [act.SetStyle("g1", key, text) for style in styles for key, text in style.items()]


def test_each_number_shown_for_a_default_is_the_one_that_is_drafted() -> None:
    assert OWN.keys() | OWN_BANDS.keys() | OWN_FLOUNCES.keys() == TOLD
    known: dict[str, str] = {}
    for style, own in ((CUT_APART, OWN), (BANDS, OWN_BANDS), (FLOUNCES, OWN_FLOUNCES)):
        state = demo(*typing(style, own))
        scene = Scene(state, lambda _: None, 390, 664, False, Kept())
        assert state.garment is not None
        told = Fields(scene, state.garment, ()).known
        known |= {key: told[key] for key in own}
    assert known == OWN | OWN_BANDS | OWN_FLOUNCES


# Allowances of an untouched style: shoulder and overarm 1, side 1.5, hem 2.5, sleeve end 2, neck edge 1 (rules of the
# garment); of a lower sleeve's joint 1 and a centre back seam 1.5 (our choice).
@pytest.mark.parametrize(
    ("style", "edge", "says"),
    [
        ({}, "side", "1.5 cm"),
        ({}, "hem", "2.5 cm"),
        ({}, "sleeve_end", "2 cm"),
        ({}, "centre_back", "1.5 cm"),
        ({}, "sleeve_joint", "1 cm"),
        ({"body": "flared", "length": "knee", "hem_girth": "150 cm"}, "hem", "1.5 cm"),
    ],
)
def test_an_empty_allowance_says_its_number(style: dict[str, str], edge: str, says: str) -> None:
    assert shown(demo(*typing(style)), f"allowances.{edge}-length")["estimate"] == f"{says}, unless you write another"


def test_an_allowance_has_its_number_before_anything_can_be_drafted() -> None:
    state = demo(act.TypeMeasure("p2", "stature", ""), act.ChooseUnit("p2", "in"))
    assert state.drafted is not None
    assert state.drafted.result is None
    assert shown(state, "allowances.side-length")["estimate"] == "⅝ in, unless you write another"
    assert shown(state, "shoulder_drop-length")["estimate"] == "worked out"
    assert chips(state, "hem_girth")["auto"] == "Worked out"


def test_what_is_worked_out_is_shown_while_it_is_chosen() -> None:
    worked = chips(demo(), "hem_girth")["auto"]
    girths = {each.at: each.girth for each in demo().drafted.result.draft.girths}  # type: ignore[union-attr]
    assert worked == f"Worked out: {girths['hem'] / 10:.1f} cm"
    assert chips(demo(*typing({"hem_girth": "110 cm", "length": "knee"})), "hem_girth")["auto"] == "Worked out"
    assert "Worked out" not in chips(demo(), "slit")["auto"]


def test_the_selvage_says_what_is_usual_in_the_persons_unit() -> None:
    assert shown(demo(act.Go(Place("cloth", "g1")), act.SetCloth("g1", "selvage", "")), "selvage")["estimate"] == (
        "1.5 cm, unless you write another"
    )
    inches = demo(act.ChooseUnit("p2", "in"), act.SetCloth("g1", "selvage", ""), act.Go(Place("cloth", "g1")))
    assert shown(inches, "selvage")["estimate"] == "⅝ in, unless you write another"


@pytest.mark.parametrize(
    ("unit", "usual", "limits"),
    [("cm", "150 cm", "From 120 cm to 500 cm."), ("in", "60 in", "From 48 in to 200 in.")],
)
def test_the_length_of_the_tape_is_asked_with_its_limits_and_what_is_usual(unit: str, usual: str, limits: str) -> None:
    at_cloth = (act.ChooseUnit("p2", unit), act.Go(Place("cloth", "g1")))
    sent: list[Action] = []
    asked = shown(demo(*at_cloth), "tape-length", sent)
    assert asked["value"] == ""
    assert asked["unit"] == unit
    assert asked["estimate"] == f"{usual}, unless you write another"
    assert [limits in line for line in asked["how"]] == [True]
    assert asked["problem"] == ""
    asked["on_change"]("7")
    assert sent == [act.TypeTapeLength("g1", "7")]
    wrong = shown(demo(*at_cloth, *sent), "tape-length")
    assert wrong["value"] == "7"
    least, most = limits.removeprefix("From ").removesuffix(".").split(" to ")
    assert f"from {least} to {most}, or leave it out for {usual}" in wrong["problem"]
    assert shown(demo(*at_cloth, act.TypeTapeLength("g1", "130")), "tape-length")["problem"] == ""


def test_a_tape_in_the_other_unit_says_its_own_usual_length_in_the_persons() -> None:
    state = demo(act.SetTape("g1", "1/8"), act.Go(Place("cloth", "g1")))
    assert shown(state, "tape-length")["estimate"] == "152.4 cm, unless you write another"


def test_a_mark_past_the_tape_is_told_from_which_0_it_is_read_wherever_its_reading_stands() -> None:
    ankle = (act.SetStyle("g1", "length", "ankle"), act.TypeTapeLength("g1", "120"))
    state = demo(*ankle)
    typed, _ = order_of(state.garment, state.person)
    order, _ = read_order(typed)
    assert order is not None
    result = make(order, with_ways_out=False)
    assert result.plan is not None
    marks = {mark.id: mark for mark in result.plan.pieces[0].marks}
    hem, waist = marks["hem_corner"], marks["waist"]
    assert (hem.zero, waist.zero) == (2, 1)
    frozen = FrozenDraft(order_text(typed or {}), draft_json(result).decode())
    state = after(state, act.StartChalking("g1"), act.Froze("g1", frozen))
    at_hem = screen(after(state, act.ChalkAt("g1", "front.hem_corner")))
    assert ("Down from the second 0", hem.reads.pretty) in list(pairwise(at_hem))
    at_waist = screen(after(state, act.ChalkAt("g1", "front.waist")))
    assert ("Down", waist.reads.pretty) in list(pairwise(at_waist))
    # The drawing goes down to the mark from the 0 it is read from: the second one is chalked 80 cm below the first.
    for mark, zero in (("hem_corner", 800.0), ("waist", 0.0)):
        given = drawn(after(state, act.ChalkAt("g1", f"front.{mark}")))
        assert given["lit"] == Lit((mark,), ways=True, zero=zero)
        assert given["zeros"] == {"0": (0.0, 0.0), "Second 0": (0.0, 800.0)}
    look = result.plan.pieces[0].look
    assert look is not None
    assert drawn(after(state, act.ChalkAt("g1", "look.front")))["lit"].marks == (look.mark,)
    listed = screen(after(state, act.Go(Place("chalk", "g1", step=1))))
    assert f"Mark {hem.order}: {hem.label}, from the second 0" in listed
    assert f"Mark {waist.order}: {waist.label}" in listed
    assert "Second 0" in listed, "and where to chalk it"


def being_chalked(*actions: Action, turned: int = 0) -> State:
    """The demo garment on its chalk screen; its pieces lie turned by so many degrees."""
    state = demo(*actions)
    typed, _ = order_of(state.garment, state.person)
    order, _ = read_order(typed)
    assert order is not None
    text = draft_json(make(order, with_ways_out=False)).decode()
    if turned:
        record = json.loads(text)
        for piece in record["pieces"]:
            piece["lies"]["turned"] = turned
        text = json.dumps(record)
    frozen = FrozenDraft(order_text(typed or {}), text)
    return after(state, act.StartChalking("g1"), act.Froze("g1", frozen))


def test_the_picture_lies_as_the_cloth_does_and_a_place_is_shown_on_the_cloth() -> None:
    for side in ("left", "right"):
        state = after(being_chalked(turned=180), act.SeeFrom(side, "far"))
        seen = seen_turn(fold_right=side == "right", top_near=False)
        assert drawn(state)["turn"] == laid_turn(180, mirrored=False).then(seen)
    laid = being_chalked(act.SetCloth("g1", "lay", "open"))
    given = drawn(after(laid, act.ChalkAt("g1", "apart.front.place.back.1"), act.SeeFrom("left", "near")))
    assert set(given["zeros"]) == {"Front", "Back"}
    assert given["marks"] == {}
    assert given["turn"] == seen_turn(fold_right=False, top_near=True)
    assert drawn(after(laid, act.ChalkAt("g1", "front.waist")))["zeros"] == {"0": (0.0, 0.0)}


def test_the_picture_turns_with_who_stands_at_the_cloth_and_that_is_chosen_beside_the_list() -> None:
    state = being_chalked()
    assert drawn(state)["turn"] == seen_turn(fold_right=False, top_near=False)
    assert drawn(state)["numbers"]["waist"] == 4
    listed = after(state, act.Go(Place("chalk", "g1", step=1)))
    sent: list[Action] = []
    scene = Scene(listed, sent.append, 390, 664, False, Kept())
    with Renderer().with_context():
        groups = {part.kwargs["identifier"]: part for part in parts_of(ALL["chalk"](scene)) if "chosen" in part.kwargs}
    assert (groups["see-fold"].kwargs["chosen"], groups["see-top"].kwargs["chosen"]) == ("left", "far")
    groups["see-fold"].kwargs["on_choose"]("right")
    groups["see-top"].kwargs["on_choose"]("near")
    assert sent == [act.SeeFrom("right", "far"), act.SeeFrom("left", "near")]
    for fold in ("left", "right"):
        for top in ("far", "near"):
            turned = drawn(after(state, act.SeeFrom(fold, top)))["turn"]
            assert turned == seen_turn(fold_right=fold == "right", top_near=top == "near")


def test_what_was_changed_since_chalking_began_stands_on_every_screen_where_it_matters() -> None:
    state = being_chalked()
    title = words("changed.title")
    places = [Place(name, "g1") for name in ("shape", "proof", "lay", "chalk")] + [Place("chalk", "g1", step=1)]
    for changed in (state, after(state, act.SetStyle("g1", "length", "knee"))):
        typed, problems = order_of(changed.garment, changed.person)
        order, _ = read_order(typed)
        assert order is not None
        known = Drafted("g1", typed or {}, make(order, with_ways_out=False), problems, laid=True)
        for place in places:
            seen = screen(after(changed, act.Go(place), act.DraftCame(known)))
            assert (title in seen) == (changed is not state), place
    kept = after(changed, act.Go(places[0]))
    seen = screen(kept)
    assert {words("changed.keep"), words("chalk.again")} <= set(seen)
    assert any("knee now" in each for each in seen)
    assert seen.count(title) == 2, "in the band, and near the choices at the foot of the page"
    assert screen(after(kept, act.PutBack("g1"))).count(title) == 0


def test_the_marks_can_be_read_on_each_tape_from_the_list() -> None:
    state = being_chalked()
    listed = after(state, act.Go(Place("chalk", "g1", step=1)))
    assert words("chalk.reads.title") not in screen(listed), "a draft frozen for one tape alone stays on it"
    frozen = listed.frozen["g1"]
    other = replace(frozen, others={step: OtherTape("x") for step in ("0.1", "1/8", "1/4")})
    known = replace(listed, frozen={"g1": other})
    sent: list[Action] = []
    scene = Scene(known, sent.append, 390, 664, False, Kept())
    with Renderer().with_context():
        reads = next(each for each in parts_of(ALL["chalk"](scene)) if each.kwargs.get("identifier") == "reads")
    assert reads.kwargs["chosen"] == "0.5"
    assert [option.value for option in reads.kwargs["options"]] == ["0.5", "0.1", "1/8", "1/4"]
    reads.kwargs["on_choose"]("1/8")
    assert sent == [act.ReadOn("g1", "1/8")]


def test_the_underarms_place_stands_once_among_the_finished_figures() -> None:
    for deep in ("regular", "deep"):
        state = demo(act.SetStyle("g1", "underarm", deep), act.Go(Place("proof", "g1")))
        assert state.drafted is not None
        assert state.drafted.result is not None
        figures = {each.at: each.value for each in state.drafted.result.draft.figures}
        told = [text for text in screen(state) if text.startswith("underarm above the waist")]
        assert told == [f"underarm above the waist: {say_length(figures['underarm'], 'cm')}"]


@pytest.mark.parametrize(("width", "height", "waits"), [(390, 664, True), (844, 390, True), (1280, 800, False)])
def test_of_the_shape_what_lies_below_the_first_screenful_waits_where_one_comes_to_it(
    width: float, height: float, waits: bool
) -> None:
    def drawn_of(*, arriving: bool) -> set[str]:
        scene = Scene(state, lambda _: None, width, height, False, Kept(), arriving=arriving)
        with Renderer().with_context():
            ALL["shape"](scene)
        return set(scene.kept._now)

    state = demo()
    at_once, whole = drawn_of(arriving=True), drawn_of(arriving=False)
    assert {"outline", "preset", "next"} <= at_once <= whole
    assert {"title", "length", "more", "which"} <= whole
    assert (at_once == whole) is not waits
    assert waits is not ("title" in at_once)


@pytest.mark.parametrize(
    ("width", "height", "wide"),
    [(390, 664, False), (390, 844, False), (600, 900, False), (667, 320, True), (844, 390, True), (1280, 800, True),
     (899, 700, False), (900, 700, True), (844, 600, False), (599, 390, False)],
)  # fmt: skip
def test_a_drawing_stands_beside_the_words_where_there_is_room_and_on_a_phone_on_its_side(
    width: float, height: float, wide: bool
) -> None:
    scene = Scene(State(), lambda _: None, width, height, False, Kept())
    assert scene.wide is wide
    if wide:
        across, down = scene.beside
        assert across + 2 * EDGE + scene.room + 2 * EDGE == pytest.approx(width)
        assert across > 200
        assert down <= height
        assert scene.room >= 350
    else:
        assert scene.room == min(width, COLUMN) - 2 * EDGE


@pytest.mark.parametrize(("width", "height"), [(390, 664), (844, 390), (1280, 800)])
def test_a_drawing_is_there_before_its_room_is_told(width: float, height: float) -> None:
    """A drawing that takes the place of another of the same size is never told of its room."""
    state = demo(act.Go(Place("proof", "g1")))
    typed, _ = order_of(state.garment, state.person)
    order, _ = read_order(typed)
    assert order is not None
    result = make(order, with_ways_out=False)
    state = after(state, act.DraftCame(Drafted("g1", typed or {}, result, (), laid=True)))
    frozen = FrozenDraft(order_text(typed or {}), draft_json(result).decode())
    chalking = after(state, act.StartChalking("g1"), act.Froze("g1", frozen))
    for at, identifier in ((state, "cloth-layout"), (chalking, "chalk-drawing")):
        drawing = part(at, identifier, width, height)
        body = Renderer(drawing).render(drawing.fn, *drawing.args, **drawing.kwargs)
        canvas = max(canvases(body), key=lambda each: each.width or 0)  # the others are signs on buttons
        assert canvas.shapes
        assert 200 < canvas.width <= width


@pytest.mark.parametrize(("answer", "ordered"), [("yes", True), ("no", False), ("", None)])
def test_whether_the_cloth_has_a_nap_is_asked_plainly_and_may_stay_open(answer: str, ordered: bool | None) -> None:
    sent: list[Action] = []
    state = demo(act.SetCloth("g1", "one_way", None), act.Go(Place("cloth", "g1")))
    with Renderer().with_context():
        whole = ALL["cloth"](Scene(state, sent.append, 390, 664, False, Kept()))
    asked = next(each.kwargs for each in parts_of(whole) if each.kwargs.get("identifier") == "one-way")
    assert asked["label"] == "Does the cloth have a nap or a shade?"
    assert [option.words for option in asked["options"]] == ["Yes", "No", "Not sure"]
    assert asked["chosen"] == ""
    asked["on_choose"](answer)
    answered = after(state, *sent)
    assert part(answered, "one-way").kwargs["chosen"] == answer
    typed, _ = order_of(answered.garment, answered.person)
    assert typed is not None
    assert typed["cloth"].get("one_way") is ordered
    order, _ = read_order(typed)
    assert order is not None
    ready, _ = prepare(order)
    assert ready is not None
    assert ready.cloth.one_way is (answer != "no"), "what is not answered is laid the same way up"


def test_each_way_to_lay_it_shows_its_price_beside_the_one_taken() -> None:
    state = demo(act.SetCloth("g1", "width", "140 cm"), *typing({"lower_sleeve": "joined"}), act.Go(Place("lay", "g1")))
    typed, _ = order_of(state.garment, state.person)
    order, _ = read_order(typed)
    assert order is not None
    result = make(order, with_ways_out=False)
    answers = (each for each in answering("g1", result, LayQuestion()) if isinstance(each, LaidOut))
    laid = next(each for each in answers if each.ways is not None)
    state = after(state, act.DraftCame(Drafted("g1", typed or {}, result, (), laid=True)), act.LayCame(laid))
    cards = {way.way: part(state, f"lay-{way.way}").kwargs for way in laid.ways or ()}
    assert result.layout is not None
    taken = result.layout.way
    assert [fold for fold, card in cards.items() if card["taken"]] == [taken]
    offered = {each.layout.way: each for each in offers(result.layouts, result.ready.cloth)}
    assert offered
    for way in laid.ways or ():
        card = cards[way.way]
        assert card["headline"] == f"{say_laid(way.length, 'cm')} of cloth, {way.chalked} outlines"
        assert card["name"] == way_name(way.way)
        assert ("This way is taken unless you choose another" in card["notes"][0]) is (way.way == taken)
        if way.way in offered:
            assert card["notes"][0] == offered[way.way].says
            assert f"{way.chalked} outlines instead of {result.layout.chalked}" in card["notes"][0]
        else:
            assert "less" not in card["notes"][0] or way.way == taken
        assert ("Only for cloth without nap or shade." in card["notes"]) is way.turns
        folding = at_table(way, result.draft.pieces, result.ready.tape).folding
        assert card["details"][: len(folding)] == folding, "how it is folded is one tap away"


@pytest.mark.parametrize(("width", "height", "asked"), [(390, 664, True), (844, 390, False), (1280, 800, False)])
def test_the_cloth_is_seen_large_where_it_stands_small_above_the_ways(width: float, height: float, asked: bool) -> None:
    state = demo(act.Go(Place("lay", "g1")))
    typed, _ = order_of(state.garment, state.person)
    order, _ = read_order(typed)
    assert order is not None
    result = make(order, with_ways_out=False)
    answers = (each for each in answering("g1", result, LayQuestion()) if isinstance(each, LaidOut))
    laid = next(each for each in answers if each.ways is not None)
    state = after(state, act.DraftCame(Drafted("g1", typed or {}, result, (), laid=True)), act.LayCame(laid))
    sent: list[Action] = []
    with Renderer().with_context():
        whole = said(ALL["lay"](Scene(state, sent.append, width, height, False, Kept())))
    assert ("See it large" in whole) is asked
    alone = after(state, act.Go(Place("lay", "g1", step=1)))
    drawing = part(alone, "lay-cloth", width, height).kwargs
    assert drawing["width"] == width
    assert drawing["height"] > 0.8 * height
    beside = part(state, "lay-cloth", width, height).kwargs
    assert beside["height"] < drawing["height"] or not asked


@pytest.mark.parametrize(
    ("size", "would", "says"),
    [
        (("165", "90"), "short", "too short for the whole garment. At this width a length of"),
        (("60", "400"), "narrow", "It is too narrow for the whole garment, however long it is."),
    ],
)
def test_a_remnant_that_will_not_do_says_why_and_what_would(size: tuple[str, str], would: str, says: str) -> None:
    width, length = size
    notes = (act.SetCloth("g1", "lay_width", width), act.SetCloth("g1", "lay_length", length))
    state = demo(*notes, act.Go(Place("lay", "g1")))
    typed, _ = order_of(state.garment, state.person)
    order, _ = read_order(typed)
    assert order is not None
    result = make(order, with_ways_out=False)
    question = LayQuestion({"lay_width": width, "lay_length": length})
    answers = (each for each in answering("g1", result, question) if isinstance(each, LaidOut))
    laid = next(each for each in answers if each.in_hand is not None)
    assert laid.in_hand is not None
    told = laid.in_hand.would_do
    assert told is not None
    shown_words = screen(
        after(state, act.DraftCame(Drafted("g1", typed or {}, result, (), laid=True)), act.LayCame(laid))
    )
    line = next(each for each in shown_words if says in each)
    if would == "short":
        assert line.startswith(f"It is {say_length(told.length - float(length) * 10, 'cm')} too short")
        assert line.endswith(f"{say_length(told.length, 'cm')} would do.")
    else:
        assert line.endswith(
            f"A piece {say_length(told.width, 'cm')} wide and {say_length(told.length, 'cm')} long would do."
        )


def test_only_an_ease_may_be_below_zero_on_the_shape_screen() -> None:
    eases = ("ease_bust", "ease_waist", "ease_hip")
    state = demo(*(act.SetStyle("g1", key, "2") for key in (*eases, "hem_girth")))
    fields = Fields(Scene(state, lambda action: None, 390, 664, False, Kept()), state.garment, ())
    with Renderer().with_context():
        drawn = parts_of([fields.controls(field.key) for field in GARMENT.fields])
    signed = {each.kwargs["identifier"]: each.kwargs["signed"] for each in drawn if "signed" in each.kwargs}
    assert {key for key, may in signed.items() if may} == {f"{key}-length" for key in eases}
    assert signed["hem_girth-length"] is False
