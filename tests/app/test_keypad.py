"""The keypad: what its keys write, where they lie, and which field they belong to."""

import asyncio
from itertools import pairwise

import flet as ft
import pytest
from flet.components.component import Renderer
from hypothesis import given
from hypothesis import strategies as st

from app import actions as act
from app import parts
from app.main import typed_by_touch
from app.parts.hand import BACK_WITHIN, LEAVE_AFTER, Hand, Held, boxes_in
from app.parts.keypad import TALL
from app.parts.keypad_keys import LONGEST, WRITES, Kind, press, rows
from app.parts.named import Described
from app.screens import ALL
from app.screens.scene import Kept, Scene
from app.state import Place
from app.theme import GAP, PAPER, TOUCH
from app.update import start, update
from drafting.units import CM, INCH, LengthProblem, Unit, read_length
from tests.app.records import loaded


def typed(*keys: str, start: str = "") -> str:
    text = start
    for key in keys:
        text = press(text, key)
    return text


FORMS: list[tuple[Unit, str, str]] = [
    ("cm", "2 6 point 5", "26.5"),
    ("cm", "2 6 comma 5", "26,5"),
    ("cm", "comma 5", ",5"),
    ("cm", "2 6 4/8", "26½"),
    ("cm", "2 6 5 mm", "265 mm"),
    ("cm", "1 point 7 1 m", "1.71 m"),
    ("cm", "1 m 6 2", "1 m 62"),
    ("cm", "1 m 6 2 5 mm", "1 m 625 mm"),
    ("cm", "1 0 4/8 in", "10½ in"),
    ("in", "1 0 1/8", "10⅛"),
    ("in", "2/8", "¼"),
    ("in", "1 0 space 1 slash 3", "10 1/3"),
    ("in", "3 slash 8", "3/8"),
    ("in", "1 0 point 5 in", "10.5 in"),
    ("in", "5 ft 4", "5' 4"),
    ("in", "5 ft 4 4/8 in", "5' 4½\""),
    ("in", "1 yd 4 in", "1 yd 4 in"),
    ("in", "1 yd 1 ft", "1 yd 1 ft"),
    ("in", "2 6 cm", "26 cm"),
    ("in", "minus 2 4/8", "−2½"),
]
"""A length of every form that is read, by the keys, and as it is written elsewhere."""


@pytest.mark.parametrize(("unit", "keys", "form"), FORMS)
def test_every_form_of_a_length_can_be_typed(unit: Unit, keys: str, form: str) -> None:
    wanted = read_length(form, unit, signed=True)
    assert isinstance(wanted, float)
    assert read_length(typed(*keys.split()), unit, signed=True) == wanted
    there = {key for more in (False, True) for line in rows(unit, signed=True, more=more) for key, _ in line}
    assert set(keys.split()) <= there


@pytest.mark.parametrize("number", range(1, 8))
def test_every_eighth_of_an_inch_is_one_tap(number: int) -> None:
    assert read_length(typed("1", "0", f"{number}/8"), "in") == pytest.approx((10 + number / 8) * INCH)


@pytest.mark.parametrize(
    ("before", "key", "after"),
    [
        ("10 ⅛", "2/8", "10 ¼"),
        ("10 ⅛", "1/8", "10"),
        ("10 ⅛", "5", "105 ⅛"),
        ("⅛", "5", "5 ⅛"),
        ("26 cm", "5", "265 cm"),
        ("26 cm", "cm", "26"),
        ("26 cm", "in", "26 in"),
        ("26 ½ cm", "5", "265 ½ cm"),
        ("5 ft 4", "4/8", "5 ft 4 ½"),
        ("1 m", "5", "1 m 5"),
        ("26.5", "point", "26.5"),
        ("26,5", "point", "26,5"),
        ("10 1/2", "slash", "10 1/2"),
        ("", "slash", ""),
        ("", "space", ""),
        ("", "cm", ""),
        ("2", "minus", "−2"),
        ("−2", "minus", "2"),
        ("-2", "minus", "2"),
        ("−2", "4/8", "−2 ½"),
        ("40 %", "5", "405 %"),
        ("26 cm", "back", "26"),
        ("10 ⅛", "back", "10"),
        ("10 1", "back", "10"),
        ("1 m", "back", "1"),
        ("5", "back", ""),
        ("", "back", ""),
        ("about 10", "5", "about 105"),
    ],
)
def test_what_a_key_makes_of_the_text(before: str, key: str, after: str) -> None:
    assert press(before, key) == after


@given(st.text(max_size=50), st.sampled_from([*WRITES, "back"]))
def test_a_key_makes_the_best_of_any_text(text: str, key: str) -> None:
    after = press(text, key)
    if key == "back":
        assert len(after) < len(text) or not text.strip()
        assert text.startswith(after)
    elif len(text) >= LONGEST and key != "minus":
        assert after == text


