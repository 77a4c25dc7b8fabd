"""Nothing outside a garment's folder looks at the name of a piece, edge, mark, level, girth, fact or style key.

The names are gathered from what the garments draft; every text in the code outside their folders is compared with them.
A text that is the same word for something else stands below with its reason.
"""

from __future__ import annotations

import ast
import re
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from drafting.garments import SetOut, garments
from drafting.order import prepare
from drafting.person.measures import MEASURES
from tests.drafting.bodies import BODIES, STYLES, order, read, set_out

ROOT = Path(__file__).resolve().parents[1]
#: Styles that cut further pieces or seams, beside those of the tests.
MORE = (
    {"lower_sleeve": "joined", "flare": "slight"},
    {"centre_back": "seam", "neck_opening": "centre_back", "neck_layers": "folded", "slit": "20 cm"},
    {"neck_opening": "centre_back"},
)
#: The same word for something else, by the words that are meant and where: a folder, or a file.
OTHERWISE = {
    "back": (
        "the way back, a key of the keypad, and the view of a body from behind",
        (
            "app/text.py", "app/parts/body_outline.py", "app/parts/keypad.py", "app/parts/keypad_keys.py",
            "app/parts/page_frame.py", "app/parts/signs.py", "app/screens/chalk.py", "app/screens/lay.py",
            "app/screens/scene.py",
        ),
    ),
    "fold": (
        "a fold of the cloth: how a piece lies, a kind of mark, step and line, and at which side one stands of it",
        (
            "app/chalking.py", "drafting/chalk", "drafting/contract/pieces.py", "drafting/drawing",
            "drafting/layout/at_table.py", "drafting/layout/laying_words.py", "drafting/render",
        ),
    ),
    "front": ("the view of a body", ("app/parts",)),
    "middle": ("from where a word is written", ("app/canvas.py", "drafting/drawing", "drafting/render")),
    "side": ("the view of a body", ("app/parts",)),
    "turn": (
        "the turned picture of a cloth, and the sign for it",
        ("app/parts/signs.py", "app/screens/chalk.py", "app/screens/changed_band.py", "app/screens/home.py"),
    ),
    "fit": (
        "how a picture fits its box, the sign for it, and how a garment sits that is measured flat",
        ("app/parts", "app/screens/lay.py", "drafting/person/flat_fields.py"),
    ),
    "gap": ("the room between the parts of a screen", ("app/parts",)),
    "body": ("a part of a web page, and of a message", ("app/server.py", "drafting/render/sheet_facts.py")),
    "length": (
        "how long a tape or a cloth is, a kind of field, and the name of a number in a sentence",
        (
            "app/changed.py", "app/chalking.py", "app/compared.py", "app/laying.py", "app/put_back.py",
            "app/screens/cloth.py", "app/screens/kept_cloth.py", "app/screens/shape.py", "app/sewing.py",
            "app/typed.py", "app/update_cloth.py", "drafting/cloth.py", "drafting/contract/fields.py",
            "drafting/layout/in_hand.py", "drafting/other_tape.py", "drafting/record/draft_file.py",
        ),
    ),
    "line": (
        "which line is chalked, and a kind of step",
        (
            "app/changed.py", "app/chalking.py", "app/compared.py", "app/put_back.py", "app/screens/cloth.py",
            "app/typed.py", "drafting/chalk/marks.py", "drafting/chalk/words/joining.py",
        ),
    ),
    "slit": ("a kind of step", ("app/chalking.py", "drafting/chalk/marks.py", "drafting/chalk/words/notches.py")),
}  # fmt: skip


def named(draft: SetOut) -> Iterator[str]:
    """Every name in a draft."""
    for piece in draft.pieces:
        yield from (piece.name, *(edge.name for edge in piece.edges), *(level.key for level in piece.levels))
        yield from (anchor.id for anchor in piece.anchors)
        yield from (part for notch in piece.notches for part in (notch.id, notch.seam))
        yield from (stage.key for stage in piece.stages)
        yield from (part for one in piece.parts for part in (one.id, one.begins))
        yield from (mark for guide in piece.guides for mark in (guide.id, *(mark.id for mark in guide.marks)))
    yield from (girth.at for girth in draft.girths)
    yield from (figure.at for figure in draft.figures)
    yield from (*draft.facts, *draft.points)


