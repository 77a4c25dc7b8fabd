"""What follows from each action, without a screen. The last test holds that no action is left out."""

import json
from dataclasses import replace
from pathlib import Path
from typing import get_args

import pytest

from app import actions as act
from app import asks, update_garment
from app.actions import Action
from app.saved import KeptGarment, Unreadable
from app.state import (
    Drafted,
    FrozenDraft,
    GarmentRecord,
    LaidOut,
    LayQuestion,
    Notice,
    OtherTape,
    PersonRecord,
    Place,
    State,
    Trouble,
    Undo,
)
from app.typed import order_of, order_text
from app.update import start, update
from app.update_garment import END
from drafting.order import make, prepare, read_order
from drafting.record.documents import draft_json
from tests.app.another_garment import alone  # noqa: F401 - a fixture
from tests.app.first_garment import PRESETS
from tests.app.records import again, loaded, texts

DEMO = (Path(__file__).resolve().parents[2] / "assets" / "demo" / "order.json").read_text("utf-8")


def after(state: State, *actions: Action) -> State:
    for action in actions:
        state = update(state, action)[0]
    return state


def asked(state: State, action: Action) -> list[asks.Ask]:
    return list(update(state, action)[1])


@pytest.fixture(scope="module")
def empty():
    return after(start("/")[0], loaded())


@pytest.fixture(scope="module")
def demo(empty):
    return after(empty, act.AddDemo(DEMO))


@pytest.fixture(scope="module")
def frozen(demo):
    typed, problems = order_of(demo.garment, demo.person)
    assert not problems
    order, _ = read_order(typed)
    return FrozenDraft(order_text(typed), draft_json(make(order)).decode())


@pytest.fixture(scope="module")
def chalking(demo, frozen):
    return after(demo, act.StartChalking("g1"), act.Froze("g1", frozen))


def items(state):
    return update_garment.chalking_of(state, state.book.garment("g1")).items


# ---- Where one is and what is saved ---------------------------------------------------------------------------------


def test_a_start_asks_for_what_is_saved_and_nothing_is_saved_before_it_came():
    state, asking = start("/person/p1")
    assert asking == (asks.Load("/person/p1"),)
    assert not state.loaded
    assert asks.SaveBook() not in asked(state, act.AddPerson())


def test_loading_comes_back_to_the_saved_place_or_to_the_one_in_the_address(demo):
    last = Place("cloth", "g1")
    state, asking = update(State(), loaded(demo, "/", last))
    assert state.place == last
    assert asks.GoTo("/garment/g1/cloth") in asking
    assert asks.Draft("g1") in asking
    state, asking = update(State(), loaded(demo, "/garment/g1/proof", last))
    assert state.place == Place("proof", "g1")
    assert asks.GoTo("/garment/g1/proof") not in asking
    assert asks.Draft("g1", full=True) in asking
    assert after(State(), loaded(demo, "/garment/gone/proof", last)).place == last
    assert after(State(), loaded(demo, "/", Place("cloth", "gone"))).place == Place()
    assert after(State(), loaded(demo)).place == Place()


def test_looking_elsewhere_in_another_tab_changes_nothing_here(demo):
    """Where a person looks is the tab's own: it is kept for the next opening, and is no change of the book."""
    looking, asking = update(demo, act.Go(Place("cloth", "g1")))
    assert asks.SavePlace() in asking
    assert asks.SaveBook() not in asking
    assert looking.book == demo.book


@pytest.mark.parametrize(("version", "says"), [(99, "a newer Foldmark"), ("2", "cannot be read"), (0, "cannot be")])
def test_what_a_newer_app_saved_or_is_damaged_is_never_written_over(version, says):
    text = json.dumps({"format": "foldmark-book", "version": version})
    state = after(State(), loaded({"book": text}))
    assert state.locked
    assert says in state.notice.words
    assert state.notice.tone == "stop"
    assert asks.SaveBook() not in asked(state, act.AddPerson())
    assert asks.Load("/") in asked(state, act.LoadAgain())


def test_one_record_that_cannot_be_read_is_left_alone_and_the_others_are_there(demo):
    kept = texts(demo)
    newer = kept["garment.g1"].replace('"version": 2', '"version": 3')
    state = after(State(), loaded(kept | {"garment.g1": newer, "person.p8": "{"}))
    assert state.left == {"garment.g1": "newer", "person.p8": "damaged"}
    assert (state.book.people, state.book.garments, state.locked) == (demo.book.people, (), False)
    assert state.new_id("g") == "g9", "no new record stands where a damaged one is"
    assert after(State(), loaded(kept, unread=["garment.g1"])).left == {"garment.g1": "damaged"}


def test_marks_that_were_not_read_at_the_start_are_read_when_their_garment_is_looked_at(chalking, frozen):
    opened = after(State(), loaded(chalking, without_frozen=True))
    assert opened.book.garment("g1").chalking
    assert (opened.frozen, opened.unread) == ({}, frozenset())
    looking, asking = update(opened, act.Go(Place("chalk", "g1")))
    assert asks.LoadFrozen("g1") in asking
    assert asks.LoadFrozen("g1") not in asked(looking, act.SetLight("dark")), "once is enough"
    assert after(looking, act.FrozenRead("g1", frozen)).frozen == {"g1": frozen}
    straight, asking = update(State(), loaded(chalking, "/garment/g1/chalk", without_frozen=True))
    assert asks.LoadFrozen("g1") in asking
    lost, asking = update(straight, act.FrozenRead("g1", None, kept=False))
    assert not lost.book.garment("g1").chalking
    assert asks.SaveBook() in asking
    assert lost.notice.words.startswith("The marks of Ferry pullover are not kept in this browser any more.")
    unread = after(straight, act.FrozenRead("g1", None))
    assert (unread.unread, unread.garment.chalking, unread.notice) == ({"g1"}, True, None)


@pytest.mark.parametrize("record", [None, "{}", '{"format": "foldmark-frozen", "version": 99}', "not even this"])
def test_a_frozen_draft_that_cannot_be_read_is_left_alone_and_tried_again(chalking, frozen, record):
    marked = after(chalking, act.MarkDone("g1", items(chalking)[0].key))
    assert marked.garment.chalk_done
    kept = texts(marked) | ({} if record is None else {"frozen.g1": record})
    opened = after(State(), loaded(kept, "/garment/g1/chalk", unread=() if record else ["frozen.g1"]))
    assert opened.garment == marked.garment
    assert (opened.frozen, opened.unread, opened.left) == ({}, {"g1"}, {})
    assert opened.notice is None
    waiting, asking = update(opened, act.ReadFrozen("g1"))
    assert asks.LoadFrozen("g1") in asking
    assert waiting.busy
    failed, asking = update(waiting, act.FrozenRead("g1", None))
    assert (failed.garment, failed.unread, failed.busy) == (marked.garment, {"g1"}, "")
    assert "left as they are" in failed.notice.words
    assert asks.RemoveFrozen("g1") not in asking
    assert asks.SaveNow() not in asking
    read = after(failed, act.ReadFrozen("g1"), act.FrozenRead("g1", frozen))
    assert (read.garment, read.frozen, read.unread) == (marked.garment, {"g1": frozen}, frozenset())
    gone, asking = update(waiting, act.FrozenRead("g1", None, kept=False))
    assert not gone.garment.chalking
    assert asks.SaveBook() in asking
    assert gone.unread == frozenset()


