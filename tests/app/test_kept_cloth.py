"""Cloths that are kept by name: used again, washed or not, and shorter by what was cut from them."""

import json
from dataclasses import replace

import pytest

from app import actions as act
from app.screens.kept_cloth import cloth_words
from app.state import ClothRecord, Drafted, FrozenDraft, Place, State
from app.text import words
from app.typed import order_of
from app.update import update
from drafting.order import make, read_order
from drafting.record.documents import draft_json
from drafting.units import read_length
from tests.app.records import again
from tests.app.test_shown import after, demo, screen


@pytest.fixture(scope="module")
def kept() -> State:
    """The demo whose cloth is kept by name, 3 m of it, with its draft laid."""
    state = after(demo(), act.SetCloth("g1", "length", "3 m"), act.KeepCloth("g1"))
    cloth = state.book.cloths[0]
    state = after(state, act.TypeClothName(cloth.id, "Blue jersey"))
    typed = order_of(state.garment, state.person)[0]
    order, _ = read_order(typed)
    return after(state, act.DraftCame(Drafted("g1", typed, make(order, with_ways_out=False), (), laid=True)))


def test_what_is_known_of_the_cloth_is_kept_and_nothing_of_how_it_is_laid(kept):
    cloth = kept.book.cloths[0]
    assert (cloth.id, cloth.name, cloth.unit, cloth.washed) == ("c3", "Blue jersey", "cm", False)
    assert cloth.facts["width"] == kept.garment.cloth["width"]
    assert not [key for key in cloth.facts if key.startswith(("lay", "test_"))]
    assert kept.garment.of_cloth == cloth.id
    assert again(kept.book) == kept.book
    laid = after(kept, act.SetCloth("g1", "lay", "half"), act.SetCloth("g1", "test_across_pulled", "14"))
    tested = after(laid, act.KeepCloth("g1")).book.cloths[0].facts
    assert tested == cloth.facts | {"stretch_across": "40"}, "what the test says is a fact of the cloth"


def test_another_garment_is_made_of_it_in_the_unit_of_its_person(kept):
    key = kept.book.cloths[0].id
    state = after(kept, act.AddPerson(), act.ChooseUnit("p4", "in"), act.AddGarment("p4"))
    new = state.garment.id
    used = after(
        state, act.SetCloth(new, "lay", "half"), act.SetCloth(new, "test_across_pulled", "5"), act.UseCloth(new, key)
    )
    cloth = used.garment.cloth
    assert read_length(cloth["width"], "in") == read_length(kept.garment.cloth["width"], "cm")
    assert (cloth["length"], cloth["stretch_across"]) == ("3 m", kept.garment.cloth["stretch_across"])
    assert "lay" not in cloth, "the way was taken for another cloth"
    assert cloth["test_across_pulled"] == "5"
    assert after(state, act.UseCloth(new, "gone")) == state


def test_what_was_washed_does_not_shrink_again(kept):
    key = kept.book.cloths[0].id
    state = after(kept, act.SetCloth("g1", "shrink_along", "5"), act.KeepCloth("g1"), act.SetWashed(key, True))
    assert after(state, act.UseCloth("g1", key)).garment.cloth["shrink_along"] == "0"
    back = after(state, act.SetWashed(key, False), act.UseCloth("g1", key))
    assert back.garment.cloth["shrink_along"] == "5"


def test_what_is_cut_is_taken_off_and_can_be_put_back(kept):
    result = kept.drafted.result
    cut = after(kept, act.SetState("g1", "cut"))
    left = read_length(cut.book.cloths[0].facts["length"], "cm")
    assert left == pytest.approx(3000 - result.layout.length, abs=0.51), "a length is said to half a millimetre"
    assert cut.notice.words.endswith("of Blue jersey is left.")
    assert after(cut, act.SetState("g1", "sewn")).book.cloths == cut.book.cloths, "it is cut once"
    back = after(cut, act.UndoLast())
    assert (back.book.cloths, back.garment.state) == (kept.book.cloths, "")
    short = after(kept, act.SetCloth("g1", "length", "10"), act.KeepCloth("g1"), act.SetState("g1", "cut"))
    assert read_length(short.book.cloths[0].facts["length"], "cm") == 0, "less than nothing is not left"


def test_what_was_not_cut_after_all_is_given_back_and_taken_off_once(kept):
    left = kept.book.cloths[0].facts["length"]
    cut = after(kept, act.SetState("g1", "cut"))
    taken = cut.garment.taken
    back = after(cut, act.SetState("g1", ""))
    assert read_length(back.book.cloths[0].facts["length"], "cm") == read_length(left, "cm")
    assert back.garment.taken == ""
    twice = after(back, act.SetState("g1", "cut"))
    assert (twice.book.cloths, twice.garment.taken) == (cut.book.cloths, taken), "to and fro takes no more cloth"
    other = after(twice, act.KeepCloth("g1"), act.DeleteCloth(kept.book.cloths[0].id), act.SetState("g1", ""))
    assert (other.garment.state, other.garment.taken, other.book.cloths) == ("", "", ())
    assert after(cut, act.CopyGarment("g1")).book.garments[0].taken == "", "nothing was cut for the copy"


