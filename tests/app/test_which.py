"""More than one garment: which it is to be is asked first, and everything that follows is that garment's own."""

import json
from dataclasses import replace
from typing import Any

import flet as ft
import pytest
from flet.components.component import Renderer

from app import actions as act
from app.asked import asked_of
from app.changed import changed_of
from app.names import garment_name
from app.other_garment import made_as
from app.parts.tiles import MOST, tiling
from app.preset_pictures import garment_picture, preset_outline, preset_picture
from app.saved import KeptGarment, Unreadable, read
from app.screens import ALL
from app.screens.scene import Kept, Scene
from app.state import (
    Drafted,
    FrozenDraft,
    GarmentRecord,
    PersonRecord,
    Place,
    State,
    place_of,
)
from app.text import words
from app.theme import COLUMN, EDGE, TOUCH, look_for
from app.typed import order_of, order_text
from app.update import start, update
from drafting.garments import garments
from drafting.order import glance, make, read_order
from drafting.record.documents import draft_json
from tests.app import records
from tests.app.another_garment import ASKED, LABEL, NAME, PRESETS, alone, two  # noqa: F401 - fixtures
from tests.app.first_garment import GARMENT
from tests.app.records import loaded
from tests.app.test_on_person import fields_of, tapped
from tests.app.test_shown import DEMO, after, canvases, part, parts_of, said, screen

CLOTH = [act.SetCloth("g1", key, text) for key, text in (("width", "160"), ("stretch_across", "50"),
                                                         ("stretch_along", "30"))]  # fmt: skip
WAISTED = [act.TypeMeasure("p2", name, text) for name, text in (("stature", "168"), ("waist_girth", "77"),
                                                                ("hip_girth", "101"))]  # fmt: skip


def begun(*actions: act.Action) -> State:
    """A new garment in an empty book, after some actions."""
    return after(start("/")[0], loaded(), act.AddGarment(), *actions)


def skirt(*actions: act.Action) -> State:
    """A new skirt, after some actions."""
    return begun(act.ChooseGarment("g1", NAME), *actions)


def drafted(state: State) -> Drafted:
    """What the core answers at a glance for the garment as it is now."""
    typed, problems = order_of(state.garment, state.person)  # type: ignore[arg-type]
    order, found = (None, ()) if typed is None else read_order(typed)
    return Drafted("g1", typed or {}, None if order is None else glance(order), (*problems, *found))


@pytest.mark.usefixtures("alone")
def test_with_one_garment_nothing_is_asked() -> None:
    state = begun()
    assert state.place == Place("person", "g1")
    assert words("shape.which") not in screen(after(state, act.Go(Place("shape", "g1"))))
    assert tapped_back(after(state, act.Go(Place("person", "g1")))) == [act.Go(Place())]


def tapped_back(state: State) -> list[act.Action]:
    """What the way back sends."""
    sent: list[act.Action] = []
    with Renderer().with_context():
        kept = Kept()
        ALL[state.place.screen](Scene(state, sent.append, 390, 664, False, kept))
        top = kept._now["top"][1]
    back = next(each for each in every(top) if isinstance(each, ft.Semantics) and each.identifier == "back")
    next(each for each in every(back) if getattr(each, "on_click", None)).on_click(None)  # type: ignore[attr-defined]
    return sent


def every(control: Any) -> list[Any]:
    below = [getattr(control, "content", None), *(getattr(control, "controls", None) or [])]
    return [control, *(one for each in below if each is not None for one in every(each))]


@pytest.mark.usefixtures("two")
def test_which_garment_is_asked_first_and_each_is_seen() -> None:
    state = begun()
    assert state.place == Place("which", "g1")
    assert place_of(state.place.route) == state.place
    assert state.garment is not None
    assert state.garment.garment == GARMENT.name
    seen = screen(state)
    assert {words("which.title"), words("which.says"), GARMENT.label, LABEL} <= set(seen)
    assert words("which.kept") not in seen
    groups = named(state, "which-group")
    assert isinstance(groups.content, ft.RadioGroup)
    assert (groups.label, groups.content.value) == (words("which.title"), GARMENT.name)
    sent: list[act.Action] = []
    tile = named(state, f"which-{NAME}", sent=sent)
    assert len(canvases(tile)) >= 1, "it is drawn"
    next(each for each in every(tile) if getattr(each, "on_click", None)).on_click(None)  # type: ignore[attr-defined]
    assert sent == [act.ChooseGarment("g1", NAME)]
    assert tapped(state, words("next")) == [act.Go(Place("person", "g1"))]
    assert tapped_back(state) == [act.Go(Place())]
    assert tapped_back(after(state, act.Go(Place("person", "g1")))) == [act.Go(Place("which", "g1"))]


