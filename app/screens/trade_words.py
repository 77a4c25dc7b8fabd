"""Words of the trade on our screens, each with the one sentence that explains it at a tap."""

import re
from collections.abc import Sequence
from typing import Final

import flet as ft

from app import parts
from app.screens.scene import Scene
from app.text import words
from app.theme import Look

TRADE_WORDS: Final = (
    "selvage", "nap", "recovery", "pegged", "ease", "allowance", "scye", "grain", "notch", "nape",
)  # fmt: skip
"""The words that explain themselves, where they stand on a screen."""
TOLD: Final = ("scye", "selvage", "grain", "notch", "allowance", "nape")
"""Those that stand in sentences of the core, looked for in what a screen tells; their plural too."""


def trade_word(scene: Scene, word: str, look: Look | None = None) -> ft.Control:
    """The word as a line to tap; ValueError for one that nobody has explained."""
    if word not in TRADE_WORDS:
        raise ValueError(f"nobody explained {word}")
    on = look or scene.paper
    return scene.region(f"word-{word}", (on,), lambda: parts.explained(
        on, identifier=f"word-{word}", word=words(f"word.{word}"), says=words(f"word.{word}.says"),
    ))  # fmt: skip


def words_in(said: Sequence[str]) -> list[str]:
    """The words of the trade that these sentences hold."""
    told = " ".join(said)
    return [word for word in TOLD if re.search(rf"\b{word}(e?s)?\b", told, re.IGNORECASE)]


def words_told(scene: Scene, said: Sequence[str], look: Look | None = None) -> list[ft.Control]:
    """A line to tap for each word of the trade that these sentences hold."""
    return [trade_word(scene, word, look) for word in words_in(said)]
