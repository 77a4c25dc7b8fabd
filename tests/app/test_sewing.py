"""The sew screen without a browser: what it takes from which draft, what is next, what fades, what a tap sends."""

import json
from pathlib import Path
from typing import Any

import flet as ft
import pytest
from flet.components.component import Renderer

from app import actions as act
from app import saved
from app.actions import Action
from app.screens import ALL
from app.screens.scene import Kept, Scene
from app.sewing import read_sewing, sewing_of
from app.state import Drafted, FrozenDraft, Place, State
from app.typed import order_of, order_text
from drafting.order import Result, glance, make, read_order
from drafting.record.documents import draft_json
from tests.app.test_shown import after, demo, said, screen
from tests.drafting.bodies import BODIES, order

OLDER = Path(__file__).parent / "frozen" / "open_ankle_dress.json"


def drafted(state: State) -> tuple[State, Result]:
    """The demo with its whole draft, at the sewing."""
    typed, _ = order_of(state.garment, state.person)
    read, _ = read_order(typed)
    assert read is not None
    result = make(read, with_ways_out=False)
    came = act.DraftCame(Drafted("g1", typed or {}, result, (), laid=True))
    return after(state, came, act.Go(Place("sew", "g1"))), result


def frozen_of(state: State, result: Result) -> State:
    typed, _ = order_of(state.garment, state.person)
    frozen = FrozenDraft(order_text(typed or {}), draft_json(result).decode())
    return after(state, act.StartChalking("g1"), act.Froze("g1", frozen), act.Go(Place("sew", "g1")))


@pytest.fixture(scope="module")
def ready() -> tuple[State, Result]:
    return drafted(demo())


def named(state: State, sent: list[Action], width: float = 390, height: float = 664) -> dict[str, ft.Semantics]:
    """Every control of the screen that has a name, by it."""
    with Renderer().with_context():
        whole = ALL["sew"](Scene(state, sent.append, width, height, False, Kept()))
    found: dict[str, ft.Semantics] = {}

    def look(control: Any) -> None:
        if isinstance(control, (list, tuple)):
            for each in control:
                look(each)
        elif isinstance(control, ft.Control):
            if isinstance(control, ft.Semantics) and control.identifier:
                assert control.identifier not in found
                found[control.identifier] = control
            for name in ("content", "controls"):
                look(getattr(control, name, None))

    look(whole)
    return found


def test_the_steps_are_the_garments_between_what_is_laid_ready_and_the_clips(ready: tuple[State, Result]) -> None:
    state, result = ready
    told, plan = result.draft.after_cut, result.plan
    assert told is not None
    assert plan is not None
    sewing = sewing_of(state.book.garments[0], None, state.drafted)
    assert sewing is not None
    keys = [item.key for item in sewing.items]
    assert keys[:3] == ["ready", "needle", "stitch"]
    assert [key for key in keys if key.startswith("sew.")] == [f"sew.{step.key}" for step in told.order]
    clips = [step.says for step in plan.steps if step.belongs == "after"]
    assert clips
    at = keys.index("clips")
    assert keys[at - 1] == "sew.underarm", "clips come as soon as the last long seam is sewn"
    assert list(sewing.items[at].lines) == list(dict.fromkeys(clips))
    assert sewing.items[1].lines == (told.needle, told.thread)
    assert sewing.items[2].lines == (told.stitch,)
    assert any(line.startswith("Clear elastic") and line.endswith(" cm") for line in sewing.items[0].lines)
    assert [item.key for item in sewing.items if item.tries_on] == ["sew.underarm"]
    words = screen(state)
    for item in sewing.items:
        assert item.title in words
        assert set(item.lines) <= set(words)
    assert {check.says for check in result.checks if check.result == "caution"} <= set(words)
    assert {row.change for row in told.try_on} <= set(words)