def named(
    state: State, identifier: str, width: float = 390, height: float = 664, sent: list[act.Action] | None = None
) -> Any:
    """The control of this name on the screen the state is at."""
    with Renderer().with_context():
        whole = ALL[state.place.screen](
            Scene(state, (sent if sent is not None else []).append, width, height, False, Kept())
        )
        parts = [each for one in parts_of(whole) for each in [*one.args, *one.kwargs.values()]]
        found = [each for one in (whole, *flat(parts)) for each in every(one)]
    return next(each for each in found if isinstance(each, ft.Semantics) and each.identifier == identifier)


def flat(controls: Any) -> list[ft.Control]:
    if isinstance(controls, (list, tuple)):
        return [one for each in controls for one in flat(each)]
    return [controls] if isinstance(controls, ft.Control) else []


@pytest.mark.usefixtures("two")
@pytest.mark.parametrize("way", ["one", "list"])
def test_a_skirt_asks_for_its_own_measures_alone(way: Any) -> None:
    state = skirt(act.SetMeasuring(way, 1))
    others = ("bust_girth", "upper_chest_girth", "waist_height", "knee_height")
    asks = asked_of(state.person, state.garment)  # type: ignore[arg-type]
    assert asks.asked == ASKED
    assert set(asks.others) <= set(others)
    if way == "list":
        assert fields_of(after(state, act.Go(Place("person", "g1", step=1)))) == [*ASKED, *asks.others]
    else:
        for step, name in enumerate(ASKED, start=1):
            page = after(state, act.Go(Place("person", "g1", step=step)))
            assert fields_of(page) == [name]
            assert words("person.measures", name=words("person.unnamed"), page=step, pages=len(ASKED)) in screen(page)
            assert (words("needed") in screen(page)) == (name != "waist_to_hip")
        assert fields_of(after(state, act.Go(Place("person", "g1", step=9)))) == list(asks.others)
    missing = screen(after(state, act.Go(Place("person", "g1", step=9)), *WAISTED[:2]))
    assert "Hip girth" in missing
    assert "Bust girth" not in missing[: missing.index(words("person.more.says"))] or way == "list"


@pytest.mark.usefixtures("two")
def test_what_is_missing_is_the_garments_own() -> None:
    state = skirt(act.Go(Place("proof", "g1")), *CLOTH, *WAISTED[:2])
    seen = screen(after(state, act.DraftCame(drafted(state))))
    assert "Hip girth" in seen
    assert "Bust girth" not in seen
    top = after(state, act.ChooseGarment("g1", GARMENT.name))
    assert "Bust girth" in screen(after(top, act.DraftCame(drafted(top))))


@pytest.mark.usefixtures("two")
def test_a_measure_of_another_garment_can_be_mended_and_is_not_lost() -> None:
    """A bust that cannot be read stops the skirt, so its field is there; and while it is being cleared, it stays."""
    state = skirt(*WAISTED, act.TypeMeasure("p2", "wrist_girth", "wide"), act.Go(Place("person", "g1", step=5)))
    assert "wrist_girth" in fields_of(state)
    typing = after(state, act.FocusMeasure("wrist_girth"), act.TypeMeasure("p2", "wrist_girth", ""))
    assert "wrist_girth" in fields_of(typing)
    assert "wrist_girth" not in fields_of(after(typing, act.FocusMeasure("bust_girth")))