@given(st.lists(st.sampled_from([str(digit) for digit in range(10)]), min_size=1, max_size=30))
def test_digits_stand_as_they_were_tapped_and_are_deleted_one_by_one(keys: list[str]) -> None:
    text = typed(*keys)
    assert text == "".join(keys)
    assert typed(*["back"] * (len(keys) - 1), start=text) == keys[0]


def keys_of(kind: Kind, *, signed: bool = False) -> set[str]:
    return {key for more in (False, True) for line in rows(kind, signed=signed, more=more) for key, _ in line if key}


def test_a_minus_is_there_only_where_it_has_a_meaning() -> None:
    for kind in ("cm", "in"):
        assert "minus" in keys_of(kind, signed=True)
        assert "minus" not in keys_of(kind)
    assert keys_of("whole") == {*"0123456789", "back", "next"}
    assert keys_of("number") == {*"0123456789", "comma", "point", "back", "next"}


@pytest.mark.parametrize("kind", ["cm", "in", "number", "whole"])
@pytest.mark.parametrize("more", [False, True])
@pytest.mark.parametrize("signed", [False, True])
@pytest.mark.parametrize(("width", "height", "flat"), [(360, 640, False), (390, 844, False), (600, 390, True),
                                                       (844, 390, True)])  # fmt: skip
def test_keys_are_large_and_apart(
    kind: Kind, more: bool, signed: bool, width: float, height: float, flat: bool
) -> None:
    """From the drawn keypad: no key narrower or lower than a finger, 8 px between, all on the page."""
    names = ("keypad", "next", "more.sign", "digits.sign", *keys_of(kind, signed=True))
    pad = parts.keypad(
        PAPER, kind=kind, signed=signed, more=more, width=width, height=height, flat=flat,
        says={name: name for name in names}, on_press=lambda key: None, on_touch=lambda: None,
    )  # fmt: skip
    column = pad.content.content.controls[0].content.content
    room = pad.content.content.controls[0].content.width
    assert room + 2 * GAP <= width
    assert column.spacing == GAP
    widths = [sum(key.expand for key in row.controls) for row in column.controls]
    for row, total in zip(column.controls, widths, strict=True):
        assert row.spacing == GAP
        for key in row.controls:
            assert (room - GAP * (len(row.controls) - 1)) * key.expand / total >= TOUCH
            high = (key.content.content.content if isinstance(key, ft.GestureDetector) else key).height
            assert high == (TALL if height == 844 else TOUCH)
    if flat:
        counts = [len(row.controls) for row in column.controls]
        assert max(counts) - min(counts) <= 1 or len(counts) == 1 or counts[-1] >= max(counts) - len(counts)
        assert len(counts) <= (2 if width == 844 else 3)


def test_long_rows_have_the_digits_first_and_the_way_on_last() -> None:
    first, *_, last = rows("in", signed=False, more=False, columns=14)
    assert [key for key, _ in first][:10] == list("1234567890")
    assert last[-1][0] == "next"
    assert [key for key, _ in last][:7] == [f"{number}/8" for number in range(1, 8)]


class Field:
    """A field that can be held, and what happened to it."""

    def __init__(self, identifier: str, kind: Kind = "cm") -> None:
        self.text, self.lefts = "", 0
        self.held = Held(identifier, kind, False, lambda: self.text, self._write, self._left, None)

    def _write(self, text: str) -> None:
        self.text = text

    def _left(self) -> None:
        self.lefts += 1


def held(hand: Hand) -> str:
    return hand.now.identifier if hand.now else ""


def test_keys_write_into_the_field_in_hand_until_it_is_left() -> None:
    async def job() -> None:
        drawn: list[str] = []
        hand = Hand(lambda: drawn.append(held(hand)))
        one, other = Field("one"), Field("other")
        assert hand.take(one.held, touched=True)
        for key in "17":
            hand.press(key)
        hand.press("4/8")
        hand.press("back")
        assert (one.text, one.lefts) == ("17", 0)
        hand.take(other.held, touched=False)
        hand.press("5")
        assert (one.text, one.lefts, other.text) == ("17", 1, "5")
        hand.press("more")
        assert hand.more
        hand.press("digits")
        assert not hand.more
        hand.put_away()
        hand.press("5")
        assert (other.text, other.lefts, hand.now) == ("5", 1, None)
        assert drawn == ["one", "other", "other", "other", ""]

    asyncio.run(job())