def test_what_was_frozen_is_refused_where_it_is_no_longer_what_was_asked(demo, frozen):
    waiting = after(demo, act.StartChalking("g1"))
    for change in (act.SetStyle("g1", "length", "mid_thigh"), act.SetCloth("g1", "width", "163"),
                   act.TypeMeasure(demo.garment.person, "hip_girth", "102")):  # fmt: skip
        state, asking = update(after(waiting, change), act.Froze("g1", frozen))
        assert not state.garment.chalking
        assert (state.busy, state.frozen) == ("", {})
        assert "has not begun" in state.notice.words
        assert asks.SaveNow() not in asking
    state, asking = update(after(waiting, act.Go(Place())), act.Froze("g1", frozen))
    assert (state.busy, state.frozen, state.place) == ("", {}, Place())
    assert not state.book.garment("g1").chalking
    assert asks.SaveNow() not in asking
    moved = after(waiting, act.Go(Place("lay", "g1")))
    assert after(moved, act.Froze("g1", frozen)).garment.chalking, "another look at the same garment is no change"


def test_an_unreadable_frozen_draft_goes_only_with_its_garment_or_on_purpose(chalking):
    opened = after(State(), loaded(chalking, "/garment/g1/chalk", unread=["frozen.g1"]))
    again, asking = update(opened, act.DraftAgain("g1"))
    assert asks.RemoveFrozen("g1") in asking
    assert (again.garment.chalking, again.unread) == (False, frozenset())
    assert again.notice.undo is None, "nothing can put it back"
    deleted, asking = update(opened, act.DeleteGarment("g1"))
    assert asks.RemoveFrozen("g1") not in asking
    back = after(deleted, act.UndoLast())
    assert (back.book.garments, back.unread) == (opened.book.garments, {"g1"})
    assert asks.RemoveFrozen("g1") in update(deleted, act.CloseNotice())[1]


def test_a_failed_loading_is_told_and_nothing_is_saved_over_it():
    state = after(State(), act.LoadFailed("The browser does not let the page save."))
    assert (state.loaded, state.locked, state.notice.tone) == (True, True, "stop")
    assert asks.SaveBook() not in asked(state, act.AddGarment())


def test_what_could_not_be_saved_is_said_and_tried_with_the_next_change(empty):
    failed = after(empty, act.NotSaved("It did not read back."))
    assert failed.notice.words == "It did not read back."
    assert asks.SaveBook() in asked(failed, act.AddPerson())


def test_a_full_store_names_the_garments_whose_papers_are_to_be_saved_first(chalking, demo):
    told = after(chalking, act.NotSaved("No room.", full=True)).notice.words
    assert told == "No room. Save the papers of Ferry pullover first: from them you can go on chalking."
    assert after(demo, act.NotSaved("No room.", full=True)).notice.words == "No room."
    assert after(chalking, act.NotSaved("No room.")).notice.words == "No room."


def test_a_change_of_another_tab_is_taken_in_and_said_where_it_is_looked_at(demo):
    other = replace(demo.person, name="Ngozi")
    state, asking = update(demo, act.RecordCame("person.p2", other))
    assert state.person.name == "Ngozi"
    assert "in another tab" in state.notice.words
    assert asks.Draft("g1") in asking
    away = after(demo, act.Go(Place()), act.RecordCame("person.p2", other))
    assert (away.book.people, away.notice) == ((other,), None)
    new = GarmentRecord("g7-abc", title="Mira's")
    came = after(demo, act.RecordCame("garment.g7-abc", KeptGarment(new, "1,2 3,4")))
    assert [each.id for each in came.book.garments] == ["g7-abc", "g1"], "the newest stands first"
    assert came.book.pictures["g7-abc"] == "1,2 3,4"
    dark = after(demo, act.RecordCame("book", replace(demo.book.settings, light="dark")))
    assert dark.book.settings.light == "dark"
    left = after(demo, act.RecordCame("garment.g1", Unreadable("newer")))
    assert (left.left, left.book.garments, left.place) == ({"garment.g1": "newer"}, (), Place())


def test_what_another_tab_deleted_is_gone_here_and_its_screen_with_it(demo):
    state, asking = update(demo, act.RecordCame("garment.g1", None))
    assert (state.book.garments, state.place) == ((), Place())
    assert "deleted in another tab" in state.notice.words
    assert asks.GoTo("/") in asking


def test_what_was_deleted_here_and_changed_there_stays(demo):
    deleted = after(demo, act.DeletePerson("p2"))
    state = after(deleted, act.RecordCame("person.p2", replace(demo.person, name="Ngozi")))
    assert (state.person.name, state.book.gone) == ("Ngozi", None)
    assert state.notice.words == "It was changed in another tab or window meanwhile, so it is not deleted."


def test_a_draft_that_another_tab_left_is_left_here_too(chalking, frozen):
    unchalked = KeptGarment(chalking.garment.unchalked())
    assert after(chalking, act.RecordCame("garment.g1", unchalked)).frozen == {}
    other = FrozenDraft(frozen.order, "{}")
    assert after(chalking, act.RecordCame("frozen.g1", other)).frozen == {"g1": other}
    assert after(chalking, act.RecordCame("frozen.g8", other)).frozen == {"g1": frozen}, "what is not looked at waits"


def test_two_changes_of_one_person_at_once_are_both_kept_when_asked(demo):
    mine = after(demo, act.Go(Place("person", person="p2")), act.TypeName("p2", "Mine"))
    theirs = replace(demo.person, name="Theirs")
    held = after(mine, act.Clashed("person.p2", theirs))
    assert held.person.name == "Mine", "what is typed stays until it is settled"
    assert [each.key for each in held.clashes] == ["person.p2"]
    taken, asking = update(held, act.TakeTheirs("person.p2"))
    assert ([each.name for each in taken.book.people], taken.clashes) == (["Theirs"], ())
    assert asks.SaveNow() in asking
    both, asking = update(held, act.KeepBoth("person.p2"))
    assert [(each.id, each.name) for each in both.book.people] == [("p2", "Theirs"), ("p3", "Mine, from this tab")]
    assert both.place == Place("person", person="p3")
    assert both.book.next == demo.book.next + 1
    assert asks.GoTo("/person/p3") in asking
    assert both.clashes == ()


