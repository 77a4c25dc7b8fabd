"""The app in server mode, made to fail in three places, each time with words that quote everything typed.

For tests that start it as a process of its own: dark fails where a choice is taken in, the pattern's picture where work
goes on behind the screen, the cloth screen where it is drawn. With --once only dark fails. There are
two garments, a top and a skirt.
"""

import argparse
from pathlib import Path
from typing import NoReturn

from another_garment import GARMENT, only

import app.main
from app import actions, screens
from app.screens.scene import Scene
from app.server import serve
from app.state import State
from app.update import Step
from drafting.record import documents
from drafting.record.papers import Papers


def unless_dark(state: State, action: actions.Action) -> Step:
    if isinstance(action, actions.SetLight) and action.light == "dark":
        raise ValueError(repr(state.book))
    return as_it_is(state, action)


def no_picture(papers: Papers) -> NoReturn:
    raise LookupError(repr(papers))


def no_cloth(scene: Scene) -> NoReturn:
    raise RuntimeError(repr(scene.state.book))


as_it_is = app.main.update
app.main.update = unless_dark  # type: ignore[attr-defined]

if __name__ == "__main__":
    reader = argparse.ArgumentParser()
    reader.add_argument("--host")
    reader.add_argument("--port", type=int)
    reader.add_argument("--log", type=Path)
    reader.add_argument("--once", action="store_true")
    given = reader.parse_args()
    only(GARMENT.name, "circle_skirt")
    if not given.once:
        documents.pattern_svg = no_picture
        screens.ALL["cloth"] = no_cloth
    serve(app.main.main, given.host, given.port, given.log)