@cache
def names() -> frozenset[str]:
    """Every name that the garments use, but those of measures, which belong to the person."""
    found = {key for garment in garments().values() for key in garment.style.model_fields}
    found |= {field.key for garment in garments().values() for field in garment.fields}
    for body in ("median woman", "full bust", "child of 6"):
        for style in (*STYLES.values(), *MORE):
            found |= set(named(set_out(BODIES[body], style)))
    for name, garment in garments().items():
        for case in garment.cases.values():
            typed = order(BODIES["median woman"], dict(case.style), dict(case.cloth), garment=name)
            ready, _ = prepare(read(typed))
            assert ready is not None
            found |= set(named(ready.set_out()))
    return frozenset(found - MEASURES.keys())


def texts(path: Path) -> Iterator[str]:
    """Every text constant of a file but its docstrings."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    told = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in told:
            yield node.value


def outside() -> list[Path]:
    """The code outside the folders of the garments, and of the parts that they are made of."""
    folders = [*(ROOT / "drafting" / "garments" / garment for garment in garments()), ROOT / "drafting" / "parts"]
    every = [*(ROOT / "drafting").rglob("*.py"), *(ROOT / "app").rglob("*.py")]
    return sorted(path for path in every if not any(path.is_relative_to(folder) for folder in folders))


def looks_at(path: Path) -> dict[str, int]:
    """The names of garments that a file looks at, with how often."""
    where = path.relative_to(ROOT).as_posix()
    found: dict[str, int] = defaultdict(int)
    for text in texts(path):
        allowed = any(where == place or where.startswith(f"{place}/") for place in OTHERWISE.get(text, ("", ()))[1])
        if text in names() and not allowed:
            found[text] += 1
    return dict(found)


def test_names_were_gathered() -> None:
    assert {"front", "lower_sleeve", "sleeve_joint", "shoulder_point", "waist", "bust_level", "head_ring"} <= names()
    assert {"neck_lean", "allowances.side", "fold_over", "opening_end"} <= names()
    assert {"armhole", "cap_corner", "panel", "past_wrist", "waist_seam"} <= names(), "every garment's"
    assert len(outside()) > 100


@pytest.mark.parametrize("path", outside(), ids=lambda path: path.relative_to(ROOT).as_posix())
def test_no_file_outside_a_garment_looks_at_its_names(path: Path) -> None:
    assert looks_at(path) == {}


def test_a_look_at_a_name_is_seen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tests.test_garment_names.ROOT", tmp_path)
    (tmp_path / "app").mkdir()
    knowing = tmp_path / "app" / "knowing.py"
    knowing.write_text('"""hem"""\nif piece.name == "lower_sleeve" or at in {"hem", "back"}:\n    "waist"\n')
    assert looks_at(knowing) == {"lower_sleeve": 1, "hem": 1, "back": 1}


@pytest.mark.parametrize("word", OTHERWISE)
def test_each_exception_is_needed(word: str) -> None:
    places = [ROOT / place for place in OTHERWISE[word][1]]
    assert word in names()
    for place in places:
        files = [place] if place.suffix else list(place.rglob("*.py"))
        assert any(word in set(texts(path)) for path in files), f"{word} no longer stands in {place.name}"


@pytest.mark.parametrize("name", garments())
def test_readme_tells_every_key_of_a_style_and_of_its_fields(name: str) -> None:
    told = set(re.findall(r"`(\w+)`", (ROOT / "README.md").read_text("utf-8")))
    keys = {
        *garments()[name].style.model_fields,
        *(field.key for field in garments()[name].fields if "." not in field.key),
    }
    assert keys - told == set()
