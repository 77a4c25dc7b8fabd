"""The app in server mode, opened in the middle of chalking: the demo's garment twice, in centimetres and in inches.

For test_chalk_screen.py, which starts it as a process of its own. Nothing is written to the browser.
"""

import argparse
from dataclasses import replace
from pathlib import Path

from records import loaded, texts

import app.main
from app import actions as act
from app.server import serve
from app.state import Book, FrozenDraft, State
from app.storage import MemoryStore, Record
from app.typed import order_of, order_text
from app.update import start, update
from drafting.order import make, read_order
from drafting.record.documents import draft_json

DEMO = (Path(app.main.__file__).resolve().parents[1] / "assets" / "demo" / "order.json").read_text("utf-8")


def in_work() -> tuple[Book, dict[str, FrozenDraft]]:
    """A book in which "g1" is chalked in centimetres and "g3" in inches, and their frozen drafts."""
    state: State = start("/")[0]
    steps = (loaded(), act.AddDemo(DEMO), act.AddDemo(DEMO), act.SetTape("g3", "1/8"))
    for action in steps:
        state = update(state, action)[0]
    book, frozen = state.book, {}
    for garment in book.garments:
        typed, _ = order_of(garment, book.person(garment.person))
        order, problems = read_order(typed or {})
        assert order is not None, problems
        frozen[garment.id] = FrozenDraft(order_text(typed or {}), draft_json(make(order)).decode())
    return replace(book, garments=tuple(replace(each, chalking=True) for each in book.garments)), frozen


class Filled(MemoryStore):
    """A store of one session that holds the book from the start."""

    def __init__(self, preferences: object) -> None:
        super().__init__()
        self._records |= RECORDS

    def close(self) -> None:
        """Nothing is to be let go of."""


if __name__ == "__main__":
    reader = argparse.ArgumentParser()
    reader.add_argument("--host")
    reader.add_argument("--port", type=int)
    reader.add_argument("--log", type=Path)
    given = reader.parse_args()
    book, frozen = in_work()
    RECORDS = {key: Record(text, 1) for key, text in texts(book, frozen).items()}
    app.main.ServerStore = Filled  # type: ignore[misc, assignment]
    serve(app.main.main, given.host, given.port, given.log)
