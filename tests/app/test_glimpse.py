"""What the next start shows before the engine: only what is saved, with the revisions it was saved with."""

import json
from dataclasses import replace
from typing import Any

import pytest

from app import actions as act
from app.glimpse import MOST, glimpse_of
from app.saved import PERSON
from app.state import Place, State, Trouble
from app.storage import MemoryStore
from app.theme import look_for
from app.update_garment import END, chalking_of, item_at
from tests.app.records import texts
from tests.app.session import Tab, fill, run
from tests.app.test_shown import after, being_chalked

CLOTH, PAPER = look_for("cloth"), look_for("paper")


@pytest.fixture(scope="module")
def chalked() -> State:
    """The demo at a mark, its steps before ticked off."""
    state = being_chalked()
    while True:
        assert state.garment is not None
        chalking = chalking_of(state, state.garment)
        assert chalking is not None
        item = chalking.items[chalking.index(item_at(state.garment, chalking))]
        if item.kind == "mark":
            return state
        state = after(state, act.MarkDone("g1", item.key))


def revisions(state: State) -> dict[str, int]:
    """Some revision for each record of a state."""
    return {key: 3 + len(key) for key in texts(state)}


def glimpse(state: State, of: dict[str, int] | None = None) -> dict[str, Any] | None:
    """The glimpse of a state whose records are all saved."""
    text = glimpse_of(state, revisions(state) if of is None else of, CLOTH, PAPER)
    return json.loads(text) if text else None


def test_the_mark_being_chalked_is_shown_with_its_readings(chalked: State) -> None:
    assert chalked.garment is not None
    chalking = chalking_of(chalked, chalked.garment)
    assert chalking is not None
    at = chalking.index(item_at(chalked.garment, chalking))
    item, found = chalking.items[at], glimpse(chalked)
    assert found is not None
    assert found["lines"] == [f"Mark {item.number}: {item.says}"]
    assert [value for _, value in found["readings"]] == [value for _, value in item.pairs]
    assert [label for label, _ in found["readings"]] == ["Across", "Down"]
    assert found["unit"] == chalking.unit
    assert found["title"].endswith(f"{at + 1} of {len(chalking.items)}")
    assert found["route"] == "/garment/g1/chalk"
    known = revisions(chalked)
    assert found["of"] == {key: known[key] for key in ("garment.g1", "frozen.g1")}
    assert (found["ground"], found["ink"]) == (CLOTH.ground, CLOTH.ink)
    assert (found["soft"], found["accent"]) == (CLOTH.soft, CLOTH.accent)


@pytest.mark.parametrize("key", ["garment.g1", "frozen.g1"])
def test_nothing_is_shown_of_what_is_not_saved(chalked: State, key: str) -> None:
    assert glimpse(chalked, {each: 1 for each in texts(chalked) if each != key}) is None


def test_nothing_is_shown_where_there_is_no_mark(chalked: State) -> None:
    garment = chalked.garment
    assert garment is not None
    ended = after(chalked, act.ChalkAt("g1", END)) if garment.chalk_at != END else chalked
    assert glimpse(after(chalked, act.Go(Place("chalk", "g1", step=1)))) is None
    assert glimpse(after(chalked, act.Go(Place("shape", "g1")))) is None
    for other in (
        replace(chalked, locked=True),
        replace(chalked, loaded=False),
        replace(chalked, trouble=Trouble("")),
        replace(chalked, frozen={}),
        replace(ended, book=replace(ended.book, garments=(replace(garment, chalk_at=END),))),
    ):
        assert glimpse(other) is None


def test_home_names_what_is_being_chalked(chalked: State) -> None:
    home = after(chalked, act.Go(Place()))
    found = glimpse(home)
    assert found is not None
    assert found["title"] == "Being chalked"
    assert len(found["lines"]) == 1
    assert "readings" not in found
    assert set(found["of"]) == {"garment.g1", PERSON + home.book.people[0].id}
    assert (found["ground"], found["ink"]) == (PAPER.ground, PAPER.ink)
    (garment,) = home.book.garments
    many = tuple(replace(garment, id=f"g{number}") for number in range(MOST + 2))
    several = glimpse(replace(home, book=replace(home.book, garments=many)))
    assert several is not None
    assert len(several["lines"]) == MOST
    assert glimpse(replace(home, book=replace(home.book, garments=(replace(garment, chalking=False),)))) is None
    assert glimpse(State(loaded=True)) is None


def test_it_is_told_once_all_is_saved_with_the_revisions_of_the_store(chalked: State) -> None:
    told: list[dict[str, int]] = []

    async def work() -> None:
        store = MemoryStore()
        await fill(store, texts(chalked))
        tab = await Tab(store).open("/garment/g1/chalk")
        tab.effects.on_kept = lambda found: told.append(dict(found))
        garment = tab.state.garment
        assert garment is not None
        chalking = chalking_of(tab.state, garment)
        assert chalking is not None
        tab.put(act.MarkDone("g1", item_at(garment, chalking)))
        assert not told, "it is not saved yet"
        await tab.quiet()
        saved = await store.load("garment.g1")
        assert told
        assert told[-1]["garment.g1"] == saved.revision == 2  # type: ignore[union-attr]

    run(work())


def test_at_the_end_nothing_is_left_to_show_even_where_a_mark_comes_first(
    chalked: State, monkeypatch: pytest.MonkeyPatch
) -> None:
    garment = chalked.garment
    assert garment is not None
    chalking = chalking_of(chalked, garment)
    assert chalking is not None
    at = chalking.index(item_at(garment, chalking))
    monkeypatch.setattr("app.glimpse.chalking_of", lambda *_: replace(chalking, items=chalking.items[at:]))
    assert glimpse(chalked) is not None
    ended = replace(garment, chalk_at=END)
    assert glimpse(replace(chalked, book=replace(chalked.book, garments=(ended,)))) is None
