"""What is kept of a screen from one drawing to the next."""

import flet as ft
import pytest

from app.screens.scene import Kept


def drawn(kept: Kept, screen: str, only: tuple[str, ...] | None = None, **depends: int) -> dict[str, ft.Control]:
    """Draw one screen of regions, each with what it depends on."""
    kept.begin(screen, only)
    return {key: kept.region(key, (value,), ft.Container) for key, value in depends.items()}


def test_a_region_is_itself_until_what_it_depends_on_changes():
    kept = Kept()
    first, second = drawn(kept, "a", one=1, two=1), drawn(kept, "a", one=1, two=2)
    assert second["one"] is first["one"]
    assert second["two"] is not first["two"]
    assert second["two"].key == first["two"].key == "two"
    assert drawn(kept, "a", one=1, two=1)["two"] is not first["two"]


def test_what_left_the_screen_comes_back_anew():
    kept = Kept()
    first = drawn(kept, "a", one=1, two=1)
    drawn(kept, "a", two=1)
    assert drawn(kept, "a", one=1)["one"] is not first["one"]
    other = drawn(kept, "b", one=1)["one"]
    assert drawn(kept, "a", one=1)["one"] is not other


def test_in_a_hurry_the_others_wait_but_are_not_forgotten():
    kept = Kept()
    first = drawn(kept, "a", one=1, two=1)
    hurried = drawn(kept, "a", ("one",), one=2, two=2, three=1)
    assert hurried["one"] is not first["one"]
    assert hurried["two"] is first["two"]
    after = drawn(kept, "a", one=2, two=2, three=1)
    assert after["one"] is hurried["one"]
    assert after["two"] is not first["two"]
    assert after["three"] is hurried["three"]


def test_two_regions_of_one_name_are_refused():
    kept = Kept()
    kept.begin("a")
    kept.region("one", (), ft.Container)
    with pytest.raises(ValueError, match="one"):
        kept.region("one", (), ft.Container)
