"""Readings as they are read aloud: each expectation is written by hand."""

import pytest

from app.chalking import Item
from app.spoken import aloud, reading, whole

EIGHTHS = {
    "17⅛": "seventeen and an eighth", "17¼": "seventeen and a quarter", "17⅜": "seventeen and three eighths",
    "17½": "seventeen and a half", "17⅝": "seventeen and five eighths", "17¾": "seventeen and three quarters",
    "17⅞": "seventeen and seven eighths", "17": "seventeen", "⅛": "an eighth", "¾": "three quarters", "0": "zero",
    "0⅜": "three eighths", "101½": "one hundred and one and a half",
}  # fmt: skip
TENTHS = {
    "43.0": "forty-three", "43.1": "forty-three point one", "43.2": "forty-three point two",
    "43.3": "forty-three point three", "43.4": "forty-three point four", "43.5": "forty-three and a half",
    "43.6": "forty-three point six", "43.7": "forty-three point seven", "43.8": "forty-three point eight",
    "43.9": "forty-three point nine", "0.0": "zero", "0.5": "a half", "0.3": "zero point three",
    "120.5": "one hundred and twenty and a half", "85": "eighty-five",
}  # fmt: skip
WHOLE = {
    0: "zero", 1: "one", 11: "eleven", 12: "twelve", 13: "thirteen", 15: "fifteen", 19: "nineteen", 20: "twenty",
    21: "twenty-one", 40: "forty", 58: "fifty-eight", 90: "ninety", 99: "ninety-nine", 100: "one hundred",
    112: "one hundred and twelve", 240: "two hundred and forty", 999: "nine hundred and ninety-nine",
}  # fmt: skip


@pytest.mark.parametrize(("shown", "heard"), [*EIGHTHS.items(), *TENTHS.items()])
def test_a_reading_is_said_in_whole_words(shown: str, heard: str) -> None:
    assert reading(shown) == heard


@pytest.mark.parametrize(("number", "heard"), WHOLE.items())
def test_whole_numbers(number: int, heard: str) -> None:
    assert whole(number) == heard


def test_no_two_readings_sound_alike() -> None:
    every = [f"{n}{part}" for n in range(1, 100) for part in ("", *"⅛¼⅜½⅝¾⅞")]
    assert len({reading(each) for each in every}) == len(every)
    tenths = [f"{n / 10:.1f}" for n in range(2000)]
    assert len({reading(each) for each in tenths}) == len(tenths)


@pytest.mark.parametrize("odd", ["", "about 5", "5.x", "1000", "-3"])
def test_what_is_no_reading_is_left_as_it_is(odd: str) -> None:
    assert reading(odd) == odd


def item(kind: str, says: str, *pairs: tuple[str, str], number: int = 0) -> Item:
    return Item("front.x", kind, "front", "Sleeve", says, number, pairs)  # type: ignore[arg-type]


def test_items_are_said_as_one_says_them_at_the_table() -> None:
    mark = item("mark", "underarm", ("across", "11½"), ("down", "17⅛"), number=13)
    assert aloud(mark) == "Mark 13, underarm. Eleven and a half across, seventeen and an eighth down."
    second = item("mark", "hem at the side", ("across", "28.0"), ("down_second", "5.5"), number=6)
    assert aloud(second) == ("Mark 6, hem at the side. Twenty-eight across, five and a half down from the second zero.")
    proof = item("proof", "(3) neck corner → (10) shoulder point", ("straight", "17.5"))
    assert aloud(proof) == "3, neck corner; 10, shoulder point. Seventeen and a half straight between them."
    assert aloud(item("words", "Press it flat.")) == "Sleeve. Press it flat."
    alone = item("words", "Rule the level across.", ("down", "39.5"))
    assert aloud(alone) == "Sleeve. Rule the level across. Down: thirty-nine and a half."