def test_nothing_is_sewn_before_there_is_a_draft_that_may_be_cut(ready: tuple[State, Result]) -> None:
    state, _ = ready
    early = after(demo(), act.Go(Place("sew", "g1")))
    assert "Drafting" in screen(early)
    typed, _ = order_of(state.garment, state.person)
    assert typed is not None
    narrow, _ = read_order(typed | {"style": typed["style"] | {"neck_half_width": "5 cm"}})
    assert narrow is not None
    stopped = make(narrow, with_ways_out=False)
    assert stopped.plan is None
    stop = after(early, act.DraftCame(Drafted("g1", typed, stopped, (), laid=True)))
    assert "The order of sewing comes as soon as the proof lets this garment through." in screen(stop)
    other = after(early, act.DraftCame(Drafted("g1", typed, None, ())))
    assert "The order of sewing comes as soon as the proof lets this garment through." in screen(other)
    assert sewing_of(state.book.garments[0], None, None) is None


def test_a_garment_being_chalked_is_sewn_by_its_frozen_draft(ready: tuple[State, Result]) -> None:
    state, result = ready
    frozen = frozen_of(state, result)
    assert frozen.garment is not None
    changed = after(frozen, act.SetStyle("g1", "neck_opening", "centre_back"))
    there, _ = drafted(changed)
    held = sewing_of(there.book.garments[0], there.frozen["g1"], there.drafted)
    assert held == sewing_of(state.book.garments[0], None, state.drafted), "later changes move no step"
    again, opened = drafted(after(there, act.DraftAgain("g1")))
    assert opened.draft.after_cut is not None
    new = sewing_of(again.book.garments[0], None, again.drafted)
    assert new is not None
    assert "sew.opening" in [item.key for item in new.items]


def test_older_frozen_drafts_are_sewn_too() -> None:
    record = saved.read("frozen.g1", json.loads(OLDER.read_text("utf-8"))["record"])
    assert isinstance(record, FrozenDraft)
    assert "after_cut" not in json.loads(record.draft)
    sewing = read_sewing(record.draft, record.order)
    assert sewing is not None
    read, _ = read_order(json.loads(record.order))
    assert read is not None
    told = glance(read).draft.after_cut
    assert told is not None
    assert [item.lines for item in sewing.items if item.key.startswith("sew.")] == [(step.says,) for step in told.order]
    # One that says how it is sewn, but not yet under which keys: its places are kept instead.
    new = json.loads(draft_json(make(read, with_ways_out=False)))
    for step in new["after_cut"]["order"]:
        del step["key"], step["tries_on"]
    for step in new["chalk"]:
        del step["after_cut"]
    between = read_sewing(json.dumps(new), record.order)
    assert between is not None
    assert [item.key for item in between.items if item.key.startswith("sew.")] == [
        f"sew.{place}" for place in range(len(told.order))
    ]
    assert read_sewing("{}", "{}") is None
    assert read_sewing("7", record.order) is None


def test_lengths_are_said_in_the_unit_of_the_tape() -> None:
    typed = {**order(BODIES["median woman"], {"length": "hip"}), "tape": {"unit": "in", "step": "1/8"}}
    read, _ = read_order(typed)
    assert read is not None
    result = make(read, with_ways_out=False)
    sewing = read_sewing(draft_json(result).decode(), json.dumps(typed))
    assert sewing is not None
    assert any(line.startswith("Clear elastic") and line.endswith(" in") for line in sewing.items[0].lines)


def test_the_next_step_is_large_and_what_is_done_fades(ready: tuple[State, Result]) -> None:
    state, _ = ready
    first = screen(state)
    assert "Step 1 of" in first[first.index("Lay these ready") - 1]
    assert first.count("Lay these ready") == 2, "once large, once in the list"
    ticked = after(state, act.StepSewn("g1", "ready"))
    words = screen(ticked)
    assert words[words.index("Needle and thread") - 1].startswith("Step 2 of")
    later = after(state, act.StepSewn("g1", "needle"))
    assert screen(later).count("Needle and thread") == 1, "ticked out of its order, it is in the list only"
    sewing = sewing_of(state.book.garments[0], None, state.drafted)
    assert sewing is not None
    done = after(state, *(act.StepSewn("g1", item.key) for item in sewing.items))
    assert "Everything is sewn" in screen(done)
    assert f"All {len(sewing.items)} steps are ticked." in screen(done)


