"""The paper screen and what becomes of a file: printed, saved or shared, and saved where the browser does neither."""

import asyncio
import json
from dataclasses import replace
from typing import Any

import flet as ft
import pytest
from flet.components.component import Renderer

from app import actions as act
from app import asks
from app import effects as app_effects
from app.actions import Action
from app.backup import Backup, reading, writing
from app.effects import Effects
from app.main import Desk
from app.saved import FROZEN, read, text_of
from app.screens import ALL
from app.screens.scene import Kept, Scene
from app.state import Drafted, Installs, Place, State
from app.storage import MemoryStore
from app.text import words
from app.typed import order_of
from drafting.order import make, read_order
from drafting.record import documents
from drafting.record.documents import CODE_SAYS, CODE_SAYS_LESS
from drafting.record.packed import packed
from drafting.stepwise import finished
from tests.app.test_shown import after, demo, parts_of
from tests.drafting.pdf_reading import words_of


class Paper:
    """A device that prints and shares, or does not, and keeps what it was handed."""

    def __init__(self, prints: bool = False, shares: bool | None = False, code: str | None = None) -> None:
        self.prints, self.shares, self.code = prints, shares, code
        self.handed: list[tuple[str, str, bytes]] = []

    async def go(self, route: str) -> None:
        raise AssertionError(route)

    async def offer(self, name: str, content: bytes) -> None:
        self.handed.append(("save", name, content))

    async def print_file(self, name: str, content: bytes) -> bool:
        self.handed.append(("print", name, content))
        return self.prints

    async def share(self, name: str, content: bytes) -> bool | None:
        self.handed.append(("share", name, content))
        return self.shares

    async def installs(self, *, now: bool) -> Installs:
        self.handed.append(("install", str(now), b""))
        return "no" if now else "asks"

    async def read_picture(self, content: bytes) -> str | None:
        return self.code

    async def read_camera(self) -> str | None:
        return self.code


@pytest.mark.parametrize(
    ("way", "device", "came", "ways"),
    [
        ("save", Paper(), "saved", ["save"]),
        ("print", Paper(prints=True), "printing", ["print"]),
        ("print", Paper(prints=False), "saved_to_print", ["print", "save"]),
        ("share", Paper(shares=True), "shared", ["share"]),
        ("share", Paper(shares=None), "kept", ["share"]),
        ("share", Paper(shares=False), "saved_to_share", ["share", "save"]),
    ],
)
def test_what_the_browser_does_not_do_is_saved(way: act.Way, device: Paper, came: act.Came, ways: list[str]) -> None:
    state, sent = demo(), list[Action]()

    async def ask() -> None:
        effects = Effects(MemoryStore(), device, lambda: state, sent.append)
        effects.do(asks.MakeFile("g1", "order.json", way))
        for _ in range(200):
            await asyncio.sleep(0.01)
            if sent:
                return

    asyncio.run(ask())
    assert sent == [act.FileOffered("order.json", came)]
    assert [each[0] for each in device.handed] == ways
    assert {each[1:] for each in device.handed} == {("order.json", device.handed[0][2])}
    assert b'"person"' in device.handed[0][2]


def at_paper(*, chalked: bool = True) -> State:
    state = demo(act.Go(Place("paper", "g1")))
    typed, _ = order_of(state.garment, state.person)
    read, _ = read_order(typed)
    assert read is not None
    if not chalked:
        return state
    result = make(read, with_ways_out=False)
    return after(state, act.DraftCame(Drafted("g1", typed or {}, result, (), laid=True)))