def test_two_changes_of_one_garment_at_once_keep_what_is_chalked(chalking, frozen, demo):
    theirs = KeptGarment(replace(demo.garment, title="Theirs"), "1,2")
    held = after(chalking, act.Clashed("garment.g1", theirs))
    both = after(held, act.KeepBoth("garment.g1"))
    assert [(each.title, each.chalking) for each in both.book.garments] == [
        ("Ferry pullover, from this tab", True), ("Theirs", False),
    ]  # fmt: skip
    mine = both.book.garments[0]
    assert both.frozen == {mine.id: frozen}
    assert both.place == Place("chalk", mine.id)
    assert both.book.pictures["g1"] == "1,2"
    taken = after(held, act.TakeTheirs("garment.g1"))
    assert (taken.frozen, taken.garment.title) == ({}, "Theirs")


def test_what_everything_was_deleted_with_is_asked_about_no_more(demo):
    """Kept both afterwards, a person that no store holds would come back from what was held back of her."""
    held = after(demo, act.Clashed("person.p2", replace(demo.person, name="Theirs")), act.Clashed("garment.g1", None))
    gone = after(held, act.RecordCame("person.p2", None))
    assert [each.key for each in gone.clashes] == ["garment.g1"]
    assert gone.book.person("p2") is None
    assert after(gone, act.KeepBoth("person.p2")).book.people == gone.book.people


def test_what_was_deleted_there_and_changed_here_is_kept_or_let_go(demo):
    held = after(demo, act.Clashed("garment.g1", None))
    kept = after(held, act.KeepBoth("garment.g1"))
    assert (kept.book, kept.clashes, kept.place) == (demo.book, (), demo.place)
    gone = after(held, act.TakeTheirs("garment.g1"))
    assert (gone.book.garments, gone.place) == ((), Place())


@pytest.mark.parametrize("looked_at", [True, False])
def test_what_was_deleted_there_and_is_kept_here_is_chalked_only_where_its_marks_are_here(chalking, frozen, looked_at):
    held = after(chalking, act.Clashed("garment.g1", None))
    held = held if looked_at else replace(held, frozen={})
    kept = after(held, act.KeepBoth("garment.g1"))
    assert kept.garment.chalking is looked_at
    assert kept.frozen == ({"g1": frozen} if looked_at else {})


def test_who_types_on_in_a_tab_that_saves_nothing_is_told_again(demo):
    locked = after(replace(demo, locked=True), act.CloseNotice())
    assert locked.notice is None
    assert after(locked, act.TypeName("p2", "x")).notice.tone == "stop"


def test_ids_of_two_tabs_never_meet(demo):
    one, other = replace(demo, mark="aa11"), replace(demo, mark="bb22")
    ids = [after(each, act.AddPerson()).book.people[-1].id for each in (one, other)]
    assert ids == ["p3-aa11", "p3-bb22"]


def test_going_changes_the_place_and_the_address(demo):
    state, asking = update(demo, act.Go(Place("cloth", "g1")))
    assert state.place == Place("cloth", "g1")
    assert asks.GoTo("/garment/g1/cloth") in asking
    assert asks.SavePlace() in asking
    assert update(state, act.Go(Place("cloth", "g1"))) == (state, ())
    assert after(demo, act.Go(Place("cloth", "gone"))).place == Place()


def test_the_browsers_back_button_changes_the_place_without_a_new_address(demo):
    state, asking = update(demo, act.Routed("/garment/g1/person/2"))
    assert state.place == Place("person", "g1", step=2)
    assert not [each for each in asking if isinstance(each, asks.GoTo)]
    assert update(demo, act.Routed(demo.place.route)) == (demo, ())
    assert update(demo, act.Routed("/nowhere"))[0].place == Place()
    assert asks.GoTo("/") in asked(demo, act.Routed("/garment/g9/cloth"))
    assert update(State(), act.Routed("/person/p1")) == (State(), ())


def test_a_plain_notice_goes_with_its_screen_and_one_with_an_undo_stays(demo):
    told = replace(demo, notice=Notice("Done so."))
    assert after(told, act.Go(Place("cloth", "g1"))).notice is None
    deleted = after(demo, act.DeletePerson("p2"))
    assert after(deleted, act.Go(Place("cloth", "g1"))).notice == deleted.notice
    assert after(deleted, act.Go(Place("chalk", "g1"))).notice is None


# ---- People ---------------------------------------------------------------------------------------------------------


@pytest.mark.usefixtures("alone")
def test_a_person_is_added_for_a_garment_or_alone(empty):
    by_itself = after(empty, act.AddPerson())
    assert by_itself.book.people == (PersonRecord("p1"),)
    assert by_itself.place == Place("person", person="p1")
    made = after(empty, act.AddGarment())
    assert made.garment.person == made.person.id == "p2"
    assert made.place == Place("person", "g1")
    another = after(made, act.AddPerson("g1"))
    assert another.garment.person == another.person.id == "p3"


def test_a_copied_person_has_every_measure_and_stands_last_as_the_newest(demo):
    state = after(demo, act.AddPerson(), act.CopyPerson("p2"))
    first, _, second = state.book.people
    assert second.measures == first.measures
    assert second.id not in {"p2", "p3"}
    assert first.name in second.name
    assert after(demo, act.CopyPerson("gone")) == demo


def test_deleting_a_person_can_be_undone_to_the_very_same_book(demo):
    deleted = after(demo, act.DeletePerson("p2"))
    assert deleted.person is None
    assert deleted.notice.undo == Undo(person=demo.person)
    assert after(deleted, act.UndoLast()).book == demo.book
    looked_at = after(demo, act.Go(Place("person", person="p2")))
    assert after(looked_at, act.DeletePerson("p2")).place == Place()
    assert after(demo, act.DeletePerson("gone")) == demo


