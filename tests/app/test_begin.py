"""The verdict of the proof and the button that goes on from it: they never say two things at once."""

from dataclasses import replace
from typing import Any

import flet as ft
import pytest
from flet.components.component import Renderer

from app import actions as act
from app.actions import Action
from app.parts.hand import Hand
from app.screens import ALL
from app.screens.begin import begin
from app.screens.proof import VERDICT
from app.screens.scene import Kept, Scene
from app.state import LaidOut, LayQuestion, Place, State
from app.text import words
from drafting.layout import length_to_buy
from drafting.order import make, read_order
from drafting.problems import WayOut
from tests.app.test_shown import after, demo, said

FINE = (("width", "170"),)
NARROW = (("width", "90"),)
"""Cloth on which the demo's sleeves do not go in any way, cm."""


def made(screen: str, cloth: tuple[tuple[str, str], ...], *actions: Action) -> State:
    """The demo on some cloth, drafted and laid with its ways out, on the proof or the lay screen."""
    place = Place("lay", "g1") if screen == "lay" else Place("proof", "g1")
    state = demo(*(act.SetCloth("g1", key, text) for key, text in cloth), *actions, act.Go(place))
    assert state.drafted is not None
    order, _ = read_order(state.drafted.typed)
    assert order is not None
    return after(state, act.DraftCame(replace(state.drafted, result=make(order), laid=True, full=True)))


def controls(control: Any) -> list[ft.Control]:
    """Every control within another, this included."""
    found = [control] if isinstance(control, ft.Control) else []
    for name in ("content", "controls"):
        inner = getattr(control, name, None)
        for each in inner if isinstance(inner, list) else [inner]:
            found += controls(each) if each is not None else []
    return found


def foot(state: State, sent: list[Action] | None = None) -> tuple[list[str], dict[str, bool], list[str]]:
    """The words at the foot, its named buttons with whether each can be tapped, and which of them are bright."""
    scene = Scene(state, (sent if sent is not None else []).append, 390, 664, False, Kept())
    assert state.garment is not None
    assert state.drafted is not None
    with Renderer().with_context():
        made_of = begin(scene, state.garment, state.drafted)
    awake: dict[str, bool] = {}
    bright = []
    for each in (one for control in made_of for one in controls(control)):
        if isinstance(each, ft.Semantics) and each.identifier:
            button = next(one for one in controls(each) if isinstance(one, ft.Button | ft.TextButton | ft.FilledButton))
            awake[each.identifier] = not button.disabled
            if isinstance(button, ft.FilledButton) and not button.disabled:
                bright.append(each.identifier)
            if sent is not None and button.on_click is not None:
                button.on_click(None)  # type: ignore[call-arg, arg-type]
    return said(made_of), awake, bright


def page(state: State) -> list[str]:
    with Renderer().with_context():
        return said(ALL[state.place.screen](Scene(state, lambda _: None, 390, 664, False, Kept())))


def stopped(state: State) -> State:
    """The same with its first warning grown to a stop, and no marks."""
    assert state.drafted is not None
    assert state.drafted.result is not None
    result = state.drafted.result
    warned = next(check for check in result.checks if check.result == "warn")
    checks = tuple(replace(each, result="stop") if each is warned else each for each in result.checks)
    return replace(state, drafted=replace(state.drafted, result=replace(result, checks=checks, plan=None)))


VERDICTS = tuple(words(f"proof.{each}") for each in ("pass", "warn", "stop", "no_cloth"))


@pytest.mark.parametrize("screen", ["proof", "lay"])
def test_where_it_fits_the_one_bright_button_begins_chalking_and_says_that_the_draft_stays(screen: str) -> None:
    state = made(screen, FINE)
    sent: list[Action] = []
    assert foot(state, sent) == (
        [words("proof.begin"), words("proof.chalk")],
        {"start-chalking": True},
        ["start-chalking"],
    )
    assert sent == [act.StartChalking("g1")]
    assert words("proof.begin") in page(state)