def buttons(state: State, sent: list[Action]) -> dict[str, Any]:
    """The buttons of the page in their order, by their names; those that are folded away too."""
    with Renderer().with_context():
        whole = ALL["paper"](Scene(state, sent.append, 390, 664, False, Kept()))
    found: dict[str, Any] = {}

    def look(control: Any) -> None:
        if isinstance(control, (list, tuple)):
            for each in control:
                look(each)
        elif isinstance(control, ft.Control):
            if isinstance(control, ft.Semantics) and control.identifier and hasattr(control.content, "on_click"):
                found[control.identifier] = control.content
            for name in ("content", "controls"):
                look(getattr(control, name, None))
        elif hasattr(control, "args"):
            look([*control.args, *control.kwargs.values()])

    look(whole)
    return found


def test_a_paper_is_printed_saved_or_shared_in_that_order_and_files_are_folded_away() -> None:
    sent: list[Action] = []
    state = at_paper()
    found = buttons(state, sent)
    order = [name for name in found if name.split("-")[0] in ("print", "save", "share")]
    assert order == [
        "print-chalk-sheet-pdf", "save-chalk-sheet-pdf", "share-chalk-sheet-pdf",
        "print-pattern-pdf", "save-pattern-pdf", "share-pattern-pdf",
        "save-pattern-svg", "save-cloth-svg", "save-order-json", "save-draft-json",
    ]  # fmt: skip
    for name in ("print-pattern-pdf", "share-chalk-sheet-pdf", "save-draft-json", "next"):
        found[name].on_click(None)
    assert sent == [
        act.AskFile("g1", "pattern.pdf", "print"), act.AskFile("g1", "chalk-sheet.pdf", "share"),
        act.AskFile("g1", "draft.json"), act.Go(Place("sew", "g1")),
    ]  # fmt: skip
    with Renderer().with_context():
        whole = ALL["paper"](Scene(state, sent.append, 390, 664, False, Kept()))
    folds = [each for each in parts_of(whole) if "paper-files" in each.args]
    assert len(folds) == 1
    inside = [each.identifier for each in _named(folds[0].args)]
    assert [name for name in inside if name.startswith("save-")] == order[6:]


def _named(control: Any) -> list[ft.Semantics]:
    if isinstance(control, (list, tuple)):
        return [found for each in control for found in _named(each)]
    if not isinstance(control, ft.Control):
        return []
    own = [control] if isinstance(control, ft.Semantics) and control.identifier else []
    return own + _named([getattr(control, name, None) for name in ("content", "controls")])


def test_nothing_is_printed_before_the_draft_may_be_cut() -> None:
    found = buttons(at_paper(chalked=False), [])
    asleep = [name for name, button in found.items() if button.disabled]
    assert "print-chalk-sheet-pdf" in asleep
    assert "next" in asleep
    assert "save-order-json" not in asleep, "what was typed can be saved at any time"


@pytest.mark.parametrize(
    ("status", "shared"),
    [
        (ft.ShareResultStatus.SUCCESS, True),
        (ft.ShareResultStatus.DISMISSED, None),
        (ft.ShareResultStatus.UNAVAILABLE, False),
        (RuntimeError("no such list"), False),
    ],
)
def test_sharing_says_whether_the_file_was_taken(status: Any, shared: bool | None) -> None:
    given: list[ft.ShareFile] = []

    class Client:
        async def share_files(self, files: list[ft.ShareFile], **how: bool) -> ft.ShareResult:
            assert how == {"download_fallback_enabled": False, "mail_to_fallback_enabled": False}
            given.extend(files)
            if isinstance(status, Exception):
                raise status
            return ft.ShareResult(status, "")

    desk = object.__new__(Desk)
    desk._share = Client()  # type: ignore[assignment]
    assert asyncio.run(desk.share("pattern.pdf", b"%PDF")) is shared
    assert (given[0].name, given[0].data, given[0].mime_type) == ("pattern.pdf", b"%PDF", "application/pdf")


def test_a_server_has_no_page_to_print_in() -> None:
    desk = object.__new__(Desk)
    assert asyncio.run(desk.print_file("pattern.pdf", b"%PDF")) is False


PAPERS = ("chalk-sheet.pdf", "pattern.pdf", "pattern.svg", "cloth.svg")