def test_what_is_typed_is_kept_as_typed(demo):
    typed = after(
        demo, act.TypeName("p2", " Ngozi\u202e "), act.TypeAge("p2", "seven"), act.TypeTakenOn("p2", "last week"),
        act.TypeMeasure("p2", "bust_girth", "37 ⅜ abc"), act.ChooseKind("p2", "child"), act.FocusMeasure("bust_girth"),
    )  # fmt: skip
    person = typed.person
    assert (person.name, person.age, person.taken_on, person.kind) == (" Ngozi\u202e ", "seven", "last week", "child")
    assert person.measures == demo.person.measures | {"bust_girth": "37 ⅜ abc"}
    assert typed.focus == "bust_girth"
    assert asks.SaveBook() in asked(demo, act.TypeMeasure("p2", "hip_girth", "1"))
    assert asks.Draft("g1") in asked(demo, act.TypeMeasure("p2", "hip_girth", "1"))
    for action in (
        act.TypeName("gone", "x"),
        act.TypeAge("gone", "x"),
        act.TypeTakenOn("gone", "x"),
        act.TypeMeasure("gone", "x", "x"),
        act.ChooseKind("gone", "man"),
        act.ChooseUnit("gone", "in"),
    ):
        assert update(demo, action) == (demo, ())  # fmt: skip


def test_today_is_asked_of_the_calendar(demo):
    assert asked(demo, act.TakeToday("p2")) == [asks.ReadDay("p2")]


def test_changing_the_unit_changes_no_length(demo):
    before, _ = read_order(order_of(demo.garment, demo.person)[0])
    inches = after(demo, act.ChooseUnit("p2", "in"))
    order, problems = read_order(order_of(inches.garment, inches.person)[0])
    assert problems == ()
    drafts = (make(order, with_ways_out=False).draft, make(before, with_ways_out=False).draft)
    assert drafts[0].pieces == drafts[1].pieces
    assert drafts[0].girths == drafts[1].girths
    assert inches.person.measures["bust_girth"] == "94 cm"
    assert inches.garment.cloth["stretch_across"] == "50"
    assert inches.book.settings.unit == "in"
    assert (inches.garment.tape, inches.garment.paper) == ("1/8", "Letter")
    assert after(inches, act.ChooseUnit("p2", "in")) == inches


def test_another_person_may_be_chosen_and_the_cloth_keeps_its_width(demo):
    state = after(demo, act.AddPerson(), act.ChooseUnit("p3", "in"), act.Go(Place("person", "g1")))
    chosen = after(state, act.ChoosePerson("g1", "p3"))
    assert chosen.person.id == "p3"
    assert chosen.garment.cloth["width"] == "160 cm"
    assert after(demo, act.ChoosePerson("g1", "")).person is None
    assert after(demo, act.ChoosePerson("g1", "gone")) == demo


# ---- Garments -------------------------------------------------------------------------------------------------------


def test_the_demo_is_read_and_gives_back_its_own_order(empty, demo):
    assert asked(empty, act.TryDemo()) == [asks.ReadDemo()]
    order, problems = read_order(order_of(demo.garment, demo.person)[0])
    given, _ = read_order(json.loads(DEMO))
    assert problems == ()
    assert make(order).draft == make(given).draft
    assert demo.place == Place("shape", "g1")
    twice = after(demo, act.AddDemo(DEMO))
    assert (len(twice.book.people), len(twice.book.garments)) == (1, 2)


@pytest.mark.usefixtures("alone")
def test_a_new_garment_asks_who_it_is_for_unless_that_is_known(empty, demo):
    state, asking = update(empty, act.AddGarment())
    assert state.place == Place("person", "g1")
    assert state.book.people == (state.person,)
    assert asks.GoTo("/garment/g1/person") in asking
    asking_who = after(demo, act.AddGarment())
    assert (asking_who.place.screen, asking_who.person) == ("person", None)
    assert after(demo, act.AddGarment("p2")).place.screen == "shape"
    assert after(demo, act.AddGarment("gone")).garment.person == ""
    inches = after(demo, act.ChooseUnit("p2", "in"), act.AddGarment("p2"))
    assert (inches.garment.tape, inches.garment.paper) == ("1/8", "Letter")


def test_a_copied_garment_has_no_chalk_on_it(chalking):
    state = after(chalking, act.MarkDone("g1", items(chalking)[0].key), act.CopyGarment("g1"))
    copied, first = state.book.garments
    assert copied.style == first.style
    assert (copied.chalking, copied.chalk_done, copied.chalk_at) == (False, (), "")
    assert after(chalking, act.CopyGarment("gone")) == chalking


def test_deleting_a_garment_goes_home_and_the_gone_are_not_deleted_again(chalking):
    deleted, asking = update(chalking, act.DeleteGarment("g1"))
    assert deleted.book.garments == ()
    assert deleted.place == Place()
    assert asks.GoTo("/") in asking
    assert after(chalking, act.DeleteGarment("gone")) == chalking


def test_choices_are_set_and_taken_back(demo):
    state = after(demo, act.SetStyle("g1", "flare", "bell"), act.TypeTitle("g1", "Market day"))
    assert (state.garment.style["flare"], state.garment.title) == ("bell", "Market day")
    assert "flare" not in after(state, act.SetStyle("g1", "flare", None)).garment.style
    assert asks.Draft("g1") in asked(demo, act.SetStyle("g1", "flare", "bell"))
    set_all = after(demo, act.SetTape("g1", "1/4"), act.SetLine("g1", "stitch"), act.SetPaper("g1", "Letter"))
    garment = set_all.garment
    assert (garment.tape, garment.line, garment.paper) == ("1/4", "stitch", "Letter")
    for action in (
        act.SetStyle("gone", "fit", "loose"),
        act.SetCloth("gone", "width", "1"),
        act.SetTape("gone", "0.1"),
        act.TypeTapeLength("gone", "200"),
        act.SetLine("gone", "cut"),
        act.SetPaper("gone", "A4"),
        act.TypeTitle("gone", "x"),
        act.UsePreset("gone", "tunic"),
        act.TakeWayOut("gone", ()),
    ):
        assert update(demo, action) == (demo, ())  # fmt: skip


def reach(state):
    """How far the tape of the garment in work reads, in mm, and what is wrong with it."""
    order, problems = read_order(order_of(state.garment, state.person)[0])
    found = [problem for problem in problems if problem.field == "tape.length"]
    if order is None:
        return None, found
    ready, _ = prepare(order)
    return ready.tape.reach, found


