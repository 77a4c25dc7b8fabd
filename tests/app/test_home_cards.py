"""The cards of the first page: a picture of every garment, and copy and delete behind a button of their own."""

from dataclasses import replace
from typing import Any

import flet as ft
import flet.canvas as cv
import pytest
from flet.components.component import Renderer

from app import actions as act
from app.actions import Action
from app.other_garment import made_as
from app.parts.cards import _with_more
from app.pictured import NEAR, picture_of, picture_text
from app.screens.home import home
from app.screens.scene import Kept, Scene
from app.state import Book, GarmentRecord, PersonRecord, Place, State
from app.text import words
from app.update_garment import chalking_of
from tests.app.another_garment import NAME, alone, two  # noqa: F401 - fixtures
from tests.app.first_garment import PRESETS
from tests.app.test_shown import DEMO, after, being_chalked, demo, parts_of, said, screen
from tests.app.test_trade_words import every


def cards(state: State, sent: list[Action] | None = None) -> list[Any]:
    """What the cards with a button for more are made of."""
    scene = Scene(state, (sent if sent is not None else []).append, 390, 664, False, Kept())
    with Renderer().with_context():
        return [each for each in parts_of(home(scene)) if each.fn is _with_more.__wrapped__]


def opened(card: Any) -> list[Any]:
    """Everything in a card whose button for more was tapped."""
    with Renderer().with_context():
        card.before_update()
        card._state.hooks[0].value = True  # as the tap does
        card.before_update()
    return every(card._b)


def both() -> State:
    """The demo garment with a copy of it, and its person with another, seen from home."""
    return after(demo(), act.CopyGarment("g1"), act.CopyPerson("p2"), act.Go(Place()))


def test_copy_and_delete_stand_behind_a_button_that_names_what_it_is_for() -> None:
    names, doing = [], []
    sent: list[Action] = []
    for card in cards(both(), sent):
        with Renderer().with_context():
            card.before_update()
        closed = every(card._b)
        assert not {"Copy", "Delete"} & {each.value for each in closed if isinstance(each, ft.Text)}
        names += [each.label for each in closed if isinstance(each, ft.Semantics) and each.label]
        for each in opened(card):
            if isinstance(each, ft.Text) and each.value in ("Copy", "Delete"):
                names.append(each.semantics_label or "")
        doing += [each for each in every(card._b) if isinstance(each, ft.TextButton)]
    assert names[:3] == [
        "More for Ferry pullover, copy", "Copy Ferry pullover, copy", "Delete Ferry pullover, copy",
    ]  # fmt: skip
    assert "More for Ferry pullover" in names
    assert "Delete Ilse, copy" in names
    assert len(names) == len(set(names)) == 12, "no two are read out alike"
    for button in doing:
        button.on_click(None)
    kinds = [type(each).__name__ for each in sent]
    assert kinds.count("DeleteGarment") == kinds.count("CopyGarment") == 2
    assert [each.garment for each in sent if isinstance(each, act.DeleteGarment)] == ["g3", "g1"]


def drawn(state: State) -> list[int]:
    """How many shapes the picture of each garment has."""
    found = []
    for card in cards(state)[: len(state.book.garments)]:
        held = [each for part in card.args for each in every(part)]
        held = [each for one in held for each in [one, *(every(one.content) if isinstance(one, ft.TextButton) else [])]]
        found.append(
            max((len(each.shapes) for each in held if isinstance(each, cv.Canvas) and each.width == 72), default=0)
        )
    return found


def test_every_garment_has_a_picture_as_soon_as_there_is_one() -> None:
    left = after(demo(), act.Go(Place()))
    assert drawn(left) == [2], "the outline it was last seen with"
    assert left.book.pictures.keys() == {"g1"}
    assert drawn(after(left, act.CopyGarment("g1"))) == [2, 2]
    plain = Book(people=(PersonRecord("p1", "Runa"),), garments=(GarmentRecord("g1", person="p1"),))
    tunic = replace(plain, garments=(replace(plain.garments[0], style=dict(PRESETS["tunic"])),))
    assert drawn(replace(left, book=tunic)) == [2]
    assert drawn(after(being_chalked(), act.Go(Place()))) == [3], "chalked on cloth, on the fold"


PLAIN = Book(people=(PersonRecord("p1", "Runa"),), garments=(GarmentRecord("g1", person="p1"),))


