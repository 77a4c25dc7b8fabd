import re
from dataclasses import fields
from pathlib import Path

import pytest

from app import theme
from app.theme import CLOTH, PAPER, PAPER_DARK, STARK, STARK_DARK, Look, contrast, look_for, see_through

LOOKS = {"PAPER": PAPER, "PAPER_DARK": PAPER_DARK, "CLOTH": CLOTH, "STARK": STARK, "STARK_DARK": STARK_DARK}
WORDS = ("ink", "soft", "accent", "stop", "caution", "good")
EDGES = ("edge", "faded")
GROUNDS = ("ground", "sheet", "well")
every_look = pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS.keys())


def test_contrast_agrees_with_the_ends_of_the_scale_and_published_pairs() -> None:
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)
    assert contrast("#777777", "#777777") == pytest.approx(1)
    # WCAG, understanding 1.4.3: #767676 is the lightest grey that keeps 4.5 on white, #777777 falls short of it.
    assert contrast("#767676", "#FFFFFF") >= 4.5 > contrast("#777777", "#FFFFFF")


@every_look
def test_words_keep_aa_on_every_ground(look: Look) -> None:
    for name in WORDS:
        for ground in GROUNDS:
            assert contrast(getattr(look, name), getattr(look, ground)) >= 4.5, (name, ground)


@every_look
def test_readings_keep_aaa(look: Look) -> None:
    for name in ("ink", "accent"):
        for ground in ("ground", "sheet"):
            assert contrast(getattr(look, name), getattr(look, ground)) >= 7, (name, ground)


@every_look
def test_words_on_a_fill_keep_aaa(look: Look) -> None:
    assert contrast(look.on_deed, look.deed) >= 7
    assert contrast(look.on_tape, look.tape) >= 7


@pytest.mark.parametrize("look", [STARK, STARK_DARK], ids=["light", "dark"])
def test_forced_colours_keep_aaa_and_every_line_is_seen(look: Look) -> None:
    for ground in GROUNDS:
        for name in WORDS:
            assert contrast(getattr(look, name), getattr(look, ground)) >= 7, (name, ground)
        for name in (*EDGES, "hair"):
            assert contrast(getattr(look, name), getattr(look, ground)) >= 4.5, (name, ground)
    assert look_for("paper", look.dark, True) is look_for("cloth", look.dark, True) is look
    assert {look.ink, look.ground} == {"#000000", "#FFFFFF"}


@every_look
def test_edges_of_controls_and_done_marks_are_seen(look: Look) -> None:
    for name in EDGES:
        for ground in GROUNDS:
            assert contrast(getattr(look, name), getattr(look, ground)) >= 3, (name, ground)


@every_look
def test_the_tape_stands_out_on_cloth_and_the_deed_on_every_ground(look: Look) -> None:
    assert contrast(look.deed, look.ground) >= 3
    assert contrast(CLOTH.tape, CLOTH.ground) >= 3


def test_the_ratios_beside_the_tokens_are_true() -> None:
    source = Path(theme.__file__).read_text("utf-8")
    told = 0
    for name, look in LOOKS.items():
        start = source.index(f"\n{name}: Final")
        body = source[start : source.index("\n)\n", start)]
        for token, colour, note in re.findall(r'^    (\w+)="(#\w{6})",  # ([\d., ]+)$', body, re.MULTILINE):
            assert getattr(look, token) == colour
            on = (token.removeprefix("on_"),) if token.startswith("on_") else GROUNDS
            found = [f"{contrast(colour, getattr(look, ground)):.1f}" for ground in on]
            assert note.split(", ") == found, (name, token)
            told += 1
    assert told == len(LOOKS) * (len(WORDS) + len(EDGES) + 2)


def test_colours_are_well_formed_and_dark_turns_paper_only() -> None:
    for look in LOOKS.values():
        for field in fields(look):
            if field.name not in ("name", "dark"):
                assert re.fullmatch(r"#[0-9A-F]{6}", getattr(look, field.name)), field.name
    assert look_for("cloth", True) is look_for("cloth", False) is CLOTH
    assert look_for("paper", True) is PAPER_DARK
    assert look_for("paper", False) is PAPER
    assert see_through("#123456", 0.5) == "#80123456"


def test_sizes_keep_the_grid_and_the_fonts_are_there() -> None:
    assert all(size % theme.GRID == 0 for size in (theme.GAP, theme.EDGE, theme.TOUCH, theme.COLUMN, theme.WIDE))
    assert theme.TOUCH >= 48
    assets = Path(theme.__file__).parents[1] / "assets"
    for file in theme.FONTS.values():
        assert (assets / file).is_file()


def test_page_themes_can_be_made() -> None:
    for dark in (False, True):
        assert theme.page_theme(dark).font_family == theme.FONT
        stark = theme.page_theme(dark, True).color_scheme
        assert stark is not None
        assert stark.surface == ("#000000" if dark else "#FFFFFF")