def test_what_was_chalked_is_taken_off_whatever_is_chosen_since(kept):
    result = kept.drafted.result
    draft = json.loads(draft_json(result))
    draft["layout"]["length"] = 1234.0  # as it was drafted when the chalking began
    garment = replace(kept.garment, chalking=True)
    chalked = replace(
        kept, book=replace(kept.book, garments=(garment,)), frozen={"g1": FrozenDraft("{}", json.dumps(draft))}
    )
    for drafted in (kept.drafted, None):  # nor does it matter whether anything was drafted yet
        cut = after(replace(chalked, drafted=drafted), act.SetState("g1", "cut"))
        assert read_length(cut.book.cloths[0].facts["length"], "cm") == 3000 - 1234
    for frozen in ({}, {"g1": FrozenDraft("{}", "{}")}, {"g1": FrozenDraft("{}", "{")}):
        unknown = after(replace(chalked, frozen=frozen), act.SetState("g1", "cut"))
        assert "is not known" in unknown.notice.words, "what is drafted now is not what was cut"


def test_washing_a_cloth_holds_for_what_is_planned_of_it_and_loses_nothing(kept):
    key = kept.book.cloths[0].id
    state = after(kept, act.SetCloth("g1", "shrink_along", "5"), act.KeepCloth("g1"))
    washed = after(state, act.SetWashed(key, True))
    assert order_of(washed.garment, washed.person)[0]["cloth"]["shrink_along"] == 0
    assert washed.garment.cloth["width"] == state.garment.cloth["width"]
    fold = screen(after(washed, act.Go(Place("cloth", "g1"))))
    assert words("cloths.renew") not in fold, "it is as the cloth says"
    renewed = after(washed, act.SetCloth("g1", "width", "150"), act.KeepCloth("g1"))
    assert (renewed.book.cloths[0].facts["width"], renewed.book.cloths[0].facts["shrink_along"]) == ("150", "5")
    assert after(renewed, act.SetWashed(key, False)).garment.cloth["shrink_along"] == "5"
    begun = replace(state, book=replace(state.book, garments=(replace(state.garment, chalking=True),)))
    for further in (begun, after(state, act.SetState("g1", "cut"))):
        assert after(further, act.SetWashed(key, True)).garment == further.garment, "its marks are what they were"


def test_where_it_is_not_known_how_much_is_left_that_is_said(kept):
    for unknown in (replace(kept, drafted=None), after(kept, act.SetCloth("g1", "length", ""), act.KeepCloth("g1"))):
        cut = after(unknown, act.SetState("g1", "cut"))
        assert "is not known" in cut.notice.words
        assert cut.book.cloths == unknown.book.cloths
    loose = after(demo(), act.SetState("g1", "cut"))
    assert (loose.garment.state, loose.notice) == ("cut", None), "what is not kept is nobody's business"


def test_a_deleted_cloth_comes_back(kept):
    key = kept.book.cloths[0].id
    gone = after(kept, act.DeleteCloth(key))
    assert gone.book.cloths == ()
    assert gone.notice.words == "Blue jersey is deleted."
    assert after(gone, act.UndoLast()).book.cloths == kept.book.cloths
    assert after(gone, act.DeleteCloth(key)) == gone
    assert after(gone, act.KeepCloth("g1")).book.cloths[0].id != key


def test_another_tab_and_a_clash(kept):
    cloth = kept.book.cloths[0]
    theirs = replace(cloth, name="Red jersey")
    assert after(kept, act.RecordCame(f"cloth.{cloth.id}", theirs)).book.cloths == (theirs,)
    assert after(kept, act.RecordCame(f"cloth.{cloth.id}", None)).book.cloths == ()
    both = after(kept, act.Clashed(f"cloth.{cloth.id}", theirs), act.KeepBoth(f"cloth.{cloth.id}"))
    assert [each.name for each in both.book.cloths] == ["Red jersey", "Blue jersey, from this tab"]


def test_the_page_of_the_cloth_offers_it(kept):
    told = screen(after(kept, act.Go(Place("cloth", "g1"))))
    assert "From your cloths" in told
    cloth = kept.book.cloths[0]
    assert cloth_words(cloth) == "Blue jersey, 3 m left"
    assert cloth_words(replace(cloth, name=" ", facts={"length": "2.5"})) == "Cloth without a name, 2.5 cm left"
    assert cloth_words(replace(cloth, facts={})) == "Blue jersey"
    assert "Keep this cloth" in told
    assert "From your cloths" not in screen(after(demo(), act.Go(Place("cloth", "g1"))))
    assert isinstance(ClothRecord("c1"), ClothRecord)
    assert not [each for each in update(kept, act.KeepCloth("gone"))[1] if type(each).__name__ == "SaveBook"]