@pytest.mark.usefixtures("two")
def test_a_person_is_counted_by_what_the_garment_asks() -> None:
    state = skirt(*WAISTED, act.ChoosePerson("g1", ""), act.Go(Place("person", "g1")))
    facts = words("person.facts", kind=words("kind.woman"), taken=3, asked=4)
    assert facts in said([each.kwargs.get("facts") for each in cards(state)]) or facts in screen(state)
    home = after(state, act.Go(Place()))
    assert words("person.facts", kind=words("kind.woman"), taken=3, asked=13) in screen(home)


def cards(state: State) -> list[Any]:
    with Renderer().with_context():
        return parts_of(ALL[state.place.screen](Scene(state, lambda _: None, 390, 664, False, Kept())))


@pytest.mark.usefixtures("two")
def test_the_shape_asks_what_the_skirt_asks_and_starts_from_its_presets() -> None:
    state = skirt(*WAISTED, *CLOTH, act.Go(Place("shape", "g1")))
    state = after(state, act.DraftCame(drafted(state)))
    assert state.drafted is not None
    assert state.drafted.result is not None, state.drafted.problems
    options = part(state, "preset").kwargs["options"]
    assert [each.value for each in options] == [each.key for each in PRESETS]
    assert all(each.picture is preset_picture(NAME, each.value) for each in options)
    names = {each.kwargs.get("identifier") for each in cards(state)}
    assert "length" in names
    assert not names & {"neck_height", "waist", "flare", "ease_bust"}
    assert words("shape.which") in screen(state)
    assert tapped(state, words("shape.which")) == [act.Go(Place("which", "g1"))]
    assert after(state, act.UsePreset("g1", "long")).garment.style == {"length": "ankle"}  # type: ignore[union-attr]
    assert after(state, act.UsePreset("g1", "dress")).garment.style == {}  # type: ignore[union-attr]


@pytest.mark.usefixtures("two")
def test_it_is_called_by_its_own_names() -> None:
    state = skirt(act.TypeName("p2", "Runa"))
    assert garment_name(state.book, state.garment) == "Sample skirt for Runa"  # type: ignore[arg-type]
    long = after(state, act.UsePreset("g1", "long"))
    assert garment_name(long.book, long.garment) == "Long skirt for Runa"  # type: ignore[arg-type]
    top = after(state, act.ChooseGarment("g1", GARMENT.name))
    assert garment_name(top.book, top.garment) == "Garment for Runa"  # type: ignore[arg-type]


@pytest.mark.usefixtures("two")
def test_the_order_names_the_garment_and_needs_no_bust() -> None:
    state = skirt(*WAISTED, *CLOTH)
    typed, problems = order_of(state.garment, state.person)  # type: ignore[arg-type]
    assert typed is not None, problems
    assert typed["garment"] == NAME
    assert json.loads(order_text(typed))["garment"] == NAME
    order, found = read_order(typed)
    assert order is not None, found
    assert not {each.measure for each in glance(order).estimates} & {"bust_girth", "neck_girth", "wrist_girth"}
    proof = after(state, act.Go(Place("proof", "g1")), act.DraftCame(drafted(state)))
    told = next(each for each in screen(proof) if each.startswith(words("proof.estimated", names="").rstrip(".")))
    assert "waist to hip" in told.lower()
    assert "bust" not in told.lower()
    taken = after(
        state, *(act.TypeMeasure("p2", name, text) for name, text in (("waist_to_hip", "21"), ("knee_height", "47")))
    )
    proof = after(taken, act.Go(Place("proof", "g1")), act.DraftCame(drafted(taken)))
    assert not [each for each in screen(proof) if each.startswith("Estimated")], "all that the skirt takes was taken"