def test_it_never_can_be_made_and_does_not_go_on_the_cloth_at_once() -> None:
    for cloth, verdict in ((FINE, "pass"), (NARROW, "no_cloth")):
        state = made("proof", cloth)
        assert state.drafted is not None
        assert state.drafted.result is not None
        told = page(state)
        shown = [each for each in told if each in VERDICTS]
        expected = words(f"proof.{'warn' if verdict == 'pass' and state.drafted.result.outcome == 'warn' else verdict}")
        assert shown == [expected]
        assert any(each.startswith("Cloth to buy") for each in told) is (verdict == "pass")


def test_a_way_out_that_is_taken_leads_to_the_verdict() -> None:
    class Moved(Hand):
        """A hand that only tells where the page was moved to."""

        def __init__(self) -> None:
            super().__init__(lambda: None)
            self.to: list[str] = []

        def move_to(self, key: str) -> None:
            self.to.append(key)

    state, sent, hand = made("proof", NARROW), list[Action](), Moved()
    scene = Scene(state, sent.append, 390, 664, False, Kept(), hand=hand)
    with Renderer().with_context():
        whole = ALL["proof"](scene)
    named = (each for each in controls(whole) if isinstance(each, ft.Semantics) and each.identifier)
    way = next(each for each in named if str(each.identifier).startswith("way-"))
    next(each for each in controls(way) if getattr(each, "on_click", None)).on_click(None)
    assert isinstance(sent[0], act.TakeWayOut)
    assert hand.to == [VERDICT]
    (verdict,) = [each for each in controls(whole) if each.key == ft.ScrollKey(VERDICT)]
    assert set(said([verdict])) & set(VERDICTS)


def test_where_it_goes_on_no_cloth_the_bright_button_leads_back_to_the_cloth() -> None:
    state = made("proof", NARROW)
    sent: list[Action] = []
    told, awake, bright = foot(state, sent)
    assert bright == ["mend"]
    assert awake == {"mend": True, "start-chalking": True}
    assert words("proof.mend.cloth") in told
    assert words("proof.chalk") not in told
    assert isinstance(sent[0], act.Go)
    assert sent[0].place.screen == "cloth"
    assert sent[1:] == [act.StartChalking("g1")]


def test_where_something_stops_it_no_button_begins_chalking() -> None:
    state = stopped(made("proof", NARROW))
    sent: list[Action] = []
    told, awake, bright = foot(state, sent)
    assert (awake, bright) == ({"mend": True}, ["mend"])
    assert isinstance(sent[0], act.Go)
    assert state.drafted is not None
    assert state.drafted.result is not None
    stop = next(each for each in state.drafted.result.checks if each.result == "stop")
    by_cloth = bool(stop.ways_out) and stop.ways_out[0].changes[0][0].startswith("cloth.")
    assert sent[0].place.screen == ("cloth" if by_cloth else "shape")
    assert [each for each in page(state) if each in VERDICTS] == [words("proof.stop")]
    assert not any(each.startswith("Cloth to buy") for each in page(state))
    assert told


def test_while_it_is_being_laid_nothing_is_bright_and_nothing_is_judged_yet() -> None:
    state = demo(act.SetCloth("g1", "width", "90"))
    assert state.drafted is not None
    glance = after(state, act.DraftCame(replace(state.drafted, laid=False)))
    told, awake, bright = foot(glance)
    assert (awake, bright) == ({"start-chalking": False}, [])
    assert words("proof.chalk") in told


def test_the_ways_out_stand_first_and_what_is_taken_is_said() -> None:
    state = made("proof", NARROW)
    assert state.drafted is not None
    assert state.drafted.result is not None
    way = next(way for check in state.drafted.result.checks for way in check.ways_out)
    told = page(state)
    warned = [check for check in state.drafted.result.checks if check.result in ("stop", "warn")]
    places = [told.index(check.says) for check in sorted(warned, key=lambda each: not each.ways_out)]
    assert places == sorted(places)
    taken = after(state, act.TakeWayOut("g1", way.changes, way.does))
    assert taken.notice is not None
    assert way.does in taken.notice.words