# A tape of which nothing is said is 150 cm or 60 in long (common practice); 1 in is 25.4 mm.
def test_a_tapes_length_is_typed_in_the_persons_unit_whatever_stands_on_the_tape(demo):
    assert demo.garment.tape_length == ""
    assert "length" not in order_of(demo.garment, demo.person)[0]["tape"]
    assert reach(demo) == (1500, [])
    typed = after(demo, act.TypeTapeLength("g1", " 200 "))
    assert reach(typed) == (2000, [])
    assert asks.SaveBook() in asked(demo, act.TypeTapeLength("g1", "200"))
    assert asks.Draft("g1") in asked(demo, act.TypeTapeLength("g1", "200"))
    assert reach(after(typed, act.SetTape("g1", "1/8"))) == (2000, [])
    inches = after(demo, act.ChooseUnit("p2", "in"))
    assert reach(inches) == (pytest.approx(60 * 25.4), [])
    assert reach(after(inches, act.TypeTapeLength("g1", "120"))) == (pytest.approx(120 * 25.4), [])
    assert reach(after(inches, act.TypeTapeLength("g1", "120"), act.SetTape("g1", "0.5"))) == (3048, [])
    blank = after(typed, act.TypeTapeLength("g1", "  "))
    assert "length" not in order_of(blank.garment, blank.person)[0]["tape"]


def test_a_tape_keeps_its_length_when_unit_or_person_changes(demo):
    typed = after(demo, act.TypeTapeLength("g1", "200"))
    inches = after(typed, act.ChooseUnit("p2", "in"))
    assert inches.garment.tape_length == "200 cm"
    assert reach(inches) == (2000, [])
    other = after(typed, act.AddPerson(), act.ChooseUnit("p3", "in"), act.Go(Place("person", "g1")))
    assert after(other, act.ChoosePerson("g1", "p3")).garment.tape_length == "200 cm"
    assert after(typed, act.CopyGarment("g1")).book.garments[1].tape_length == "200"


@pytest.mark.parametrize(("text", "fix"), [("20", "from 120 cm to 500 cm"), ("far", "write"), ("20 in", "from 48 in")])
def test_a_tape_that_cannot_be_is_told_and_what_was_typed_stays(demo, text, fix):
    wrong = after(demo, act.TypeTapeLength("g1", text))
    assert wrong.garment.tape_length == text
    mm, problems = reach(wrong)
    assert mm is None
    assert [fix in problem.fix for problem in problems] == [True]


@pytest.mark.parametrize(
    ("unit", "length", "text"), [("cm", 200, "200 cm"), ("cm", "120 in", "120 in"), ("in", 120, "120")]
)
def test_an_order_gives_its_tapes_length_to_the_field_and_back(empty, unit, length, text):
    order = json.loads(DEMO)
    order["person"]["unit"], order["person"]["measures"] = "in", {"stature": "66 in", "bust_girth": "38 in"}
    order["style"], order["cloth"] = {}, {"width": "160 cm", "stretch_across": 50, "stretch_along": 30}
    order["tape"] = {"unit": unit, "step": "0.5" if unit == "cm" else "1/8", "length": length}
    state = after(empty, act.AddDemo(json.dumps(order)))
    assert state.garment.tape_length == text
    given, _ = read_order(order)
    assert reach(state)[0] == prepare(given)[0].tape.reach


@pytest.mark.parametrize("preset", PRESETS)
def test_a_preset_can_be_drafted_and_leaves_other_choices(demo, preset):
    state = after(demo, act.SetStyle("g1", "neck_lean", "5"), act.UsePreset("g1", preset))
    assert state.garment.style == demo.garment.style | {"neck_lean": "5"} | PRESETS[preset]
    order, problems = read_order(order_of(state.garment, state.person)[0])
    assert not [problem for problem in problems if problem.severity == "refuse"]
    assert make(order, with_ways_out=False).draft.pieces


@pytest.mark.parametrize(
    ("unit", "marked", "pulled", "percent"),
    [("cm", "", "14", "40"), ("in", "4", "5", "25"), ("in", "", "5", "25"), ("cm", "10", "13,5", "35")],
)
def test_the_stretch_test_gives_the_percentage(demo, unit, marked, pulled, percent):
    state = after(demo, act.ChooseUnit("p2", unit), act.SetCloth("g1", "test_along_marked", marked),
                  act.SetCloth("g1", "test_along_pulled", pulled))  # fmt: skip
    assert state.garment.cloth["stretch_along"] == percent
    assert state.garment.cloth["stretch_across"] == "50"


def test_an_unread_stretch_test_changes_nothing_and_letting_go_tells_the_recovery(demo):
    odd = after(demo, act.SetCloth("g1", "test_across_pulled", "far"))
    assert odd.garment.cloth == demo.garment.cloth | {"test_across_pulled": "far"}
    shorter = after(demo, act.SetCloth("g1", "test_across_pulled", "9"))
    assert shorter.garment.cloth["stretch_across"] == "50"
    assert after(demo, act.SetCloth("g1", "test_across_after", "10.3")).garment.cloth["recovery"] == "good"
    assert after(demo, act.SetCloth("g1", "test_across_after", "10.6")).garment.cloth["recovery"] == "fair"
    assert after(demo, act.SetCloth("g1", "test_across_after", "11")).garment.cloth["recovery"] == "poor"


def test_the_recovery_is_judged_again_on_another_tape_unless_it_was_chosen(demo):
    tested = after(demo, act.SetCloth("g1", "test_across_after", "10.5"))
    assert (tested.garment.tape, tested.garment.cloth["recovery"]) == ("0.5", "fair")
    finer = after(tested, act.SetTape("g1", "0.1"))
    assert (finer.garment.tape, finer.garment.cloth["recovery"]) == ("0.1", "poor")
    chosen = after(tested, act.SetCloth("g1", "recovery", "good"), act.SetTape("g1", "0.1"))
    assert (chosen.garment.tape, chosen.garment.cloth["recovery"]) == ("0.1", "good")
    assert "recovery" not in after(demo, act.SetTape("g1", "0.1")).garment.cloth.keys() - demo.garment.cloth.keys()
    longer = after(tested, act.SetCloth("g1", "test_across_marked", "20"))
    assert longer.garment.cloth["recovery"] == "good", "10.5 of 20 has come back"
    assert after(demo, act.SetCloth("g1", "width", None)).garment.cloth.get("width") is None


def test_every_way_out_that_the_core_offers_can_be_taken_and_passes(demo):
    narrow = after(demo, act.SetCloth("g1", "width", "140"))
    order, _ = read_order(order_of(narrow.garment, narrow.person)[0])
    check = next(check for check in make(order).checks if check.id == "fits_cloth")
    assert check.ways_out
    for way in check.ways_out:
        taken = after(narrow, act.TakeWayOut("g1", way.changes, way.does))
        assert way.does
        assert way.says.startswith(way.does)
        assert "It needs" not in way.does
        assert taken.notice.words == f"Changed as you chose: “{way.does}”"
        changed, _ = read_order(order_of(taken.garment, taken.person)[0])
        assert next(c for c in make(changed).checks if c.id == check.id).result == "pass"
        assert after(taken, act.UndoLast()).book == narrow.book