@pytest.mark.usefixtures("two")
def test_a_garment_that_becomes_another_leaves_nothing_behind_and_gets_everything_back() -> None:
    state = begun(
        *WAISTED, *CLOTH, act.UsePreset("g1", "dress"), act.SetStyle("g1", "hem_girth", "140"),
        act.SetCloth("g1", "lay", "open"), act.StepSewn("g1", "hem"),
    )  # fmt: skip
    top = state.garment
    assert top is not None
    made = after(state, act.ChooseGarment("g1", NAME))
    assert made.garment is not None
    assert made.garment.style == {}
    assert "lay" not in made.garment.cloth
    assert made.garment.cloth["width"] == "160"
    assert made.garment.sewn == ()
    assert made.person == state.person
    assert words("which.kept") in screen(made)
    long = after(made, act.UsePreset("g1", "long"), act.SetCloth("g1", "lay", "half"))
    back = after(long, act.ChooseGarment("g1", GARMENT.name))
    assert back.garment is not None
    assert (back.garment.style, back.garment.cloth) == (top.style, top.cloth)
    again = after(back, act.ChooseGarment("g1", NAME))
    assert again.garment is not None
    assert (again.garment.style, again.garment.cloth["lay"]) == ({"length": "ankle"}, "half")
    assert set(again.garment.aside) == {GARMENT.name}
    assert records.again(again.book) == again.book
    assert after(again, act.ChooseGarment("g1", "no such garment")).garment == again.garment
    assert after(again, act.ChooseGarment("g1", NAME)).garment == again.garment


@pytest.mark.usefixtures("two")
def test_what_was_put_aside_keeps_its_lengths_in_another_unit() -> None:
    state = begun(act.SetStyle("g1", "hem_girth", "140"), act.SetStyle("g1", "overarm_angle", "15"))
    inches = after(state, act.ChooseGarment("g1", NAME), act.ChooseUnit("p2", "in"))
    back = after(inches, act.ChooseGarment("g1", GARMENT.name)).garment
    assert back is not None
    assert back.style == {"hem_girth": "140 cm", "overarm_angle": "15"}


@pytest.mark.usefixtures("two")
def test_no_draft_and_no_picture_of_the_garment_before_is_shown() -> None:
    state = begun(*WAISTED, act.TypeMeasure("p2", "bust_girth", "94"), *CLOTH)
    state = after(state, act.DraftCame(drafted(state)), act.Go(Place()))
    assert state.book.pictures.keys() == {"g1"}
    state = after(state, act.Go(Place("which", "g1")), act.DraftCame(drafted(state)))
    made = after(state, act.ChooseGarment("g1", NAME))
    assert made.drafted is None
    assert made.book.pictures == {}
    assert after(state, act.SetStyle("g1", "length", "knee")).drafted is state.drafted
    seen = screen(after(made, act.Go(Place("shape", "g1"))))
    assert words("shape.waiting") in seen


@pytest.fixture
def chalked(two: None) -> State:  # noqa: F811 - the fixture of this name
    """The demo garment as its chalking began."""
    state = after(start("/")[0], loaded(), act.AddDemo(DEMO))
    typed, _ = order_of(state.garment, state.person)  # type: ignore[arg-type]
    order, _ = read_order(typed)
    assert order is not None
    frozen = FrozenDraft(order_text(typed or {}), draft_json(make(order, with_ways_out=False)).decode())
    return after(state, act.StartChalking("g1"), act.Froze("g1", frozen), act.StepSewn("g1", "hem"))


def test_a_chalked_garment_that_becomes_another_says_so_and_can_go_back(chalked: State) -> None:
    assert chalked.garment is not None
    changed = after(chalked, act.ChooseGarment("g1", NAME), act.Go(Place("shape", "g1")))
    assert changed.garment is not None
    assert changed.garment.sewn == ("hem",), "what is chalked is sewn as it was chalked"
    changed = after(changed, act.DraftCame(replace(drafted(changed), laid=True)))
    seen = screen(changed)
    told = [each for each in seen if each.startswith(words("changed.garment"))]
    assert told == [f"Which garment it is: {GARMENT.label[0].lower()}{GARMENT.label[1:]} when it was chalked, "
                    "sample skirt now."]  # fmt: skip
    found = changed_of(changed.garment, changed.person, changed.frozen["g1"], None)
    assert found is not None
    assert found.says == tuple(told), "styles are not compared"
    assert (
        screen(after(changed, act.Go(Place("chalk", "g1"))))[0:1]
        == screen(after(chalked, act.Go(Place("chalk", "g1"))))[0:1]
    )
    back = after(changed, act.UsePreset("g1", "long"), act.PutBack("g1"))
    assert back.garment is not None
    assert (back.garment.garment, back.garment.style) == (GARMENT.name, chalked.garment.style)
    undone = after(back, act.UndoLast())
    assert undone.garment is not None
    assert (undone.garment.garment, undone.garment.style) == (NAME, {"length": "ankle"})


