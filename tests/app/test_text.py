"""Every word stands in one place, is used, fits its values and is a word one says to a person with cloth in hand."""

import ast
import re
from pathlib import Path
from string import Formatter

import pytest
from fontTools.ttLib import TTFont

from app import screens, text
from app.state import SCREENS, STEPS
from app.text import WORDS, words
from drafting.garments.cut_in_one.style import Style
from tests.app.first_garment import PRESETS, garment_words

APP = Path(text.__file__).parent
ROOT = APP.parent
NOT_OURS = {"text.py", "storage.py", "storage_page.py", "storage_server.py"}  # storage brings its own words with it
SOURCES = [path for path in sorted(APP.rglob("*.py")) if path.name not in NOT_OURS]


def asked() -> list[tuple[str, str, list[str]]]:
    """File, key and names of values for each call of `words`; a part of a key that is reckoned is written as *."""
    found = []
    for path in SOURCES:
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "words":
                names = sorted({keyword.arg for keyword in node.keywords if keyword.arg})
                for key in keys(node.args[0]):
                    found.append((path.name, key, names))
    return found


def keys(node: ast.expr) -> list[str]:
    if isinstance(node, ast.Constant):
        return [str(node.value)]
    if isinstance(node, ast.IfExp):
        return keys(node.body) + keys(node.orelse)
    assert isinstance(node, ast.JoinedStr), "a key of words() can be read off"
    return ["".join(str(part.value) if isinstance(part, ast.Constant) else "*" for part in node.values)]


ASKED = asked()


def fits(pattern: str, key: str) -> bool:
    return re.fullmatch(re.escape(pattern).replace(r"\*", ".+"), key) is not None


def test_words_are_asked_for():
    assert len(ASKED) > 100


def test_every_key_that_is_asked_for_is_there_with_its_values():
    for name, key, values in ASKED:
        assert [known for known in WORDS if fits(key, known)], (name, key)
        if "*" not in key:
            assert {part for _, part, _, _ in Formatter().parse(WORDS[key]) if part} == set(values), (name, key)


def test_every_word_is_used():
    assert [key for key in WORDS if not any(fits(pattern, key) for _, pattern, _ in ASKED)] == []


def test_words_are_plain():
    unusual = re.compile(r"\b(invalid|error|null|none type|exception|failed|parameter|input)\b", re.IGNORECASE)
    every = [*WORDS.values(), *garment_words()]
    assert len(every) > 500
    for shown in every:
        assert not unusual.search(shown), shown
        assert shown == shown.strip()
        assert not [sign for sign in ("!", "  ", '"', "'", "...") if sign in shown], shown


@pytest.mark.parametrize("weight", ["Regular", "SemiBold"])
def test_the_fonts_have_every_sign_of_the_words(weight):
    glyphs = TTFont(ROOT / "assets" / "fonts" / f"FoldmarkSans-{weight}.ttf").getBestCmap()
    assert {sign for shown in (*WORDS.values(), *garment_words()) for sign in shown if ord(sign) not in glyphs} == set()


def test_every_screen_has_its_words():
    assert set(screens.ALL) == set(SCREENS)
    for step in STEPS:
        assert words(f"step.{step}")


def test_presets_set_the_same_keys_and_the_core_knows_them():
    first = next(iter(PRESETS.values()))
    for style in PRESETS.values():
        assert style.keys() == first.keys()
        given = {key: value for key, value in style.items() if value}
        Style.model_validate({key: float(value) if key == "overarm_angle" else value for key, value in given.items()})


def test_no_word_is_shown_that_does_not_stand_here():
    """A literal given to a part that shows words is a word out of place."""
    shown_by = {"say", "heading", "primary_button", "quiet_button", "section_fold", "field", "choices"}
    stray = []
    for path in (APP / "screens").glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "attr", "") in shown_by:
                literals = [arg for arg in node.args if isinstance(arg, ast.Constant) and isinstance(arg.value, str)]
                named = {
                    k.arg: k.value for k in node.keywords if k.arg in ("label", "title", "says", "note", "estimate")
                }
                literals += [value for value in named.values() if isinstance(value, ast.Constant) and value.value]
                stray += [f"{path.name}:{each.lineno}" for each in literals]
    assert stray == []