def test_a_way_out_sets_an_allowance_and_takes_a_key_out(demo):
    state = after(demo, act.TakeWayOut("g1", (("style.allowances.side", "10 mm"), ("style.neck_height", None))))
    assert state.garment.style["allowances.side"] == "1 cm"
    assert "neck_height" not in state.garment.style
    assert state.notice.words == "Changed as you chose."
    with pytest.raises(ValueError, match="person"):
        update(demo, act.TakeWayOut("g1", (("person.name", "x"),)))


def test_a_draft_is_shown_for_the_garment_in_sight_only(demo):
    drafted = Drafted("g1", {}, None, ())
    assert after(demo, act.DraftCame(drafted)).drafted == drafted
    assert after(demo, act.DraftCame(replace(drafted, garment="g9"))).drafted is None


def test_what_laying_came_to_is_shown_for_the_garment_in_sight_only(demo):
    order = read_order(order_of(demo.garment, demo.person)[0])[0]
    made = make(order, with_ways_out=False)
    laid = LaidOut("g1", made, LayQuestion(), made.draft.pieces, made.ready.cloth)
    assert after(demo, act.LayCame(laid)).laid is laid
    assert after(demo, act.LayCame(replace(laid, garment="g9"))).laid is None
    there = replace(demo, place=Place("lay", "g1"))
    assert asks.Draft("g1", lay=True) in asked(there, act.SetCloth("g1", "lay_price", "12"))


def test_a_mark_is_lit_until_one_goes_elsewhere(demo):
    lit = after(demo, act.LightMark("waist"))
    assert lit.lit == "waist"
    assert after(lit, act.Go(Place("cloth", "g1"))).lit == ""


# ---- Chalk and paper ------------------------------------------------------------------------------------------------


def test_chalking_starts_from_a_frozen_draft_and_goes_on_where_it_was(demo, frozen):
    waiting, asking = update(demo, act.StartChalking("g1"))
    assert list(asking) == [asks.Freeze("g1")]
    assert waiting.busy
    assert update(waiting, act.StartChalking("g1")) == (waiting, ())
    begun, asking = update(waiting, act.Froze("g1", frozen))
    assert asks.SaveNow() in asking
    assert begun.place == Place("chalk", "g1")
    assert (begun.busy, begun.garment.chalking) == ("", True)
    away = after(begun, act.MarkDone("g1", items(begun)[0].key), act.Go(Place("cloth", "g1")))
    again, asking = update(away, act.StartChalking("g1"))
    assert again.garment == away.garment
    assert again.place == Place("chalk", "g1")
    assert not [each for each in asking if isinstance(each, asks.Freeze)]
    assert after(again, act.Froze("g1", FrozenDraft("late", "answer"))).frozen == begun.frozen
    assert update(demo, act.StartChalking("gone")) == (demo, ())


def test_later_changes_move_no_mark(chalking):
    changed = after(chalking, act.TypeMeasure("p2", "bust_girth", "120"), act.SetStyle("g1", "length", "ankle"))
    assert items(changed) == items(chalking)


def test_every_mark_of_the_plan_is_chalked_once_in_its_order_with_its_readings(chalking):
    draft = json.loads(chalking.frozen["g1"].draft)
    front = draft["pieces"][0]
    marks = [item for item in items(chalking) if item.kind == "mark"]
    assert [mark.number for mark in marks] == sorted(mark["order"] for mark in front["marks"])
    expected = {mark["id"]: (mark["across"], mark["down"]) for mark in front["marks"]}
    assert {mark.ends[0]: tuple(value for _, value in mark.pairs) for mark in marks} == expected
    assert len([item for item in items(chalking) if item.kind == "proof"]) == len(front["proofs"])


def test_done_goes_on_and_a_double_tap_is_one(chalking):
    keys = [item.key for item in items(chalking)]
    one = after(chalking, act.MarkDone("g1", keys[0]), act.MarkDone("g1", keys[0]))
    assert (one.garment.chalk_at, one.garment.chalk_done) == (keys[1], (keys[0],))
    back = after(one, act.ChalkBack("g1", keys[1]), act.ChalkBack("g1", keys[1]))
    assert back.garment.chalk_at == keys[0]
    assert back.garment.chalk_done == (keys[0],)
    assert after(back, act.ChalkBack("g1", keys[0])).garment.chalk_at == keys[0]
    assert after(chalking, act.MarkDone("gone", keys[0])) == chalking


def test_after_the_last_item_comes_the_end_and_the_way_back_from_it(chalking):
    state = chalking
    for item in items(chalking):
        state = after(state, act.MarkDone("g1", item.key))
    assert state.garment.chalk_at == END
    assert set(state.garment.chalk_done) == {item.key for item in items(chalking)}
    assert after(state, act.MarkDone("g1", END)) == state
    assert after(state, act.ChalkBack("g1", END)).garment.chalk_at == items(chalking)[-1].key


def test_any_item_can_be_gone_to(chalking):
    listed = after(chalking, act.Go(Place("chalk", "g1", step=1)))
    state, asking = update(listed, act.ChalkAt("g1", "front.waist"))
    assert state.garment.chalk_at == "front.waist"
    assert state.place == Place("chalk", "g1")
    assert asks.GoTo("/garment/g1/chalk") in asking
    assert after(chalking, act.ChalkAt("g1", "front.elbow")) == chalking


def test_going_to_a_mark_can_be_undone_until_the_next_step(chalking):
    keys = [item.key for item in items(chalking)]
    begun = after(chalking, act.MarkDone("g1", keys[0]), act.LightMark(keys[7]))
    assert (begun.lit, begun.garment.chalk_at) == (keys[7], keys[1]), "looking moves nothing"
    gone = after(begun, act.ChalkAt("g1", keys[7]))
    assert (gone.lit, gone.garment.chalk_at) == ("", keys[7])
    assert gone.notice.words == "You went to step 8."
    saved = after(gone, act.RecordCame("book", gone.book.settings))
    assert saved.notice == gone.notice, "what comes by itself takes no undo away"
    back = after(saved, act.UndoLast())
    assert (back.garment.chalk_at, back.garment.chalk_done, back.notice) == (keys[1], (keys[0],), None)
    assert after(gone, act.MarkDone("g1", keys[7])).notice is None, "nothing old lies over the readings"
    assert after(begun, act.ChalkAt("g1", keys[1])).notice is None, "where one is already there is nothing to undo"


def test_looking_ends_with_every_step_of_the_order(chalking):
    keys = [item.key for item in items(chalking)]
    looking = after(chalking, act.ChalkOn("g1", keys[0]), act.LightMark(keys[7]))
    for action, at in (
        (act.MarkDone("g1", keys[1]), 2),
        (act.ChalkBack("g1", keys[1]), 0),
        (act.ChalkOn("g1", keys[1]), 2),
    ):
        state = after(looking, action)
        assert (state.lit, state.garment.chalk_at) == ("", keys[at])
    assert after(looking, act.LightMark("")).lit == ""