def test_what_would_move_is_not_counted_between_two_garments(chalked: State) -> None:
    changed = after(chalked, act.ChooseGarment("g1", NAME), act.Go(Place("shape", "g1")))
    typed, problems = order_of(changed.garment, changed.person)  # type: ignore[arg-type]
    order, _ = read_order(typed)
    assert order is not None
    known = Drafted("g1", typed or {}, make(order, with_ways_out=False), problems, laid=True)
    seen = after(changed, act.DraftCame(known))
    assert words("changed.another") in screen(seen)
    kept = next(each for each in tapped(seen, words("changed.keep")) if isinstance(each, act.KeepChalked))
    quiet = after(seen, kept)
    assert words("changed.title") not in screen(quiet)
    assert words("changed.title") not in screen(after(quiet, act.ChooseGarment("g1", GARMENT.name)))


def test_what_was_kept_of_one_garment_is_not_kept_of_another(chalked: State) -> None:
    """Both have the same choices, none at all, and differ in which garment it is."""
    assert chalked.garment is not None
    bare = after(chalked, *(act.SetStyle("g1", key, None) for key in chalked.garment.style))
    found = changed_of(bare.garment, bare.person, bare.frozen["g1"], None)  # type: ignore[arg-type]
    assert found is not None
    kept = after(bare, act.KeepChalked("g1", found.print))
    assert changed_of(kept.garment, kept.person, kept.frozen["g1"], None) is None  # type: ignore[arg-type]
    other = after(kept, act.ChooseGarment("g1", NAME))
    assert changed_of(other.garment, other.person, other.frozen["g1"], None) is not None  # type: ignore[arg-type]


def test_a_measure_the_chalked_garment_is_not_set_out_from_changes_nothing(chalked: State) -> None:
    seen = after(chalked, act.TypeMeasure("p2", "thigh_girth", "70"), act.Go(Place("shape", "g1")))
    assert words("changed.title") not in screen(seen)
    seen = after(chalked, act.TypeMeasure("p2", "upper_chest_girth", "95"), act.Go(Place("shape", "g1")))
    assert words("changed.title") in screen(seen)


def test_a_book_from_before_there_were_others_opens_as_it_did() -> None:
    state = begun(act.SetStyle("g1", "length", "knee"))
    saved = json.loads(records.texts(state)["garment.g1"])
    saved["garment"].pop("aside", None)
    del saved["garment"]["garment"]
    old = read("garment.g1", json.dumps(saved))
    assert isinstance(old, KeptGarment)
    assert old.garment == state.garment
    saved["garment"]["aside"] = {"one": 3}
    assert read("garment.g1", json.dumps(saved)) == Unreadable("damaged")


@pytest.mark.usefixtures("two")
def test_a_new_garment_is_what_the_newest_one_is() -> None:
    state = after(skirt(), act.AddGarment())
    assert state.garment is not None
    assert (state.garment.id, state.garment.garment) == ("g3", NAME)
    copied = after(state, act.CopyGarment("g1"))
    assert {each.garment for each in copied.book.garments} == {NAME}


@pytest.mark.usefixtures("two")
def test_who_has_been_measured_for_it_is_not_asked_again() -> None:
    demo = after(start("/")[0], loaded(), act.AddDemo(DEMO))
    changed = after(demo, act.Go(Place("which", "g1")))
    assert tapped(changed, words("next")) == [act.Go(Place("shape", "g1"))]
    without = after(changed, act.TypeMeasure("p2", "bust_girth", ""))
    assert tapped(without, words("next")) == [act.Go(Place("person", "g1"))]
    assert tapped(after(without, act.ChooseGarment("g1", NAME)), words("next")) == [act.Go(Place("shape", "g1"))]