def test_a_touch_beside_the_field_leaves_it_unless_a_key_was_touched() -> None:
    async def job() -> None:
        hand = Hand(lambda: None)
        one = Field("one")
        hand.take(one.held, touched=True)
        hand.loosen("another")
        await asyncio.sleep(LEAVE_AFTER * 1.5)
        assert held(hand) == "one"
        hand.loosen("one")
        hand.keep()  # a finger comes down on a key, and rests there
        await asyncio.sleep(LEAVE_AFTER * 1.5)
        assert (held(hand), one.lefts) == ("one", 0)
        hand.loosen("one")
        hand.press("5")
        await asyncio.sleep(LEAVE_AFTER * 1.5)
        assert (held(hand), one.text, one.lefts) == ("one", "5", 0)
        hand.loosen("one")
        await asyncio.sleep(LEAVE_AFTER * 1.5)
        assert (held(hand), one.lefts) == ("", 1)

    asyncio.run(job())


def test_the_focus_that_falls_back_brings_no_keypad_and_a_touch_does() -> None:
    async def job() -> None:
        hand = Hand(lambda: None)
        one = Field("one")
        hand.take(one.held, touched=False)
        hand.put_away()
        assert not hand.take(one.held, touched=False)
        assert hand.now is None
        assert hand.take(Field("other").held, touched=False)
        hand.put_away()
        hand.take(one.held, touched=True)
        hand.put_away()
        assert hand.take(one.held, touched=True)
        hand.put_away()
        await asyncio.sleep(BACK_WITHIN * 1.1)
        assert hand.take(one.held, touched=False)
        hand.forget()
        assert (hand.now, one.lefts) == (None, 3)

    asyncio.run(job())


def box_of(keys: Kind | None, wanted: bool, value: str = "17", **more: object) -> ft.TextField:
    (box,) = [each for each in field_of(keys, wanted, value, **more) if isinstance(each, ft.TextField)]
    return box


@pytest.mark.parametrize("value", ["", "17"])
def test_a_field_shows_its_unit_with_and_without_a_value(value: str) -> None:
    icon = box_of("cm", True, value, unit="cm").suffix_icon
    assert [each.value for each in every(icon) if isinstance(each, ft.Text)] == ["cm"]
    assert box_of("cm", True, "17 in", unit="cm").suffix_icon is None, "what is typed says its own"


def field_of(keys: Kind | None, wanted: bool, value: str, **more: object) -> list[object]:
    """All that a field is made of."""
    hand = Hand(lambda: None)
    hand.wanted = wanted
    with Renderer().with_context():
        part = parts.HAND(hand, lambda: parts.field(
            PAPER, identifier="f", label="l", value=value, on_change=lambda text: None, keys=keys, **more,
        ))  # fmt: skip
        page = ft.Column([part])
        part._parent_component = None
        part.before_update()
        assert [each.data for each in boxes_in(page)] == (["f"] if keys else [])
        return every(part._b)


def every(control: object) -> list[object]:
    if isinstance(control, (list, tuple)):
        return [one for each in control for one in every(each)]
    below = [getattr(control, name, None) for name in ("content", "controls")]
    return [control, *(one for each in below if each is not None for one in every(each))]


def test_the_keyboard_of_the_device_stays_away_only_where_ours_comes() -> None:
    kinds = ft.KeyboardType
    assert box_of("cm", True).keyboard_type == kinds.NONE
    assert box_of("cm", False).keyboard_type == kinds.NUMBER
    assert box_of(None, True).keyboard_type == kinds.TEXT
    assert not box_of("cm", True).read_only, "a real keyboard still types"


def test_only_names_are_capitalised_and_corrected() -> None:
    for box in (box_of("cm", True), box_of("cm", False), box_of(None, True)):
        assert (box.autocorrect, box.enable_suggestions, box.capitalization) == (
            False,
            False,
            ft.TextCapitalization.NONE,
        )
    named = box_of(None, True, name=True)
    assert (named.autocorrect, named.capitalization) == (True, ft.TextCapitalization.WORDS)


@pytest.mark.parametrize(
    ("value", "own"),
    [
        *(("", False), ("17", False), ("10½", False), ("10 1/2 ", False), ("17,", False)),
        *(
            ("168 cm", True),
            ("14 in ", True),
            ("5' 4\"", True),
            ("5'", True),
            ("5′", True),
            ("5″", True),
            ("50 %", True),
        ),
    ],
)
def test_a_unit_stands_in_a_field_once(value: str, own: bool) -> None:
    assert (box_of("cm", False, value, unit="cm").suffix_icon is None) == own
    assert box_of("cm", False, value).suffix_icon is None
    (heard,) = [each.label for each in field_of("cm", False, value, unit="cm") if isinstance(each, Described)]
    typed = f"l: {value.strip()}" if own else f"l: {value.strip()} cm"
    assert heard == (typed if value else "l, cm")