def test_on_by_one_ticks_nothing_off(chalking):
    keys = [item.key for item in items(chalking)]
    one = after(chalking, act.ChalkOn("g1", keys[0]), act.ChalkOn("g1", keys[0]))
    assert (one.garment.chalk_at, one.garment.chalk_done) == (keys[1], ())
    last = after(chalking, act.ChalkAt("g1", keys[-1]), act.ChalkOn("g1", keys[-1]))
    assert last.garment.chalk_at == END
    assert after(last, act.ChalkOn("g1", END)).garment.chalk_at == END
    assert after(last, act.ChalkBack("g1", END)).garment.chalk_at == keys[-1]
    assert after(chalking, act.ChalkOn("gone", keys[0])) == chalking


def test_a_new_draft_can_be_taken_and_undone(chalking):
    marked = after(chalking, act.MarkDone("g1", items(chalking)[0].key))
    state, asking = update(marked, act.DraftAgain("g1"))
    assert not state.garment.chalking
    assert state.frozen == {}
    assert state.place == Place("proof", "g1")
    assert asks.RemoveFrozen("g1") in asking
    back, asking = update(state, act.UndoLast())
    assert (back.book.garments, back.frozen) == (marked.book.garments, marked.frozen)
    assert asks.SaveNow() in asking
    assert after(state, act.DraftAgain("g1")) == state


def test_choices_can_be_put_back_as_they_were_chalked(demo, chalking):
    assert update(demo, act.PutBack("g1")) == (demo, ())
    changed = after(chalking, act.SetStyle("g1", "length", "ankle"))
    assert asks.SaveBook() in asked(changed, act.PutBack("g1"))
    assert after(changed, act.PutBack("g1")).garment == chalking.garment


def test_one_file_is_made_at_a_time(demo):
    state, asking = update(demo, act.AskFile("g1", "pattern.pdf"))
    assert list(asking) == [asks.MakeFile("g1", "pattern.pdf")]
    assert "pattern.pdf" in state.busy
    assert update(state, act.AskFile("g1", "pattern.pdf")) == (state, ())
    offered = after(state, act.FileOffered("pattern.pdf"))
    assert (offered.busy, "pattern.pdf" in offered.notice.words) == ("", True)
    assert asks.MakeFile("g1", "pattern.pdf", "print") in asked(demo, act.AskFile("g1", "pattern.pdf", "print"))
    told = {came: after(state, act.FileOffered("pattern.pdf", came)).notice.words for came in get_args(act.Came)}
    assert len(set(told.values())) == len(told)
    assert "actual size" in told["printing"]
    assert "actual size" in told["saved_to_print"]
    failed = after(state, act.FileFailed("Not yet."))
    assert (failed.busy, failed.notice.words) == ("", "Not yet.")


def test_a_step_of_the_sewing_is_ticked_once_and_a_tick_is_taken_back(demo):
    ticked = after(demo, act.StepSewn("g1", "needle"), act.StepSewn("g1", "sew.hems"), act.StepSewn("g1", "needle"))
    assert ticked.garment.sewn == ("needle", "sew.hems")
    assert asks.SaveBook() in asked(demo, act.StepSewn("g1", "needle"))
    assert after(ticked, act.StepNotSewn("g1", "needle")).garment.sewn == ("sew.hems",)
    assert after(ticked, act.StepNotSewn("g1", "stitch")) == ticked
    assert after(ticked, act.StepSewn("gone", "stitch")) == ticked


def test_ticks_of_the_sewing_stay_when_chalking_begins_and_go_with_the_chalk(demo, frozen):
    ticked = after(demo, act.StepSewn("g1", "needle"))
    chalking = after(ticked, act.StartChalking("g1"), act.Froze("g1", frozen))
    assert chalking.garment.sewn == ("needle",), "a needle that was bought before chalking is still there"
    again = after(chalking, act.DraftAgain("g1"))
    assert again.garment.sewn == (), "what is chalked anew is sewn anew"
    assert after(again, act.UndoLast()).garment.sewn == ("needle",)
    copied = after(chalking, act.CopyGarment("g1"))
    assert [each.sewn for each in copied.book.garments] == [(), ("needle",)]


# ---- At the table ---------------------------------------------------------------------------------------------------


def spoken(state, action):
    return [each.text for each in asked(state, action) if isinstance(each, asks.Speak)]


def test_marks_are_read_aloud_when_asked_and_again_on_a_tap(chalking):
    keys = [item.key for item in items(chalking)]
    first = keys.index("front.waist")
    state = after(chalking, act.ChalkAt("g1", "front.waist"))
    assert spoken(chalking, act.ChalkAt("g1", "front.waist")) == [], "nobody asked"
    said = ["Mark 4, waist at the side. Twenty-three across, fifty-four down."]
    assert spoken(state, act.SetAloud(True)) == said
    state = after(state, act.SetAloud(True))
    assert state.book.settings.aloud
    assert spoken(state, act.SayAgain()) == said
    assert spoken(state, act.MarkDone("g1", "front.waist"))[0].startswith("Mark 5, hip at the side. Twenty-eight ")
    assert spoken(state, act.ChalkBack("g1", "front.waist"))[0].startswith("Mark 3, neck corner.")
    assert spoken(state, act.LightMark("front.hip"))[0].startswith("Mark 5, hip")
    assert spoken(after(state, act.LightMark("front.hip")), act.LightMark("")) == said
    assert spoken(state, act.RecordCame("book", state.book.settings)) == []
    assert spoken(state, act.SetAloud(False)) == [""], "it stops"
    assert spoken(state, act.Go(Place("proof", "g1"))) == [""]
    assert spoken(after(state, act.Go(Place("proof", "g1"))), act.Go(Place("chalk", "g1"))) == said
    off = after(state, act.SetAloud(False))
    assert spoken(off, act.SayAgain()) == []
    end = after(state, act.ChalkAt("g1", keys[-1]))
    assert spoken(end, act.MarkDone("g1", keys[-1])) == ["Everything is chalked"]
    assert first > 0


def test_where_nothing_can_be_read_aloud_a_sentence_says_so(chalking):
    on = after(chalking, act.SetAloud(True))
    for why, part in (("no_voice", "no voice"), ("not_here", "not from a server")):
        state = after(on, act.NotSpoken(why))
        assert part in state.notice.words
        assert not state.book.settings.aloud, "the switch does not stand on what is not done"
    assert after(chalking, act.NotSpoken("no_voice")) == chalking


