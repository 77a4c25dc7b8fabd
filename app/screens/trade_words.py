"""Words of the trade on our screens, each with the one sentence that explains it at a tap."""

from typing import Final

import flet as ft

from app import parts
from app.screens.scene import Scene
from app.text import words

TRADE_WORDS: Final = ("selvage", "nap", "pegged", "ease", "allowance")
"""The words that explain themselves, where they stand on the cloth and on the shape screen."""


def trade_word(scene: Scene, word: str) -> ft.Control:
    """The word as a line to tap; ValueError for one that nobody has explained."""
    if word not in TRADE_WORDS:
        raise ValueError(f"nobody explained {word}")
    return scene.region(f"word-{word}", (scene.paper,), lambda: parts.explained(
        scene.paper, identifier=f"word-{word}", word=words(f"word.{word}"), says=words(f"word.{word}.says"),
    ))  # fmt: skip