def test_the_usual_keys_are_many_enough_for_a_tape() -> None:
    """10 cm is 3 15/16 in: a person with one tape types both units."""
    assert read_length(typed(*"10", "cm"), "in") == 10 * CM
    assert isinstance(read_length(typed("cm"), "in"), LengthProblem)
    for one, other in pairwise(("mm", "cm", "m", "in", "ft", "yd")):
        assert typed("1", one, other) == f"1 {other}"


class Shown:
    """A field drawn again and again, as a session does, for what it says and takes."""

    def __init__(self, **more: object) -> None:
        self.hand, self.typed = Hand(lambda: None), ""
        self.hand.wanted = True
        with Renderer().with_context():
            self.part = parts.HAND(self.hand, lambda: parts.field(
                PAPER, identifier="f", label="l", value="17", on_change=self._typed, keys="cm", **more,
            ))  # fmt: skip
            self.part.before_update()

    def _typed(self, text: str) -> None:
        self.typed = text

    def again(self) -> None:
        with Renderer().with_context():
            self.part.before_update()

    @property
    def box(self) -> ft.TextField:
        (box,) = [each for each in every(self.part._b) if isinstance(each, ft.TextField)]
        return box

    def says(self) -> list[str]:
        return [each.value for each in every(self.part._b) if isinstance(each, ft.Text)]


def test_a_field_is_judged_when_it_is_left_and_not_at_the_first_digit() -> None:
    async def job() -> None:
        shown = Shown(problem="Too short.", warning="Look again.", instead=parts.Instead("Write 17 in", "17 in"))
        told = {"Too short.", "Look again.", "Write 17 in"}
        assert told <= set(shown.says()), "what was left before is told"
        shown.box.on_focus(None)  # type: ignore[misc, call-arg]
        shown.again()
        assert told <= set(shown.says()), "and still told while nothing new is typed"
        shown.hand.press("1")
        assert shown.typed == "171"
        shown.again()
        assert told.isdisjoint(shown.says())
        assert shown.box.value == "171"
        assert PAPER.stop not in str(shown.box.border), "nor is its edge red"
        shown.hand.put_away()
        shown.again()
        assert told <= set(shown.says())
        assert PAPER.stop in str(shown.box.border)

    asyncio.run(job())


def test_what_is_typed_on_a_real_keyboard_is_judged_when_it_is_left_too() -> None:
    async def job() -> None:
        shown = Shown(problem="Too short.")
        shown.hand.wanted = False
        shown.again()
        box = shown.box
        box.value = "175"
        box.on_change(type("Event", (), {"control": box})())  # type: ignore[misc, operator]
        shown.again()
        assert "Too short." not in shown.says()
        assert (shown.typed, shown.box.value) == ("175", "175")
        shown.box.on_blur(None)  # type: ignore[misc, call-arg]
        shown.again()
        assert "Too short." in shown.says()

    asyncio.run(job())


@pytest.mark.parametrize(
    ("platform", "width", "ours"),
    [
        (ft.PagePlatform.ANDROID, 915, True),
        (ft.PagePlatform.IOS, 1180, True),
        (ft.PagePlatform.LINUX, 390, True),
        (ft.PagePlatform.LINUX, 899, True),
        (ft.PagePlatform.LINUX, 900, False),
        (ft.PagePlatform.WINDOWS, 1280, False),
    ],
)
def test_the_keypad_comes_on_phones_and_on_pages_as_small(platform: ft.PagePlatform, width: int, ours: bool) -> None:
    page = type("Page", (), {"platform": platform, "width": width})()
    assert typed_by_touch(page) == ours


def test_the_keypad_takes_the_place_of_the_foot() -> None:
    def named_in(hand: Hand) -> set[str]:
        state = start("/")[0]
        for action in (loaded(), act.AddPerson(), act.AddGarment("p1"),
                       act.Go(Place("cloth", "g2"))):  # fmt: skip
            state = update(state, action)[0]
        scene = Scene(state, lambda action: None, 390, 664, False, Kept(), hand=hand)
        with Renderer().with_context():
            drawn = ALL["cloth"](scene)
        return {each.identifier for each in every(drawn) if isinstance(each, ft.Semantics) and each.identifier}

    async def job() -> None:
        hand = Hand(lambda: None)
        without = named_in(hand)
        assert "next" in without
        assert "keypad" not in without
        hand.take(Field("cloth-width").held, touched=True)
        with_keys = named_in(hand)
        assert "next" not in with_keys
        assert {"keypad", "key-5", "key-next"} <= with_keys

    asyncio.run(job())