def test_the_screen_stays_awake_at_the_table_only(chalking, demo, frozen):
    def awake(state, action):
        return [each.on for each in asked(state, action) if isinstance(each, asks.StayAwake)]

    begun = after(demo, act.StartChalking("g1"))
    assert awake(begun, act.Froze("g1", frozen)) == [True]
    assert awake(chalking, act.MarkDone("g1", items(chalking)[0].key)) == []
    assert awake(chalking, act.Go(Place("chalk", "g1", step=1))) == [], "the list is at the table too"
    assert awake(chalking, act.Go(Place("paper", "g1"))) == [False]
    assert awake(after(chalking, act.Go(Place("paper", "g1"))), act.Go(Place("chalk", "g1"))) == [True]
    assert awake(State(), loaded(chalking, "/garment/g1/chalk")) == [True]
    assert awake(chalking, act.Troubled("where")) == [False]
    assert awake(demo, act.Go(Place("chalk", "g1"))) == [], "nothing is chalked yet"


def test_a_refusal_to_stay_awake_is_told_once(chalking):
    told = after(chalking, act.NotAwake())
    assert "does not keep the screen awake" in told.notice.words
    on = after(told, act.MarkDone("g1", items(chalking)[0].key))
    assert on.notice is None
    assert after(on, act.NotAwake()) == on
    went = after(chalking, act.ChalkAt("g1", "front.waist"))
    assert after(went, act.NotAwake()).notice == went.notice, "an undo is not covered"
    assert not after(went, act.NotAwake()).book.settings.awake_told
    away = after(chalking, act.Go(Place("paper", "g1")))
    assert after(away, act.NotAwake()).notice is None


# ---- The app itself -------------------------------------------------------------------------------------------------


def test_light_is_kept_and_a_notice_can_be_closed(demo):
    assert after(demo, act.SetLight("dark")).book.settings.light == "dark"
    seen = after(demo, act.SeeFrom("right", "near"))
    assert (seen.book.settings.fold, seen.book.settings.top) == ("right", "near")
    assert asks.SaveBook() in asked(demo, act.SeeFrom("right", "near"))
    assert asks.SaveBook() in asked(demo, act.SetLight("dark"))
    deleted = after(demo, act.DeleteGarment("g1"))
    assert after(deleted, act.CloseNotice()).notice is None
    assert update(demo, act.UndoLast()) == (demo, ())


def test_trouble_keeps_the_book_and_leaves_for_home(demo):
    state = after(demo, act.Troubled("where it happened"))
    assert state.trouble == Trouble("where it happened")
    assert state.book == demo.book
    left, asking = update(state, act.LeaveTrouble())
    assert (left.trouble, left.place) == (None, Place())
    assert (left.book.people, left.book.garments) == (demo.book.people, demo.book.garments)
    assert asks.GoTo("/") in asking


def test_a_report_holds_nothing_that_was_typed():
    from app.effects import report_of

    try:
        int("Ngozi 987654321")
    except ValueError as failure:
        report = report_of(failure, "TypeMeasure")
    assert "ValueError" in report
    assert "TypeMeasure" in report
    assert "Ngozi" not in report
    assert "987654321" not in report


def test_update_changes_nothing_in_place(demo):
    before = texts(demo)
    after(demo, act.TypeMeasure("p2", "bust_girth", "1"), act.SetStyle("g1", "fit", "close"),
          act.SetCloth("g1", "width", "1"), act.DeleteGarment("g1"))  # fmt: skip
    assert texts(demo) == before


def test_the_view_and_the_way_of_measuring_are_remembered(demo):
    settings = demo.book.settings
    assert (settings.view, settings.measuring) == ("worn", "one")
    changed = after(demo, act.SetView("flat"), act.Go(Place("person", "g1", step=4)))
    assert changed.book.settings.view == "flat"
    assert asks.GoTo("/garment/g1/person/1") in asked(changed, act.SetMeasuring("list", 1))
    changed = after(changed, act.SetMeasuring("list", 1))
    assert (changed.book.settings.measuring, changed.place.step) == ("list", 1)
    kept = again(changed.book)
    assert (kept.settings.view, kept.settings.measuring) == ("flat", "list")
    old = after(State(), loaded({"book": '{"format": "foldmark-book", "version": 2, "settings": {}}'})).book
    assert (old.settings.view, old.settings.measuring) == ("worn", "one")


def test_another_tape_is_taken_only_where_it_was_kept(chalking, frozen):
    """What it reads is tried in test_reading_tape.py."""
    assert after(chalking, act.ReadOn("g1", "0.1")).book.garment("g1").reads == ""
    known = replace(chalking, frozen={"g1": replace(frozen, others={"0.1": OtherTape(says="It is too narrow.")})})
    refused = after(known, act.ReadOn("g1", "0.1"))
    assert refused.book.garment("g1").reads == ""
    assert "It is too narrow." in refused.notice.words


def test_what_is_chalked_can_be_kept_in_spite_of_changes(chalking):
    """What is compared is tried in test_changed.py."""
    kept = after(chalking, act.KeepChalked("g1", "abc"))
    assert kept.book.garment("g1").kept == "abc"
    assert asks.SaveBook() in asked(chalking, act.KeepChalked("g1", "abc"))
    assert after(kept, act.DraftAgain("g1")).book.garment("g1").kept == ""


def test_only_the_numbers_of_the_garment_itself_are_plain_numbers(demo):
    state = after(demo, act.SetStyle("g1", "overarm_angle", "12,5°"), act.SetStyle("g1", "hem_girth", "12,5"))
    style = order_of(state.garment, state.person)[0]["style"]
    assert (style["overarm_angle"], style["hem_girth"]) == (12.5, "12,5")


def test_another_garment_is_saved_and_drafted(demo):
    """What becomes of its choices is tried in test_which.py."""
    name = demo.garment.garment
    assert asked(demo, act.ChooseGarment("g1", name)) == []
    assert after(demo, act.ChooseGarment("g1", "no such garment")) == demo


def test_every_action_is_handled_and_tested_here():
    known = {each.__name__ for each in Action.__subclasses__()}
    from app.update import _HANDLERS

    assert {each.__name__ for each in _HANDLERS} == known
    beside = (
        Path(__file__).with_name(f"test_{name}.py")
        for name in ("measured", "found", "kept_cloth", "update_backup", "flat")
    )
    source = "".join(each.read_text("utf-8") for each in (Path(__file__), *beside))
    opened = {"Loaded"}  # by `loaded()`
    assert sorted(name for name in known - opened if f"act.{name}(" not in source) == []