@pytest.mark.usefixtures("alone")
def test_where_there_is_one_garment_a_tape_stands_for_measures_to_come() -> None:
    assert drawn(State(book=PLAIN, loaded=True)) == [0]


@pytest.mark.usefixtures("two")
def test_where_there_are_several_the_picture_shows_which_it_is() -> None:
    made = replace(PLAIN, garments=(made_as(PLAIN.garments[0], NAME), *PLAIN.garments))
    assert drawn(State(book=made, loaded=True)) == [2, 2]


def test_a_picture_is_kept_when_the_garment_is_left_and_no_longer_than_the_garment() -> None:
    state = demo()
    assert state.book.pictures == {}
    assert after(state, act.Go(Place("cloth", "g1"))).book.pictures == {}, "only home shows it"
    left = after(state, act.Routed("/"))
    result = state.drafted.result if state.drafted else None
    assert result is not None
    assert result.draft.worn is not None
    seen = picture_of(left.book.pictures["g1"])
    wide = max(place.x for place in result.draft.worn.outline)
    assert abs(max(x for x, _ in seen) - wide) <= NEAR
    assert abs(min(x for x, _ in seen) + wide) <= NEAR
    assert abs(min(y for _, y in seen) - min(place.y for place in result.draft.worn.outline)) <= NEAR
    assert abs(max(y for _, y in seen) - max(place.y for place in result.draft.worn.outline)) <= NEAR
    assert picture_text(result.draft.worn) == left.book.pictures["g1"]
    other = after(left, act.DeleteGarment("g1"), act.CloseNotice())
    later = replace(other, book=replace(other.book, pictures={**other.book.pictures, "g9": "0,0"}))
    again = after(later, act.AddDemo(DEMO), act.DraftCame(replace(state.drafted, garment="g3")), act.Go(Place()))  # type: ignore[type-var]
    assert set(again.book.pictures) == {"g3"}


def test_a_damaged_picture_is_none() -> None:
    assert picture_of("") == ()
    assert picture_of("1,2 3") == ()
    assert picture_of("1,2 3,4") == ((1.0, 2.0), (3.0, 4.0))


def test_what_is_done_is_counted_in_the_same_steps() -> None:
    state = being_chalked()
    assert state.garment is not None
    assert state.garment.chalk_done == ()
    done = after(state, act.MarkDone("g1", state.garment.chalk_at or items(state)[0]), act.Go(Place()))
    with Renderer().with_context():
        words = said(home(Scene(done, lambda _: None, 390, 664, False, Kept())))
    assert "1 of 54 steps done" in words
    assert "Go on: step 2 of 54" in words
    half = replace(state.garment, chalk_done=tuple(items(state)[:27]))
    (card,) = cards(after(replace(state, book=replace(state.book, garments=(half,), people=())), act.Go(Place())))
    face = next(each for part in card.args for each in every(part) if isinstance(each, ft.TextButton))
    bar = [each.expand for each in every(face.content) if isinstance(each, ft.Container) and each.height == 4]
    assert bar == [50, 50], "half of it is done"


def items(state: State) -> list[str]:
    """The keys of what is chalked, in their order."""
    assert state.garment is not None
    chalking = chalking_of(state, state.garment)
    assert chalking is not None
    return [item.key for item in chalking.items]


def test_a_person_without_a_name_is_spoken_of_in_whole_sentences() -> None:
    for name, whose, title in (
        ("Ilse", "For Ilse", "Measures of Ilse"),
        ("  ", "For a person without a name", "All measures"),
    ):
        state = after(demo(), act.TypeName("p2", name), act.Go(Place()))
        card = cards(state)[0]
        with Renderer().with_context():
            card.before_update()
        assert whose in {each.value for each in every(card._b) if isinstance(each, ft.Text)}
        listed = after(state, act.SetMeasuring("list", 1), act.Go(Place("person", "g1", step=1)))
        assert title in screen(listed)


@pytest.mark.parametrize(("width", "height", "beside"), [(390, 664, False), (844, 390, True), (1280, 800, False)])
def test_on_a_low_page_the_first_word_stands_beside_the_drawing(width: int, height: int, beside: bool) -> None:
    state = State(loaded=True)
    with Renderer().with_context():
        whole = home(Scene(state, lambda _: None, width, height, False, Kept()))
    rows = [row for row in every(whole) if isinstance(row, ft.Row) and isinstance(row.controls[0], cv.Canvas)]
    written = words("home.welcome").replace("\u00a0", " ")
    assert written in said(whole)
    assert any(written in said(row) for row in rows) is beside