def test_what_is_stopped_asks_for_no_cloth_though_it_could_be_laid_and_ways_out_come_before_bare_warnings() -> None:
    state = made("proof", FINE)
    assert state.drafted is not None
    result = state.drafted.result
    assert result is not None
    assert result.layout is not None
    bare = replace(result.checks[0], result="warn", says="A bare warning.", ways_out=())
    way = replace(
        bare, says="One with a way out.", ways_out=(WayOut("Do this.", (("style.fit", "loose"),), "Do this."),)
    )
    warned = replace(state, drafted=replace(state.drafted, result=replace(result, checks=(bare, way))))
    told = page(warned)
    assert told.index("One with a way out.") < told.index("A bare warning.")
    buys = [sum(each.startswith("Cloth to buy") for each in words_of) for words_of in (told, page(stopped(warned)))]
    assert buys[0] > buys[1] == 0, "not even the drawing is described by it"


def test_a_way_out_is_a_short_button_and_what_follows_from_it_stands_under_it() -> None:
    state = made("proof", NARROW)
    assert state.drafted is not None
    assert state.drafted.result is not None
    ways = [way for check in state.drafted.result.checks for way in check.ways_out]
    longer = [way for way in ways if way.says != way.does]
    assert longer
    told = page(state)
    for way in ways:
        assert way.does in told
    for way in longer:
        assert way.says not in told
        follows = told[told.index(way.does) + 1]
        assert f"{way.does} {follows}" == way.says


def test_for_what_is_stopped_the_lay_says_that_no_cloth_is_bought_yet() -> None:
    state = made("lay", FINE)
    assert state.drafted is not None
    made_of = state.drafted.result
    assert made_of is not None
    for wrong in (False, True):
        checks = (replace(made_of.checks[0], result="stop"), *made_of.checks[1:])
        result = replace(made_of, checks=checks, plan=None) if wrong else made_of
        now = replace(state, drafted=replace(state.drafted, result=result))
        bought = length_to_buy(result.layout, result.ready.cloth, "cm") if result.layout is not None else None
        laid = LaidOut("g1", result, LayQuestion(), result.draft.pieces, result.ready.cloth, buy=bought)
        told = page(replace(now, laid=laid))
        assert (words("lay.buy.stopped") in told) is wrong
        assert any("160 cm wide" in each or "170 cm wide" in each for each in told) is not wrong


@pytest.mark.parametrize("cloth", [NARROW, FINE])
def test_what_the_verdict_speaks_of_stands_first(cloth: tuple[tuple[str, str], ...]) -> None:
    """Where the pieces do not go on the cloth, that comes before what might only be better; a stop before both."""
    state = made("proof", cloth)
    assert state.drafted is not None
    result = state.drafted.result
    assert result is not None
    help_ = (WayOut("Otherwise.", (("sleeve_length", "elbow"),)),)
    other = replace(next(each for each in result.checks if each.result == "pass"), result="warn", ways_out=help_)
    narrow = replace(other, says="It is narrow.", ways_out=(WayOut("Wider.", (("cloth.width", "180"),)), *help_))
    first = replace(other, says="It rides up.")
    stop = replace(other, says="It stops.", result="stop")
    for checks, expected in (
        ((first, narrow), ("narrow", "rides") if cloth is NARROW else ("rides", "narrow")),
        ((narrow, first), ("narrow", "rides")),
        ((narrow, stop), ("stops", "narrow")),
    ):
        seen = replace(state, drafted=replace(state.drafted, result=replace(result, checks=checks)))
        told = [each for each in page(seen) if each in {check.says for check in checks}]
        assert [each.split()[-1].rstrip(".") if "up" not in each else "rides" for each in told] == list(expected)
