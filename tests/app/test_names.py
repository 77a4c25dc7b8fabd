"""What a garment without a typed name is called, and what its card says comes next."""

from dataclasses import replace

from flet.components.component import Renderer

from app import actions as act
from app.names import copy_name, garment_name
from app.screens import ALL
from app.screens.home import _about, next_words
from app.screens.scene import Kept, Scene
from app.state import Book, GarmentRecord, PersonRecord, Place, State
from app.text import words
from app.update import start
from app.update_garment import END, chalking_of
from tests.app.first_garment import NAMED, PRESETS
from tests.app.records import loaded
from tests.app.test_shown import after, being_chalked, demo, parts_of, said

RUNA = PersonRecord("p1", "Runa")


def test_a_garment_is_called_by_what_it_is_and_for_whom_and_never_as_another() -> None:
    first, second = GarmentRecord("g1", person="p1"), GarmentRecord("g2", person="p1")
    typed = GarmentRecord("g3", " Market day ", "p1")
    tunic = GarmentRecord("g4", person="p1", style=dict(PRESETS["tunic"]))
    alone = GarmentRecord("g5")
    book = Book(people=(RUNA,), garments=(alone, tunic, typed, second, first))
    names = [garment_name(book, each) for each in (first, second, typed, tunic, alone)]
    assert names == ["Garment for Runa", "Garment for Runa 2", "Market day", "Tunic for Runa", "Garment"]
    for preset in PRESETS:
        one = replace(first, style=dict(PRESETS[preset]))
        assert garment_name(Book(people=(RUNA,), garments=(one,)), one) == f"{NAMED[preset]} for Runa"
    clash = replace(typed, title="Garment for Runa")
    book = replace(book, garments=(second, first, clash))
    assert [garment_name(book, each) for each in book.garments] == [
        "Garment for Runa 3", "Garment for Runa 2", "Garment for Runa",
    ]  # fmt: skip


def test_a_copy_and_what_is_said_when_it_is_deleted_carry_the_name() -> None:
    state = replace(start("/")[0], book=Book(people=(RUNA,), garments=(GarmentRecord("g1", person="p1"),), next=2))
    copied = after(state, act.CopyGarment("g1"))
    assert copied.book.garments[0].title == "Garment for Runa, copy"
    more = after(copied, act.CopyGarment("g1"), act.CopyGarment(copied.book.garments[0].id))
    assert [each.title for each in more.book.garments] == [
        "Garment for Runa, copy 3", "Garment for Runa, copy 2", "Garment for Runa, copy", "",
    ]  # fmt: skip
    people = after(more, act.CopyPerson("p1"), act.CopyPerson("p1")).book.people
    assert [each.name for each in people] == ["Runa", "Runa, copy", "Runa, copy 2"]
    assert copy_name("Blue, copy of hers", {"Blue, copy of hers"}) == "Blue, copy of hers, copy"
    gone = after(state, act.DeleteGarment("g1"))
    assert gone.notice is not None
    assert gone.notice.words == "Garment for Runa is deleted."


def told(state: State) -> str:
    return next_words(state, state.book.garments[0])


def test_a_card_says_where_the_chalking_goes_on() -> None:
    state = being_chalked()
    garment = state.book.garments[0]
    chalking = chalking_of(state, garment)
    assert chalking is not None
    count = len(chalking.items)
    for at in (0, 8, count - 1):
        item = chalking.items[at]
        told = next_words(state, replace(garment, chalk_at=item.key))
        assert told == f"Go on: {f'mark {item.number}, ' if item.kind == 'mark' else ''}step {at + 1} of {count}"
        shown = after(state, *(act.ChalkAt("g1", item.key),))
        with Renderer().with_context():
            titles = said(ALL["chalk"](Scene(shown, lambda _: None, 390, 664, False, Kept())))
        piece = chalking.pieces[item.piece].label.capitalize()
        assert f"{piece} · {at + 1} of {count}" in titles, "the chalk screen counts alike"
    assert {chalking.items[at].kind == "mark" for at in (0, 8, count - 1)} == {True, False}
    assert next_words(state, replace(garment, chalk_at=END)) == "Everything is chalked"


def test_a_card_says_the_next_step_of_a_garment_that_is_not_chalked() -> None:
    state = demo()
    garment = state.book.garments[0]
    assert told(state) == "Next: the proof"
    for key in ("width", "stretch_across", "stretch_along"):
        assert next_words(state, replace(garment, cloth=garment.cloth | {key: " "})) == "Next: the shape and the cloth"
    assert next_words(state, replace(garment, person="")) == "Next: who it is for"


def test_the_settings_stand_folded_in_their_own_corner_at_the_end() -> None:
    for network, outside in ((False, []), (True, [words("home.network")])):
        scene = Scene(demo(act.Go(Place())), lambda _: None, 390, 664, False, Kept(), open_network=network)
        with Renderer().with_context():
            *before, fold = _about(scene)
        assert said(before) == outside
        inner = parts_of(fold)[0]
        assert inner.args[1] == "settings"
        assert inner.args[5] is False
        assert (words("home.kept") in said(fold)) is not network
        assert words("home.light") in said(fold)


def test_somebody_without_a_name_is_never_named_in_a_sentence() -> None:
    for typed, named in (("", False), ("  ", False), (" Runa ", True)):
        person, one = replace(RUNA, name=typed), GarmentRecord("g1", title="Tunic", person="p1")
        opened = after(start("/")[0], loaded())
        state = replace(opened, book=Book(people=(person,), garments=(one,), next=2))
        deleted = after(state, act.DeletePerson("p1")).notice
        assert deleted is not None
        assert deleted.words == ("Runa is deleted." if named else "A person without a name is deleted.")
        at_home = titles(after(state, act.Go(Place())))
        assert ("For Runa" if named else "For a person without a name") in at_home
        place = Place("person", person="p1", step=1)
        asked = after(state, act.SetMeasuring("one", 1), act.Go(place))
        listed = after(state, act.SetMeasuring("list", 1), act.Go(place))
        assert (f"{'Runa' if named else 'No name yet'} · 1 of 13") in titles(asked)
        assert ("Measures of Runa" if named else "All measures") in titles(listed)
        free = replace(state, book=replace(state.book, garments=(replace(one, person=""),)))
        choosing = titles(after(free, act.Go(Place("person", "g1"))))
        assert ("Runa" if named else "No name yet") in [each.strip() for each in choosing]
        assert " Runa " not in choosing


def titles(state: State) -> list[str]:
    """The words of the screen that a state is at."""
    scene = Scene(state, lambda _: None, 390, 664, False, Kept())
    with Renderer().with_context():
        return said(ALL[state.place.screen](scene))