def test_a_tap_ticks_and_a_tap_takes_the_tick_away(ready: tuple[State, Result]) -> None:
    sent: list[Action] = []
    state = after(ready[0], act.StepSewn("g1", "ready"))
    rows = named(state, sent)
    assert (rows["tick-ready"].checked, rows["tick-needle"].checked) == (True, False)
    for name in ("tick-ready", "tick-sew-hems"):
        tapped: Any = rows[name].content
        tapped.on_click(None)
    button: Any = rows["sew-done"].content
    button.on_click(None)
    assert sent == [act.StepNotSewn("g1", "ready"), act.StepSewn("g1", "sew.hems"), act.StepSewn("g1", "needle")]


def edges(control: Any) -> list[float]:
    """How thick the edge of the box to tick is, and of all else in a row."""
    if isinstance(control, (list, tuple)):
        return [width for each in control for width in edges(each)]
    found = [control.border.top.width] if isinstance(control, ft.Container) and control.border is not None else []
    inner = [getattr(control, name, None) for name in ("content", "controls")]
    return [*found, *(width for each in inner if each is not None for width in edges(each))]


def test_what_is_done_says_less_and_only_the_next_stands_out(ready: tuple[State, Result]) -> None:
    state, result = ready
    told = result.draft.after_cut
    assert told is not None
    ticked = after(state, act.StepSewn("g1", "ready"), act.StepSewn("g1", "sew.hems"))
    rows = named(ticked, [])
    stand = [name for name, row in rows.items() if name.startswith("tick-") and 2 in edges(row)]
    assert stand == ["tick-needle"]
    assert said(rows["tick-sew-hems"]) == ["Hems"]
    assert said(rows["tick-stitch"]) == ["Stitch, tried on a scrap", told.stitch]


@pytest.mark.parametrize(("width", "height", "beside"), [(390, 664, False), (844, 390, True), (1280, 800, True)])
def test_the_next_step_stands_beside_the_list_where_there_is_room(
    ready: tuple[State, Result], width: float, height: float, beside: bool
) -> None:
    names = list(named(ready[0], [], width, height))
    assert names.index("sew-now") < names.index("tick-ready")
    with Renderer().with_context():
        whole: Any = ALL["sew"](Scene(ready[0], lambda _: None, width, height, False, Kept()))
    scrolled = [names for names in scrolling(whole) if "tick-ready" in names or "sew-now" in names]
    assert ["sew-now" in names and "tick-ready" in names for names in scrolled] == (
        [False, False] if beside else [True]
    )


def scrolling(control: Any) -> list[list[str]]:
    """The names of what is in each part of the page that scrolls."""
    if isinstance(control, (list, tuple)):
        return [names for each in control for names in scrolling(each)]
    if not isinstance(control, ft.Control):
        return []
    if isinstance(control, ft.Column) and control.scroll:
        return [names_in(control)]
    return scrolling([getattr(control, name, None) for name in ("content", "controls")])


def names_in(control: Any) -> list[str]:
    if isinstance(control, (list, tuple)):
        return [name for each in control for name in names_in(each)]
    if not isinstance(control, ft.Control):
        return []
    own = [control.identifier] if isinstance(control, ft.Semantics) and control.identifier else []
    return [*own, *names_in([getattr(control, name, None) for name in ("content", "controls")])]


def test_the_try_on_stands_with_its_step_and_else_below(ready: tuple[State, Result]) -> None:
    state, _ = ready
    sewing = sewing_of(state.book.garments[0], None, state.drafted)
    assert sewing is not None
    before = [item.key for item in sewing.items][: [item.tries_on for item in sewing.items].index(True)]
    now = after(state, *(act.StepSewn("g1", key) for key in before))
    change = sewing.try_on[0].change
    assert change in said(named(now, [])["sew-now"])
    assert screen(now).count(change) == 1
    assert change not in said(named(state, [])["sew-now"])
    assert screen(state).count(change) == 1