def handed(state: State, ask: asks.Ask) -> tuple[list[Action], list[tuple[str, str, bytes]]]:
    """What the effects send and hand over."""
    sent, device = list[Action](), Paper()

    async def job() -> None:
        effects = Effects(MemoryStore(), device, lambda: state, sent.append)
        effects.do(ask)
        while effects._tasks:
            await asyncio.gather(*effects._tasks)

    asyncio.run(job())
    return sent, device.handed


@pytest.fixture(scope="module")
def begun() -> tuple[State, dict[str, bytes]]:
    """A garment whose chalking has begun, as it is read back from its records, and the papers it was begun with."""
    state = demo(act.Go(Place("chalk", "g1")))
    sent, _ = handed(state, asks.Freeze("g1"))
    (froze,) = sent
    assert isinstance(froze, act.Froze)
    kept = read(FROZEN + "g1", text_of(froze.frozen))
    assert kept == froze.frozen
    assert froze.frozen.papers
    garments = tuple(replace(each, chalking=True) for each in state.book.garments)
    order, _ = read_order(json.loads(froze.frozen.order))
    assert order is not None
    made = documents.documents(make(order), "A4")
    return replace(state, book=replace(state.book, garments=garments), frozen={"g1": froze.frozen}), made


def otherwise(*_: Any, **__: Any) -> Any:
    raise AssertionError("it was drafted anew")


@pytest.mark.parametrize("name", PAPERS)
def test_papers_of_what_is_chalked_are_made_from_what_was_frozen(
    name: str, begun: tuple[State, dict[str, bytes]], monkeypatch: pytest.MonkeyPatch
) -> None:
    """As after an update whose rules are others, or which has that garment no more: nothing is drafted for them."""
    state, papers = begun
    for each in ("making", "read_order", "glance"):
        monkeypatch.setattr(app_effects, each, otherwise)
    sent, came = handed(state, asks.MakeFile("g1", name))
    assert sent == [act.FileOffered(name, "saved")]
    assert came == [("save", name, papers[name])]


def test_its_sheet_holds_the_measures_where_that_is_chosen_later(
    begun: tuple[State, dict[str, bytes]], monkeypatch: pytest.MonkeyPatch
) -> None:
    state, papers = begun
    monkeypatch.setattr(app_effects, "making", otherwise)
    chosen = tuple(replace(each, sheet_measures=True) for each in state.book.garments)
    _, came = handed(replace(state, book=replace(state.book, garments=chosen)), asks.MakeFile("g1", PAPERS[0]))
    assert CODE_SAYS[0] in words_of(came[0][2])
    assert CODE_SAYS_LESS[0] in words_of(papers[PAPERS[0]])


@pytest.mark.parametrize("papers", ["", "x", packed("{}")])
def test_without_what_was_kept_they_are_drafted_and_given_where_the_marks_are_the_same(
    papers: str, begun: tuple[State, dict[str, bytes]]
) -> None:
    state, made = begun
    frozen = replace(state.frozen["g1"], papers=papers)
    _, came = handed(replace(state, frozen={"g1": frozen}), asks.MakeFile("g1", "pattern.svg"))
    assert [each[2] for each in came] == [made["pattern.svg"]]
    draft = json.loads(frozen.draft)
    draft["pieces"][0]["marks"][1]["x"] += 0.5
    other = replace(frozen, draft=json.dumps(draft))
    sent, came = handed(replace(state, frozen={"g1": other}), asks.MakeFile("g1", "pattern.svg"))
    assert sent == [act.FileFailed(words("paper.otherwise"))]
    assert came == []


def test_a_backup_brings_what_the_papers_are_made_of(begun: tuple[State, dict[str, bytes]]) -> None:
    state, _ = begun
    text = finished(writing(state.book, state.frozen)).text
    back = finished(reading(text.encode()))
    assert isinstance(back, Backup)
    assert back.frozen == state.frozen
