"""Words of the trade explain themselves at a tap, where they stand on the screen."""

from typing import Any

import flet as ft
import pytest
from flet.components.component import Renderer

from app import actions as act
from app import parts
from app.screens import ALL
from app.screens.scene import Kept, Scene
from app.screens.trade_words import TRADE_WORDS, trade_word, words_told
from app.state import Place, State
from app.text import words
from app.theme import PAPER, SMALL, TOUCH
from app.update import start, update
from app.update_garment import chalking_of
from drafting.person.measures import asked_for
from tests.app.records import loaded
from tests.app.test_shown import after, being_chalked, demo


def every(control: Any) -> list[Any]:
    below = [getattr(control, "content", None), *(getattr(control, "controls", None) or [])]
    return [control, *(one for each in below if each is not None for one in every(each))]


def drawn(*, opened: bool) -> tuple[list[Any], list[str]]:
    """What an explained word is made of, and its words."""
    with Renderer().with_context():
        part = parts.explained(PAPER, identifier="word-ease", word="What is ease?", says="Room to move.").content
        part.before_update()
        if opened:
            part._state.hooks[0].value = True  # as the tap does
            part.before_update()
    found = every(part._b)
    return found, [each.value for each in found if isinstance(each, ft.Text)]


def test_a_tap_opens_its_sentence_under_it() -> None:
    found, said = drawn(opened=True)
    assert said == ["What is ease?", "Room to move."]
    head, told = [each for each in found if isinstance(each, ft.Semantics)]
    assert (head.expanded, told.identifier, told.live_region) == (True, "word-ease-says", True)


def test_the_word_has_a_dotted_line_a_name_and_room_for_a_finger() -> None:
    found, said = drawn(opened=False)
    assert said == ["What is ease?"]
    (line,) = [each for each in found if isinstance(each, ft.TextButton)]
    assert line.height >= TOUCH
    (word,) = [each for each in found if isinstance(each, ft.Text)]
    assert (word.style.decoration, word.style.decoration_style) == (
        ft.TextDecoration.UNDERLINE, ft.TextDecorationStyle.DOTTED,
    )  # fmt: skip
    assert word.style.size >= SMALL
    (head,) = [each for each in found if isinstance(each, ft.Semantics)]
    assert (head.identifier, head.expanded) == ("word-ease", False)


def shown(screen: str) -> set[str]:
    """The regions of a screen of the garment in work that explain a word."""
    state = start("/")[0]
    for action in (loaded(), act.AddPerson(), act.AddGarment("p1"), act.Go(Place(screen, "g2"))):  # type: ignore[arg-type]
        state = update(state, action)[0]  # fmt: skip
    scene = Scene(state, lambda action: None, 390, 664, False, Kept())
    with Renderer().with_context():
        ALL[state.place.screen](scene)
    return {key.removeprefix("word-") for key in scene.kept._now if key.startswith("word-")}


def told(state: State) -> set[str]:
    """The words that the screen of a state explains."""
    scene = Scene(state, lambda action: None, 390, 664, False, Kept())
    with Renderer().with_context():
        ALL[state.place.screen](scene)
    return {key.removeprefix("word-") for key in scene.kept._now if key.startswith("word-")}


def test_every_word_stands_on_a_screen() -> None:
    assert shown("cloth") == {"selvage", "nap", "recovery"}
    assert shown("shape") == {"pegged", "ease", "allowance"}
    listed = told(demo(act.SetMeasuring("list", 1), act.Go(Place("person", "g1", step=1))))
    assert listed == {"scye", "nape"}
    assert told(demo(act.Go(Place("person", "g1", step=99)))) == {"scye", "nape"}
    assert told(demo(act.Go(Place("person", "g1", step=1)))) == set(), "a stature needs no word of the trade"
    waist = asked_for("woman").index("back_neck_point_to_waist") + 1
    assert told(demo(act.Go(Place("person", "g1", step=waist)))) == {"nape"}
    chalking = being_chalked()
    assert chalk_words(chalking) == {"grain", "notch"}
    assert told(after(chalking, act.Go(Place("sew", "g1")))) == {"allowance", "selvage"}
    assert set(TRADE_WORDS) == shown("cloth") | shown("shape") | listed | {"grain", "notch"}


def chalk_words(state: State) -> set[str]:
    """All words explained on the way through the chalking."""
    garment = state.garment
    assert garment is not None
    chalking = chalking_of(state, garment)
    assert chalking is not None
    keys = [item.key for item in chalking.items if item.kind == "words"]
    return {word for key in keys for word in told(after(state, act.ChalkAt("g1", key)))}


def test_a_word_is_found_in_a_sentence_in_any_form_and_not_in_another_word() -> None:
    scene = Scene(start("/")[0], lambda action: None, 390, 664, False, Kept())
    with Renderer().with_context():
        assert len(words_told(scene, ["Snip the Notches.", "Grainy, topgrain, napes"])) == 2
    assert set(scene.kept._now) == {"word-notch", "word-nape"}


@pytest.mark.parametrize("word", TRADE_WORDS)
def test_an_explanation_is_one_sentence_that_names_the_word(word: str) -> None:
    says = words(f"word.{word}.says")
    assert says.count(".") == 1
    assert says.endswith(".")
    assert word in says.lower()
    assert words(f"word.{word}").endswith("?")
    assert len(says) <= 160


def test_an_unknown_word_is_a_slip_of_the_program() -> None:
    with pytest.raises(ValueError, match="nobody explained"):
        trade_word(Scene(start("/")[0], lambda action: None, 390, 664, False, Kept()), "warp")