@pytest.mark.usefixtures("two")
def test_a_garment_that_is_not_known_here_leads_to_the_choice() -> None:
    """As when a book comes from a newer app: it is kept, and another can be chosen."""
    state = begun(*WAISTED, *CLOTH, act.TypeMeasure("p2", "bust_girth", "94"))
    assert state.garment is not None
    strange = replace(state.garment, garment="of_tomorrow")
    state = replace(state, book=replace(state.book, garments=(strange,)))
    state = after(state, act.Go(Place("proof", "g1")))
    state = after(state, act.DraftCame(drafted(state)))
    assert words("missing.garment") in screen(state)
    assert tapped(state, words("missing.garment")) == [act.Go(Place("which", "g1"))]
    assert after(state, act.ChooseGarment("g1", NAME)).garment.garment == NAME  # type: ignore[union-attr]


@pytest.mark.usefixtures("two")
def test_a_garment_without_kept_pictures_is_drafted_when_it_is_shown() -> None:
    draw = garment_picture(NAME, 100)
    assert draw is not None
    assert garment_picture(NAME, 100) is draw
    canvas = canvases(draw(look_for("paper", False)))[0]
    assert (canvas.width, canvas.height) == (100, 100)
    outline = preset_outline(NAME, PRESETS[1])
    assert min(y for _, y in outline) > 300, "it begins at the waist"
    assert max(y for _, y in outline) > max(y for _, y in preset_outline(NAME, PRESETS[0])) + 200


@pytest.mark.parametrize(("width", "height"), [(390, 664), (390, 844), (1280, 800)])
def test_four_garments_go_on_a_page_without_scrolling(width: float, height: float) -> None:
    names = ["Sleeve cut in one with the body", "Circle skirt", "Dropped-shoulder pullover", "Poncho"]
    room, wide = height - 56 - 85 - 64 - 22.4 - 24, min(width, COLUMN) - 2 * EDGE
    laid = tiling(names, wide, room)
    rows = -(-len(names) // laid.columns)
    assert rows * laid.height + (rows - 1) * 8 <= room
    assert laid.columns * laid.width + (laid.columns - 1) * 8 == pytest.approx(wide)
    assert laid.width >= TOUCH
    assert 72 <= laid.picture <= MOST
    large = tiling(names, wide, room, 2.0)
    assert large.words > laid.words
    assert large.picture >= 72
    low = tiling(names, 528, 138)
    assert low.columns >= 3, "where all cannot be seen at once, the rows are few"


def test_the_words_of_a_tile_have_room_for_the_longest() -> None:
    laid = tiling(["Sleeve cut in one with the body", "Poncho"], 358, 400)
    assert laid.columns == 2
    assert laid.words >= 2 * 16 * 1.4
    assert tiling(["Incomprehensibilities", "Poncho"], 200, 400).columns == 1, "no word is broken"


def test_the_record_of_a_garment_is_made_another_only_by_its_name() -> None:
    record = GarmentRecord("g1", style={"length": "hip"}, chalking=True, sewn=("hem",))
    assert made_as(record, record.garment) is record
    other = made_as(record, "other")
    assert (other.garment, other.style, other.sewn) == ("other", {}, ("hem",))
    assert made_as(made_as(replace(record, style={}), "other"), record.garment).aside == {}
    assert asked_of(PersonRecord("p1"), None).asked[0] == "stature"
    assert update(State(loaded=True), act.ChooseGarment("g9", "other"))[0] == State(loaded=True)


def test_a_garment_without_starting_points_shows_none_and_has_its_picture(monkeypatch: pytest.MonkeyPatch) -> None:
    plain = replace(garments()["poncho"], presets=())
    monkeypatch.setitem(garments(), "poncho", plain)
    state = replace(begun(act.ChooseGarment("g1", plain.name)), place=Place("shape", "g1"))
    with Renderer().with_context():
        whole = ALL["shape"](Scene(state, lambda _: None, 390, 664, False, Kept()))
    found = {each.kwargs.get("identifier") for each in parts_of(whole)}
    assert "title" in found
    assert "preset" not in found
    assert garment_picture(plain.name, 96) is not None
    assert garment_name(state.book, state.garment).startswith(plain.label)
